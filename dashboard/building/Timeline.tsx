import { For, Show } from 'solid-js';
import { constantUnder } from '../../analysis/constants.ts';
import type { BuildingDetail, EditionAnswer } from '../../analysis/session-types.ts';
import { plainWord } from '../parts/words.ts';
import { needInFull } from '../rank/need-words.ts';
import { useDesk } from '../state/desk.ts';
import { TimelineStrip } from './TimelineStrip.tsx';
import './timeline.css';

/** What the editions asked of the wall that sets the index: when it was built, and today. */
export function Timeline(props: { readonly detail: BuildingDetail }) {
  const { session } = useDesk();
  const editions = () => props.detail.timeline;
  const installed = () => {
    const worst = props.detail.walls.find(({ wall_id }) => wall_id === props.detail.row.wall_id);
    return typeof worst?.installed === 'number' ? worst.installed : null;
  };
  const lag = () => constantUnder(session.changes(), 'edition_lag_yr');
  return (
    <section class="timeline" aria-label="What was asked then and what is asked now">
      <h3>Asked then, asked now</h3>
      <Show
        when={editions().length > 0}
        fallback={<p>Which code applies cannot be told: the region is not on record.</p>}
      >
        <p class="soft">
          Wall {props.detail.row.wall_id},{' '}
          {installed() === null ? 'year not on record' : `built ${installed()}`}. Our reading of a
          model code, not of the law that applied; local codes and a licensed professional decide.
        </p>
        <TimelineStrip editions={editions()} installed={installed()} lag={lag()} />
        <Key installed={installed()} />
        <EditionTable
          caption="Editions that may have been in force then, and those read as today’s"
          editions={editions().filter(({ stoodThen, standsNow }) => stoodThen || standsNow)}
        />
        <details>
          <summary>Every edition read here, {editions().length}</summary>
          <EditionTable caption="Every edition read here" editions={editions()} />
        </details>
      </Show>
    </section>
  );
}

/** The marks in words; drawn with the strip's own, so hidden with it from those who hear the table. */
function Key(props: { readonly installed: number | null }) {
  const marks = [
    ['asks', 'asks'],
    ['quiet', 'does not ask'],
    ['open', 'cannot tell'],
  ] as const;
  return (
    <p class="timeline-key" aria-hidden="true">
      <For each={marks}>
        {([kind, words]) => (
          <span>
            <svg viewBox="0 0 12 12" aria-hidden="true">
              <g class={`edition ${kind}`}>
                <circle cx="6" cy="6" r="4.5" />
              </g>
            </svg>
            {words}
          </span>
        )}
      </For>
      <Show when={props.installed !== null}>
        <span>
          <svg viewBox="0 0 12 12" aria-hidden="true">
            <rect class="stood" width="12" height="12" />
            <line class="built" x1="11" x2="11" y1="0" y2="12" />
          </svg>
          may have been in force, up to the year built
        </span>
      </Show>
    </p>
  );
}

function EditionTable(props: {
  readonly caption: string;
  readonly editions: readonly EditionAnswer[];
}) {
  return (
    <section class="timeline-scroll" tabindex={0} aria-label={props.caption}>
      <table>
        <caption class="unseen">{props.caption}</caption>
        <thead>
          <tr>
            <th scope="col">Edition</th>
            <th scope="col">When</th>
            <th scope="col">Answer</th>
            <th scope="col">Asks for</th>
          </tr>
        </thead>
        <tbody>
          <For each={props.editions}>
            {(edition) => (
              <tr>
                <th scope="row">{edition.label}</th>
                <td>{whenWords(edition)}</td>
                <td>{needInFull(edition.answer)}</td>
                <td>{edition.asks ? plainWord(edition.asks) : ''}</td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </section>
  );
}

const whenWords = ({ stoodThen, standsNow }: EditionAnswer): string =>
  [stoodThen ? 'may have been in force then' : '', standsNow ? 'read as today’s' : '']
    .filter(Boolean)
    .join('; ');
