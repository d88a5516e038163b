import { For, type JSX, Show } from 'solid-js';
import { type SumTable, sumAt } from '../../analysis/exposure/sums.ts';
import type { Dimension, ExposureView } from '../../analysis/exposure/types.ts';
import { tiers } from '../../analysis/session-types.ts';
import { TierMark } from '../parts/TierMark.tsx';
import { filterWords } from '../rank/filter-sentence.ts';
import { useDesk } from '../state/desk.ts';
import type { Shown } from './form.ts';
import { LowHigh } from './LowHigh.tsx';
import type { PivotRow } from './pivot-rows.ts';
import { Sheet } from './Sheet.tsx';
import {
  absentWord,
  dimensionWords,
  isKnown,
  leftOut,
  levelWord,
  shownWords,
  sumDigits,
  unitOf,
} from './words.ts';

interface TableProps {
  readonly view: ExposureView;
  readonly shown: Shown;
  readonly rows: readonly PivotRow[];
}

/** One group of a table of sums; no group where no line lies. */
interface Sums {
  readonly shown: Shown;
  readonly sums: SumTable;
  readonly group: number | undefined;
}

/** The sums of all columns stand first: a reader meets the total before its parts, on a narrow screen too. */
export function PivotTable(props: TableProps) {
  const { state } = useDesk();
  const pivot = () => props.view.pivot;
  const says = () => {
    const { word } = shownWords.find(({ value }) => value === props.shown)!;
    const unit = unitOf(props.shown, props.view.currency, state.units);
    const filter = filterWords(state.filters, state.units);
    const out = leftOut(pivot().total, props.shown);
    return `${word.charAt(0).toUpperCase()}${word.slice(1)}${unit ? `, ${unit}` : ''}; ${filter ? `lines ${filter}` : 'all lines'}${out ? ` (${out})` : ''}. Beneath each sum of the first two tiers, the same with all priors leaning low – high.`;
  };
  return (
    <Sheet
      says={says()}
      class={`exposure-pivot${pivot().rows.dimensions.length === 1 ? ' one-head' : ''}`}
    >
      <thead>
        <tr>
          <For each={pivot().rows.dimensions}>
            {(d) => <th scope="col">{dimensionWords[d]}</th>}
          </For>
          <th scope="col" class="right margin">
            All
          </th>
          <th scope="col" class="right margin">
            First two tiers
          </th>
          <EachColumn view={props.view}>
            {(column) => (
              <th scope="col" class="right">
                <Level
                  view={props.view}
                  dimension={pivot().columns.dimensions[0]!}
                  code={pivot().columns.levels[0]![column]!}
                />
              </th>
            )}
          </EachColumn>
        </tr>
      </thead>
      <tbody>
        <For each={props.rows}>{(row) => <Row {...props} row={row} />}</For>
      </tbody>
      <Foot {...props} />
    </Sheet>
  );
}

/** The columns of the pivot, where it has any. */
function EachColumn(props: {
  readonly view: ExposureView;
  readonly children: (column: number) => JSX.Element;
}) {
  const columns = () => {
    const { dimensions, n } = props.view.pivot.columns;
    return dimensions.length > 0 ? Array.from({ length: n }, (_, column) => column) : [];
  };
  return <For each={columns()}>{(column) => props.children(column)}</For>;
}

function Row(props: TableProps & { readonly row: PivotRow }) {
  const pivot = () => props.view.pivot;
  return (
    <tr>
      <For each={props.row.heads}>
        {({ dimension, code, span }) => (
          <th scope={span > 1 ? 'rowgroup' : 'row'} rowspan={span}>
            <Level view={props.view} dimension={dimension} code={code} />
          </th>
        )}
      </For>
      <Margins shown={props.shown} sums={pivot().rows.sums} group={props.row.row} />
      <EachColumn view={props.view}>
        {(column) => (
          <td>
            <Sum
              shown={props.shown}
              sums={pivot().cells.sums}
              group={props.row.cells.get(column)}
            />
          </td>
        )}
      </EachColumn>
    </tr>
  );
}

function Foot(props: TableProps) {
  const pivot = () => props.view.pivot;
  const heads = () => pivot().rows.dimensions.length;
  return (
    <tfoot>
      <tr>
        <th scope="row" colspan={heads()}>
          All
        </th>
        <Margins shown={props.shown} sums={pivot().total} group={0} />
        <EachColumn view={props.view}>
          {(column) => (
            <td>
              <Sum shown={props.shown} sums={pivot().columns.sums} group={column} />
            </td>
          )}
        </EachColumn>
      </tr>
      <Show when={pivot().columns.dimensions.length > 0}>
        <tr>
          <th scope="row" colspan={heads()}>
            First two tiers
          </th>
          <td class="margin">
            <FirstTwo shown={props.shown} sums={pivot().total} group={0} />
          </td>
          <td class="margin" />
          <EachColumn view={props.view}>
            {(column) => (
              <td>
                <FirstTwo shown={props.shown} sums={pivot().columns.sums} group={column} />
              </td>
            )}
          </EachColumn>
        </tr>
      </Show>
    </tfoot>
  );
}

function Level(props: {
  readonly view: ExposureView;
  readonly dimension: Dimension;
  readonly code: number;
}) {
  const { state } = useDesk();
  return (
    <>
      <Show when={props.dimension === 'tier'}>
        <TierMark tier={tiers[props.code]!} />{' '}
      </Show>
      {levelWord(props.view.words, props.dimension, props.code, state.units)}
    </>
  );
}

function Margins(props: Sums) {
  return (
    <>
      <td class="margin">
        <Sum {...props} />
      </td>
      <td class="margin">
        <FirstTwo {...props} />
      </td>
    </>
  );
}

/** A sum over all lines; a dot where no line lies, words where lines lie and none says. */
function Sum(props: Sums) {
  const { state } = useDesk();
  const word = () => {
    const { shown, sums, group } = props;
    if (group === undefined) return '·';
    if (!isKnown(sums, shown, group)) return absentWord(sums, shown, group);
    return sumDigits(sumAt(sums, shown, group, 'all'), shown, state.units);
  };
  const absent = () => props.group === undefined || !isKnown(props.sums, props.shown, props.group);
  return (
    <span classList={{ absent: absent() }}>
      {word()}
      <Show when={props.group === undefined}>
        <span class="unseen"> no line</span>
      </Show>
    </span>
  );
}

function FirstTwo(props: Sums) {
  const { state } = useDesk();
  return (
    <Show
      when={props.group !== undefined && isKnown(props.sums, props.shown, props.group)}
      fallback={<span class="absent">{absentWord(props.sums, props.shown, props.group ?? 0)}</span>}
    >
      {sumDigits(sumAt(props.sums, props.shown, props.group!, 'mean'), props.shown, state.units)}
      <LowHigh sums={props.sums} group={props.group!} shown={props.shown} />
    </Show>
  );
}
