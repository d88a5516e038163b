import type { Band } from '../../analysis/bands.ts';
import type { Condition } from '../../analysis/session-types.ts';
import { sum } from '../../analysis/sift/tally-codes.ts';
import type { MatrixTally } from '../../analysis/sift/tally-matrix.ts';
import { amongOf, type Filters } from '../state/page-state.ts';
import { sameCondition } from './condition.ts';
import { foremost } from './foremost.ts';

export interface MatrixCell {
  readonly kept: number;
  readonly pressing: number;
  readonly whole: number;
  /** Depth of ink, 0-1: by the square root of the count. */
  readonly ink: number;
  readonly chosen: boolean;
}

export interface MatrixRow {
  /** null: no record. */
  readonly word: string | null;
  readonly chosen: boolean;
  readonly cells: readonly MatrixCell[];
}

export interface MatrixShape {
  readonly rows: readonly MatrixRow[];
  /** Rows left out, and the buildings in them that pass. */
  readonly rest: { readonly rows: number; readonly kept: number };
  /** The condition of each column, the last one no record, and whether it is chosen. */
  readonly eras: readonly {
    readonly label: string;
    readonly condition: Condition;
    readonly chosen: boolean;
  }[];
}

const noRecord: Condition = { among: [null] };

const conditionOf = ({ from, below }: Band): Condition => ({
  ...(from !== undefined && { from }),
  ...(below !== undefined && { below }),
});

const eraConditions = ({ bands }: MatrixTally) => [
  ...bands.map((band) => ({ label: band.label, condition: conditionOf(band) })),
  { label: 'no record', condition: noRecord },
];

/** Materials down, eras across; as many rows as there is room for, those that are chosen among them. */
export function matrixShape(tally: MatrixTally, filters: Filters, room: number): MatrixShape {
  const chosenWords = amongOf(filters, 'material');
  const era = filters.on.installed_used;
  const eras = eraConditions(tally).map((column) => ({
    ...column,
    chosen: sameCondition(era, column.condition),
  }));
  const { shown, left } = foremost(tally.words, chosenWords, room);
  const eraSet = era !== undefined;
  const cell = cellsOf(tally);
  const rows = shown.map((row) => {
    const chosen = chosenWords.includes(tally.words[row]!);
    return {
      word: tally.words[row]!,
      chosen,
      cells: eras.map((column, i) => ({
        ...cell(row, i),
        chosen: crossed(chosen, chosenWords.length > 0, column.chosen, eraSet),
      })),
    };
  });
  return { rows, eras, rest: { rows: left.length, kept: keptIn(tally, left) } };
}

/** A cell is chosen where its row and its column are, and one of them at least is filtered by. */
const crossed = (row: boolean, rowSet: boolean, column: boolean, columnSet: boolean): boolean =>
  (rowSet || columnSet) && (row || !rowSet) && (column || !columnSet);

function cellsOf({ bands, kept, pressing, whole }: MatrixTally) {
  const width = bands.length + 1;
  const most = Math.max(1, ...kept);
  return (row: number, column: number) => {
    const at = row * width + column;
    const ink = Math.round(Math.sqrt(kept[at]! / most) * 100) / 100;
    return { kept: kept[at]!, pressing: pressing[at]!, whole: whole[at]!, ink };
  };
}

const keptIn = ({ bands, kept }: MatrixTally, rows: readonly number[]): number =>
  sum(rows.map((row) => sum(kept, row * (bands.length + 1), (row + 1) * (bands.length + 1))));
