import type { Condition } from '../../analysis/session-types.ts';
import type { ViewsAnswer } from '../../analysis/sift/tallies.ts';
import type { Units } from '../parts/quantity.ts';
import type { Filters } from '../state/page-state.ts';

/** Conditions that a chart sets, by column; null lifts what was there. */
export type Conditions = Readonly<Record<string, Condition | null>>;

/** What every chart is a function of. */
export interface ChartProps {
  readonly answer: ViewsAnswer;
  readonly filters: Filters;
  readonly units: Units;
  /** While a brush is drawn: at most once a frame. Null: the drawing was given up, what was there stands again. */
  readonly onPreview: (conditions: Conditions | null) => void;
  /** A choice is made: one step of undo. */
  readonly onCommit: (conditions: Conditions) => void;
}
