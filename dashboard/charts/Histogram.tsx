import { createMemo, For } from 'solid-js';
import { tiers } from '../../analysis/session-types.ts';
import { perTier, sum } from '../../analysis/sift/tally-codes.ts';
import { tierMarks } from '../map/tier-marks.ts';
import { counted } from '../parts/format.ts';
import { rangeOf } from '../state/page-state.ts';
import { Axes } from './Axes.tsx';
import { BrushField } from './BrushField.tsx';
import { boxOf } from './box.ts';
import type { Cover } from './brush.ts';
import { ChartFrame } from './ChartFrame.tsx';
import { conditionOf, spanOf } from './condition.ts';
import { createBrush, nothingCovered } from './create-brush.ts';
import { createWidth } from './create-width.ts';
import { EdgeInputs } from './EdgeInputs.tsx';
import { histogramShape } from './histogram-shape.ts';
import { indexReading, indexWords, leftFor } from './readings.ts';
import type { ChartProps } from './types.ts';

/** How the index is spread, stacked by tier; brushing takes a range of it. */
export function Histogram(props: ChartProps) {
  const [width, attach] = createWidth();
  const box = createMemo(() => boxOf(width()));
  const tally = () => props.answer.histogram;
  const bins = () => ({ x: tally().whole.length, y: 1 });
  const shape = createMemo(() => histogramShape(tally(), box()));
  const asked = (cover: Cover) => ({ index: conditionOf(tally().edges, cover.x) });
  const brush = createBrush({
    box,
    bins,
    cover: () => ({ x: spanOf(tally().edges, rangeOf(props.filters, 'index')), y: null }),
    onPreview: (cover) => props.onPreview(cover && asked(cover)),
    onCommit: (cover) => props.onCommit(asked(cover)),
  });
  const edge = (at: number) => indexWords(tally().edges[Math.round(at)]!);
  const pointed = () => {
    const bin = Math.floor(brush.pointed()?.x ?? -1);
    if (bin < 0 || bin >= bins().x) return;
    const here = sum(tally().kept, bin * perTier, (bin + 1) * perTier);
    return `${edge(bin)}–${edge(bin + 1)}: ${counted(here, 'building')}`;
  };
  return (
    <ChartFrame
      title="Index"
      chosen={brush.cover().x !== null}
      left={leftFor.histogram(props.answer)}
      reading={indexReading(props.answer, props.filters)}
      onClear={() => brush.commit(nothingCovered)}
    >
      <div class="brushed" ref={attach}>
        <BrushField
          name="Histogram of the index"
          box={box()}
          bins={bins()}
          brush={brush}
          pointed={pointed()}
        >
          <Axes box={box()} x={shape().x} y={shape().y} across="index" upward="buildings" />
          <For each={tiers}>
            {(tier, i) => (
              <path
                class="tiered tier-fill"
                d={shape().bars[i()]}
                style={{ '--on-light': tierMarks[tier].light, '--on-dark': tierMarks[tier].dark }}
              />
            )}
          </For>
          <path class="outline" d={shape().outline} />
        </BrushField>
        <EdgeInputs
          name="Index"
          bins={bins().x}
          span={brush.cover().x}
          words={edge}
          onPreview={(x) => brush.preview({ x, y: null })}
          onCommit={(x) => brush.commit({ x, y: null })}
        />
      </div>
    </ChartFrame>
  );
}
