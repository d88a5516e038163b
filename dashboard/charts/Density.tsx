import { createMemo, For, Show } from 'solid-js';
import { digits, figureOf } from '../parts/format.ts';
import { rangeOf } from '../state/page-state.ts';
import { Axes } from './Axes.tsx';
import { BrushField } from './BrushField.tsx';
import { boxOf } from './box.ts';
import type { Cover, Place, Span } from './brush.ts';
import { ChartFrame } from './ChartFrame.tsx';
import { conditionOf, spanOf } from './condition.ts';
import { createBrush, nothingCovered } from './create-brush.ts';
import { createWidth } from './create-width.ts';
import { densityShape } from './density-shape.ts';
import { EdgeInputs } from './EdgeInputs.tsx';
import { densityReading, lackingWords, leftFor, wettingWords } from './readings.ts';
import type { ChartProps } from './types.ts';

/** The worst wall of each building: how wet it gets against how much of the drainage asked for it lacks. */
export function Density(props: ChartProps) {
  const [width, attach] = createWidth();
  const box = createMemo(() => boxOf(width()));
  const tally = () => props.answer.density;
  const bins = () => ({ x: tally().x.length - 1, y: tally().y.length - 1 });
  const shape = createMemo(() => densityShape(tally(), box(), props.units));
  const asked = (cover: Cover) => ({
    wetting_l_m2: conditionOf(tally().x, cover.x),
    adequacy: conditionOf(tally().y, cover.y),
  });
  const brush = createBrush({
    box,
    bins,
    cover: () => ({
      x: spanOf(tally().x, rangeOf(props.filters, 'wetting_l_m2')),
      y: spanOf(tally().y, rangeOf(props.filters, 'adequacy')),
    }),
    onPreview: (cover) => props.onPreview(cover && asked(cover)),
    onCommit: (cover) => props.onCommit(asked(cover)),
  });
  const unit = () => figureOf(0, 'wetting', props.units).unit;
  const wetting = (at: number) => wettingWords(tally().x[Math.round(at)]!, props.units);
  const lacking = (at: number) => lackingWords(tally().y[Math.round(at)]!);
  const pointed = () => {
    const at = cellAt(brush.pointed(), bins());
    if (!at) return;
    const here = tally().kept[at.y * bins().x + at.x]!;
    return `${wetting(at.x)}–${wetting(at.x + 1)}, ${lacking(at.y + 1).replace(' %', '')}–${lacking(at.y)}: ${digits(here, 0)}`;
  };
  const cover = () => brush.cover();
  return (
    <ChartFrame
      title="Wetting against drainage lacking"
      chosen={cover().x !== null || cover().y !== null}
      left={leftFor.density(props.answer)}
      reading={densityReading(props.answer, props.filters, props.units)}
      onClear={() => brush.commit(nothingCovered)}
    >
      <div class="brushed" ref={attach}>
        <BrushField
          name="Density of buildings by wetting and by the drainage lacking"
          box={box()}
          bins={bins()}
          brush={brush}
          pointed={pointed()}
        >
          <Axes
            box={box()}
            x={shape().x}
            y={shape().y}
            across={`wetting, ${unit()}`}
            upward="lacking, %"
          />
          <path class="elsewhere" d={shape().elsewhere} />
          <For each={shape().levels}>
            {({ ink, path }) => (
              <Show when={path}>
                <path class="ink" d={path} fill-opacity={ink} />
              </Show>
            )}
          </For>
          <path class="single-dots" d={shape().dots} />
        </BrushField>
        <EdgeInputs
          name={`Wetting, ${unit()}`}
          bins={bins().x}
          span={cover().x}
          words={wetting}
          onPreview={(x) => brush.preview({ x, y: cover().y })}
          onCommit={(x) => brush.commit({ x, y: cover().y })}
        />
        <EdgeInputs
          upright
          name="Drainage lacking"
          bins={bins().y}
          span={turned(cover().y, bins().y)}
          words={(at) => lacking(bins().y - at)}
          onPreview={(y) => brush.preview({ x: cover().x, y: turned(y, bins().y) })}
          onCommit={(y) => brush.commit({ x: cover().x, y: turned(y, bins().y) })}
        />
      </div>
    </ChartFrame>
  );
}

function cellAt(at: Place | null, bins: Place): Place | null {
  const [x, y] = [Math.floor(at?.x ?? -1), Math.floor(at?.y ?? -1)];
  return x >= 0 && y >= 0 && x < bins.x && y < bins.y ? { x, y } : null;
}

/** Lacking runs against adequacy, by which the bins are counted. */
function turned(span: Span, n: number): Span;
function turned(span: Span | null, n: number): Span | null;
function turned(span: Span | null, n: number): Span | null {
  return span && { from: n - span.to, to: n - span.from };
}
