import { Show } from 'solid-js';
import { useDesk } from '../state/desk.ts';
import { type Figure, figureOf, money, noRecord, tight, type Value } from './format.ts';
import { columnKinds } from './quantity.ts';
import { label } from './words.ts';
import './number.css';

interface NumberProps {
  readonly value: Value;
  /** Column of the ranking or of a wall: decides the unit, and what the ledger derives. */
  readonly column: string;
  readonly b: number;
  readonly wall?: number | undefined;
  readonly currency?: Value;
  /** False for the buttons of rows that are not selected: arrow keys bring the reader there first. */
  readonly reachable?: boolean;
}

/** A number that is a door: dotted underline, its ledger behind it. *No record* is not a door. */
export function OpenNumber(props: NumberProps) {
  const desk = useDesk();
  const isOpen = () => {
    const open = desk.ledger();
    return open?.b === props.b && open.column === props.column && open.wall === props.wall;
  };
  const open = (event: MouseEvent & { currentTarget: HTMLElement }) => {
    event.stopPropagation();
    if (isOpen()) return desk.closeLedger();
    const { b, column, wall } = props;
    desk.openLedger({
      b,
      column,
      ...(wall !== undefined && { wall }),
      anchor: event.currentTarget,
    });
  };
  return (
    <Show
      when={typeof props.value === 'number'}
      fallback={<span class="absent">{absence(props.column)}</span>}
    >
      <button
        type="button"
        class="number"
        tabindex={props.reachable === false ? -1 : 0}
        aria-haspopup="dialog"
        aria-expanded={isOpen()}
        onClick={open}
      >
        <Digits figure={figure(props, desk.state.units)} />
        <span class="unseen">: how {label(props.column)} comes about</span>
      </button>
    </Show>
  );
}

/** A fact that is missing has no record; an index that is missing was not scored. */
const absence = (column: string): string => (column.startsWith('index') ? 'not scored' : noRecord);

function figure(props: NumberProps, units: 'metric' | 'american'): Figure {
  const kind = columnKinds[props.column] ?? 'plain';
  const value = props.value as number;
  if (kind !== 'money') return figureOf(value, kind, units);
  const [digits = '', unit = ''] = money(value, props.currency).split('\u00a0');
  return { digits, unit };
}

/** Digits with their unit set smaller beside them. */
export function Digits(props: { readonly figure: Figure }) {
  return (
    <>
      <span class="digits">{props.figure.digits}</span>
      <Show when={props.figure.unit}>
        {tight(props.figure.unit) ? '' : '\u00a0'}
        <span class="unit">{props.figure.unit}</span>
      </Show>
    </>
  );
}
