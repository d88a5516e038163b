import { createResource, createSignal, For, Show } from 'solid-js';
import { defaultSettings } from '../../analysis/settings.ts';
import type { Learnt } from '../../analysis/survey/learn.ts';
import { Choice } from '../parts/Choice.tsx';
import { digits, facing } from '../parts/format.ts';
import { TermLine } from '../parts/TermLine.tsx';
import { plainWord } from '../parts/words.ts';
import { openBuilding } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { percent } from './figures.ts';
import {
  type FoundWall,
  findWall,
  type ListedWall,
  type ListOrder,
  listedWalls,
  thresholdWords,
} from './listed-walls.ts';
import { indexScale } from './plot.ts';
import { ScaleWords, Whisker } from './Whisker.tsx';

/** Walls shown at a time: each is looked up in the ranking. */
const window = 15;

const orders = [
  { value: 'undecided', word: 'most undecided first' },
  { value: 'chance', word: 'highest calibrated chance first' },
] as const;

/** Walls that are not opened yet, beside their index: those worth opening next. */
export function WallList(props: { readonly learnt: Learnt }) {
  const [order, setOrder] = createSignal<ListOrder>('undecided');
  const [limit, setLimit] = createSignal(window);
  const shown = () => props.learnt.calibration.shown;
  const walls = () => listedWalls(props.learnt, shown() ? order() : 'undecided');
  return (
    <section class="wall-list" aria-labelledby="wall-list-title">
      <h4 id="wall-list-title">Walls not opened yet, the most undecided</h4>
      <TermLine of={['undecided', 'spread', 'low_high', 'tier']} />
      <p class="soft">
        {props.learnt.byLearning
          ? 'Ranked by how many other walls would be expected to change tier, by calibrated chance, once this one was opened.'
          : 'Ranked by how far the index spreads where that reaches over the threshold of a tier: one look there settles a place that records cannot.'}{' '}
        Another use than a sample: walls picked from this list bear no estimate.
      </p>
      <Show when={shown()}>
        <p>
          <b>{learntFrom(props.learnt)}</b> Where it is blank, the wall lies beyond what was opened.
        </p>
        <Choice legend="Order" words={orders} value={order()} onChoose={setOrder} />
      </Show>
      <Show
        when={walls().length > 0}
        fallback={
          <p class="panel-state">
            No wall is undecided: every index lies in one tier from low to high, or every wall is
            opened. That is no clearance.
          </p>
        }
      >
        <div class="estimates">
          <table>
            <caption class="unseen">Walls not opened yet</caption>
            <thead>
              <tr>
                <th scope="col">Wall</th>
                <th scope="col">Index, low to high</th>
                <th scope="col">
                  <ScaleWords low="0" high="100" />
                </th>
                <th scope="col">
                  {props.learnt.byLearning ? 'Other walls that would change tier' : 'Spread'}
                </th>
                <th scope="col">Reaches over</th>
                <Show when={shown()}>
                  <th scope="col">Calibrated chance of softened or decayed sheathing</th>
                </Show>
              </tr>
            </thead>
            <tbody>
              <For each={walls().slice(0, limit())}>
                {(wall) => <WallLine wall={wall} learnt={props.learnt} />}
              </For>
            </tbody>
          </table>
        </div>
        <Show when={walls().length > limit()}>
          <button type="button" class="plain-button" onClick={() => setLimit((n) => n + window)}>
            Show {window} more
          </button>
        </Show>
      </Show>
    </section>
  );
}

const learntFrom = ({ calibration }: Learnt): string =>
  `The calibrated chance was learnt from these ${calibration.learning?.walls ?? 0} walls, not for other portfolios.`;

function WallLine(props: { readonly wall: ListedWall; readonly learnt: Learnt }) {
  const { session } = useDesk();
  const [found] = createResource(
    () => ({ unit: props.wall.unit, version: session.opened()?.version }),
    ({ unit }) => findWall(session.analyst, unit).catch(() => null),
  );
  const number = (column: string) => Number(found.latest?.wall[column] ?? Number.NaN);
  const worth = () => {
    const { worth } = props.wall;
    if (worth === null) return '';
    return props.learnt.byLearning ? digits(worth, 1) : `${digits(worth, 1)} points`;
  };
  const constants = () => ({
    ...defaultSettings.constants,
    ...(session.changes().constants as Record<string, number> | undefined),
  });
  return (
    <tr>
      <th scope="row">
        <Show when={found.latest} fallback={props.wall.unit}>
          {(one) => <Named found={one()} />}
        </Show>
      </th>
      <td data-label="Index, low to high">
        <Show when={found.latest} fallback="…">
          <b>{digits(number('index'), 1)}</b>{' '}
          <span class="soft">
            {digits(number('index_low'), 1)} to {digits(number('index_high'), 1)}
          </span>
        </Show>
      </td>
      <td>
        <Show when={found.latest}>
          <Whisker
            scale={indexScale}
            low={number('index_low')}
            middle={number('index')}
            high={number('index_high')}
          />
        </Show>
      </td>
      <td data-label={props.learnt.byLearning ? 'Other walls that would change tier' : 'Spread'}>
        {worth()}
      </td>
      <td data-label="Reaches over">{thresholdWords(props.wall.thresholds, constants())}</td>
      <Show when={props.learnt.calibration.shown}>
        <td data-label="Calibrated chance">
          {props.wall.chance === null ? '' : percent(props.wall.chance)}
        </td>
      </Show>
    </tr>
  );
}

/** The wall by name, and the way to its building. */
function Named(props: { readonly found: FoundWall }) {
  const { apply } = useDesk();
  const wall = () => props.found.wall;
  return (
    <>
      <button
        type="button"
        class="plain-button"
        aria-label={`Open building ${props.found.building}, wall ${wall().wall_id}`}
        onClick={() => apply(openBuilding(props.found.b))}
      >
        {props.found.building}, {wall().wall_id}
      </button>
      <span class="line soft">
        {wall().material ? plainWord(`${wall().material}`) : 'no record of cladding'}, faces{' '}
        {facing(wall().azimuth_deg)}
      </span>
    </>
  );
}
