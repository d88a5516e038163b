import { For, Show } from 'solid-js';
import { type Frame, rankings, type Tier, tiers } from '../../analysis/session-types.ts';
import { Choice } from '../parts/Choice.tsx';
import { digits } from '../parts/format.ts';
import { PickList } from '../parts/PickList.tsx';
import { TierMark } from '../parts/TierMark.tsx';
import { rankBy, setHeight, setSearch, toggleIn, toggleTier } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { heightBands } from '../state/page-state.ts';
import { heightWords, rankWords } from './filter-sentence.ts';
import { SortPick } from './SortPick.tsx';

const rankOptions = rankings.map((value) => ({ value, word: rankWords[value] }));

/** What the ranking is by and what it lets through. The tier buttons are the marks' legend as well. */
export function Controls(props: { readonly frame: Frame }) {
  const { state, apply, narrow } = useDesk();
  const all = () => (
    <>
      <Choice
        legend="Rank by"
        words={rankOptions}
        value={state.by}
        onChoose={(by) => apply(rankBy(by))}
      />
      <TierPick counts={props.frame.counts.tier} />
      <div class="picks">
        <PickList
          title="Region"
          options={props.frame.counts.region}
          chosen={state.filters.region}
          onToggle={(value) => apply(toggleIn('region', value))}
        />
        <PickList
          title="Material"
          options={props.frame.counts.material}
          chosen={state.filters.material}
          onToggle={(value) => apply(toggleIn('material', value))}
        />
        <HeightPick />
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
            aria-pressed={state.filters.tier.includes(tier)}
            onClick={() => apply(toggleTier(tier))}
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
  const { state, apply } = useDesk();
  const at = () =>
    heightBands.findIndex(
      (h) => h.from === state.filters.height?.from && h.below === state.filters.height?.below,
    );
  return (
    <label class="height-pick">
      Height{' '}
      <select
        value={String(state.filters.height ? at() : -1)}
        onChange={(event) =>
          apply(setHeight(heightBands[Number(event.currentTarget.value)] ?? null))
        }
      >
        <option value="-1">any</option>
        <For each={heightBands}>
          {(band, i) => <option value={String(i())}>{heightWords(band, state.units)}</option>}
        </For>
      </select>
    </label>
  );
}
