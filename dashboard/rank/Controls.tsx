import { For, Show } from 'solid-js';
import { heightBands } from '../../analysis/bands.ts';
import { type Frame, rankings, type Tier, tiers } from '../../analysis/session-types.ts';
import { Choice } from '../parts/Choice.tsx';
import { digits } from '../parts/format.ts';
import { PickList } from '../parts/PickList.tsx';
import { TierMark } from '../parts/TierMark.tsx';
import { rankBy, setCondition, setSearch, toggleAmong } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { amongOf, rangeOf } from '../state/page-state.ts';
import { rangeWords, rankWords } from './filter-sentence.ts';
import { SortPick } from './SortPick.tsx';
import { Weights } from './Weights.tsx';

const rankOptions = rankings.map((value) => ({ value, word: rankWords[value] }));

/** What the ranking is by and what it lets through. The tier buttons are the marks' legend as well. */
export function Controls(props: { readonly frame: Frame }) {
  const { state, apply, narrow, session } = useDesk();
  const all = () => (
    <>
      <Choice
        legend="Rank by"
        words={rankOptions}
        value={state.by}
        onChoose={(by) => apply(rankBy(by))}
      />
      <TierPick counts={session.live()?.counts ?? props.frame.counts.tier} />
      <div class="picks">
        <PickList
          title="Region"
          options={props.frame.counts.region}
          chosen={amongOf(state.filters, 'region')}
          onToggle={(value) => apply(toggleAmong('region', value))}
        />
        <PickList
          title="Material"
          options={props.frame.counts.material}
          chosen={amongOf(state.filters, 'material')}
          onToggle={(value) => apply(toggleAmong('material', value))}
        />
        <HeightPick />
        <Weights />
      </div>
      <Show when={narrow()}>
        <SortPick />
      </Show>
    </>
  );
  return (
    <div class="controls">
      <Search />
      <Show when={narrow()} fallback={all()}>
        <details class="more-controls">
          <summary>Rank by, filter, sort</summary>
          <div class="more-body">{all()}</div>
        </details>
      </Show>
    </div>
  );
}

function Search() {
  const { state, apply } = useDesk();
  return (
    <label class="search">
      <span class="unseen">Search id, name, address, city</span>
      <input
        type="search"
        placeholder="Search id, name, city"
        value={state.filters.search}
        onInput={(event) => apply(setSearch(event.currentTarget.value))}
      />
    </label>
  );
}

function TierPick(props: { readonly counts: Readonly<Record<Tier, number>> }) {
  const { state, apply } = useDesk();
  return (
    <fieldset class="tier-pick">
      <legend class="unseen">Tiers shown</legend>
      <For each={tiers}>
        {(tier) => (
          <button
            type="button"
            aria-pressed={amongOf(state.filters, 'tier').includes(tier)}
            onClick={() => apply(toggleAmong('tier', tier))}
          >
            <TierMark tier={tier} />
            {tier} <span class="count">{digits(props.counts[tier] ?? 0, 0)}</span>
          </button>
        )}
      </For>
    </fieldset>
  );
}

function HeightPick() {
  const column = 'height_used_m';
  const { state, apply } = useDesk();
  const height = () => rangeOf(state.filters, column);
  const at = () =>
    heightBands.findIndex((h) => h.from === height()?.from && h.below === height()?.below);
  return (
    <label class="height-pick">
      Height{' '}
      <select
        value={String(height() ? at() : -1)}
        onChange={(event) =>
          apply(setCondition(column, heightBands[Number(event.currentTarget.value)] ?? null))
        }
      >
        <option value="-1">any</option>
        <For each={heightBands}>
          {(band, i) => (
            <option value={String(i())}>{rangeWords(column, band, state.units)}</option>
          )}
        </For>
      </select>
    </label>
  );
}
