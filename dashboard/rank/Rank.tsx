import {
  type Accessor,
  createMemo,
  createSignal,
  Match,
  onCleanup,
  onMount,
  Show,
  Switch,
} from 'solid-js';
import { CautionLine } from '../parts/Cautions.tsx';
import { late } from '../parts/late.tsx';
import { useDesk } from '../state/desk.ts';
import type { Opened } from '../state/session.ts';
import { BudgetLine } from './BudgetLine.tsx';
import { Chase, ChaseFold } from './Chase.tsx';
import { Controls } from './Controls.tsx';
import { FilterSentence } from './FilterSentence.tsx';
import { LinkedViews } from './LinkedViews.tsx';
import { RankTable } from './RankTable.tsx';
import { createRanking, type Ranking } from './ranking.ts';
import { Skeleton } from './Skeleton.tsx';
import './rank.css';

const MapPane = late(
  async () => (await import('./MapPane.tsx')).MapPane,
  'Drawing the rain sheet …',
);

const BuildingSheet = late(
  async () => (await import('../building/BuildingSheet.tsx')).BuildingSheet,
  'Opening the building …',
);

/** The ranking: caution, controls, the table with its strips, and the rain sheet beside it. */
export function Rank() {
  const desk = useDesk();
  // The page waits for the engine anyway.
  onMount(() => desk.beside() && setTimeout(MapPane.ahead));
  return (
    <section class="rank" aria-label="Rank" data-open={desk.state.opened || undefined}>
      <h2 class="unseen">Ranking of buildings</h2>
      <CautionLine />
      <Show when={desk.session.opened() && reading(desk.session.phase())}>
        {(what) => (
          <p class="reading-line" role="status">
            <b>Reading {what()} …</b> Until it is read, what was open before is shown.
          </p>
        )}
      </Show>
      <Switch fallback={<Skeleton what={opening(desk.session.phase())} />}>
        <Match when={desk.session.opened()?.files} keyed>
          <Show when={desk.session.opened()}>{(opened) => <Ranked opened={opened()} />}</Show>
        </Match>
        <Match when={refused(desk.session.phase())}>
          {(words) => (
            <p class="panel-state" role="alert">
              {words()}
            </p>
          )}
        </Match>
        <Match when={desk.session.phase().kind === 'trouble'}>
          <p class="panel-state">Nothing is open. The analysis has to be started again.</p>
        </Match>
      </Switch>
    </section>
  );
}

/** What is being read, in words; null where nothing is. */
const reading = (phase: { kind: string; what?: string }): string | null =>
  phase.kind === 'opening' ? (phase.what ?? 'the files') : null;

/** Why what was to be read was not, in words; null where it was. */
const refused = (phase: { kind: string; file?: string; message?: string }): string | null =>
  phase.kind === 'refused' ? `${phase.file || 'The file'} was not read. ${phase.message}` : null;

const opening = (phase: { kind: string; what?: string }): string =>
  `Reading ${phase.what ?? 'the files'}, placing buildings, sampling rain, scoring walls …`;

/** How long map and chase beside the table wait for its first rows, which would come later for them, ms. */
const longestWait = 400;

function createRowsFirst({ rowsStand }: Ranking): Accessor<boolean> {
  const [waited, setWaited] = createSignal(false);
  const timer = setTimeout(() => setWaited(true), longestWait);
  onCleanup(() => clearTimeout(timer));
  return createMemo((before: boolean) => before || waited() || rowsStand(), false);
}

function Ranked(props: { readonly opened: Opened }) {
  const desk = useDesk();
  const ranking = createRanking(() => props.opened);
  const rowsFirst = createRowsFirst(ranking);
  const showMap = () => !desk.state.opened && (desk.beside() || desk.state.half === 'map');
  return (
    <>
      <Controls frame={props.opened.frame} />
      <FilterSentence ranking={ranking} />
      <BudgetLine opened={props.opened} />
      <Show when={!desk.state.opened}>
        <LinkedViews ranking={ranking} />
      </Show>
      <div
        class="rank-body"
        data-half={desk.beside() || desk.state.opened ? undefined : desk.state.half}
      >
        <RankTable ranking={ranking} />
        <Show when={showMap()}>
          <div class="rank-side">
            <Show
              when={!desk.beside() || rowsFirst()}
              fallback={<p class="panel-state">Drawing the rain sheet …</p>}
            >
              <MapPane ranking={ranking} />
              <Chase opened={props.opened} />
            </Show>
          </div>
        </Show>
        <Show when={desk.state.opened && desk.state.selected !== null}>
          <BuildingSheet b={desk.state.selected ?? 0} ranking={ranking} />
        </Show>
      </div>
      <Show when={!desk.beside() && !desk.state.opened && desk.state.half === 'list'}>
        <ChaseFold opened={props.opened} />
      </Show>
    </>
  );
}
