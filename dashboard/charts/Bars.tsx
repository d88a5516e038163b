import { createMemo, Index, Show } from 'solid-js';
import type { Tier } from '../../analysis/session-types.ts';
import { tierMarks } from '../map/tier-marks.ts';
import { counted } from '../parts/format.ts';
import { type BarRow, barsShape, type Segment } from './bars-shape.ts';
import { ChartFrame } from './ChartFrame.tsx';
import { sameCondition, withWord } from './condition.ts';
import { createWidth } from './create-width.ts';
import { Rest } from './Rest.tsx';
import { RowName } from './RowName.tsx';
import { barsReading, leftFor } from './readings.ts';
import { shortCount } from './short-count.ts';
import type { ChartProps } from './types.ts';
import { walk, walkWords } from './walk.ts';

/** Rows that a chart has room for. */
const ROOM = 7;
/** Least length of a segment that has room for its mark, px. */
const MARKED = 17;

/** Regions, each a bar of its tiers. A name chooses the region, a segment the region and its tier. */
export function Bars(props: ChartProps) {
  const [width, attach] = createWidth();
  const shape = createMemo(() => barsShape(props.answer.bars, props.filters, ROOM));
  const on = () => props.filters.on;
  const chooseRegion = (word: string | null) =>
    props.onCommit({ region: withWord(props.filters, 'region', word) });
  const chooseTier = (word: string | null, name: Tier) => {
    const [region, tier] = [{ among: [word] }, { among: [name] }];
    const again = sameCondition(on().region, region) && sameCondition(on().tier, tier);
    props.onCommit(again ? { region: null, tier: null } : { region, tier });
  };
  return (
    <ChartFrame
      title="Tier by region"
      chosen={on().region !== undefined || on().tier !== undefined}
      left={leftFor.bars(props.answer)}
      reading={barsReading(props.answer, props.filters)}
      onClear={() => props.onCommit({ region: null, tier: null })}
    >
      <table class="bars" ref={attach} onKeyDown={walk}>
        <caption class="unseen">Buildings by region and tier. {walkWords}</caption>
        <colgroup>
          <col class="name-column" />
          <col />
          <col class="count-column" />
        </colgroup>
        <tbody>
          <Index each={shape().rows}>
            {(row, i) => (
              <RegionRow
                row={row()}
                first={i === 0}
                room={Math.max(60, width() - 146)}
                onRegion={() => chooseRegion(row().word)}
                onTier={(tier) => chooseTier(row().word, tier)}
              />
            )}
          </Index>
        </tbody>
      </table>
      <Rest of={shape().rest} noun="region" />
    </ChartFrame>
  );
}

function RegionRow(props: {
  readonly row: BarRow;
  readonly first: boolean;
  /** Length of the longest bar, px. */
  readonly room: number;
  readonly onRegion: () => void;
  readonly onTier: (tier: Tier) => void;
}) {
  return (
    <tr>
      <RowName
        word={props.row.word}
        chosen={props.row.chosen}
        entry={props.first}
        onChoose={props.onRegion}
      />
      <td>
        <div class="tier-bar">
          <Index each={props.row.segments}>
            {(segment) => (
              <SegmentButton
                segment={segment()}
                marked={segment().share * props.room >= MARKED}
                onTier={props.onTier}
              />
            )}
          </Index>
          <span class="bar-outline" style={{ width: `${props.row.outline * 100}%` }} />
        </div>
      </td>
      <td class="bar-count">{shortCount(props.row.kept)}</td>
    </tr>
  );
}

function SegmentButton(props: {
  readonly segment: Segment;
  readonly marked: boolean;
  readonly onTier: (tier: Tier) => void;
}) {
  const words = () => `${props.segment.tier}: ${counted(props.segment.kept, 'building')}`;
  const mark = () => tierMarks[props.segment.tier];
  return (
    <button
      type="button"
      class="tiered segment"
      tabindex={-1}
      aria-label={words()}
      title={words()}
      aria-pressed={props.segment.chosen}
      style={{
        width: `${props.segment.share * 100}%`,
        '--on-light': mark().light,
        '--on-dark': mark().dark,
      }}
      onClick={() => props.onTier(props.segment.tier)}
    >
      <Show when={props.marked}>
        <svg class="segment-mark" viewBox="0 0 24 24" aria-hidden="true">
          <path d={mark().path} fill-rule="evenodd" />
        </svg>
      </Show>
    </button>
  );
}
