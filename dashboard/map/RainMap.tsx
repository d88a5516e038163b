import 'maplibre-gl/dist/maplibre-gl.css';
import './map.css';
import { createEffect, onMount, Show } from 'solid-js';
import type { Frame, RainSheet } from '../../analysis/session-types.ts';
import { Legend } from './Legend.tsx';
import { lateText } from './late-text.ts';
import { MapButtons } from './MapButtons.tsx';
import { MapNote } from './MapNote.tsx';
import { createPanel, keysHelp } from './panel.ts';
import type { Units } from './rain/levels.ts';
import type { Scores } from './tiles/entries.ts';
import { arrival } from './walk.ts';

export interface RainMapProps {
  /** Where the buildings are: the sheet places them once. */
  readonly frame: Pick<Frame, 'n' | 'longitude' | 'latitude' | 'bounds'>;
  /** How they are ranked: new scores recolour the marks and move none. */
  readonly scores: Scores;
  /** Ordinals that pass the filters; null when all do. */
  readonly shown: Int32Array | null;
  readonly selected: number | undefined;
  /** The building under the pointer in the list. */
  readonly hovered: number | undefined;
  readonly sheet: RainSheet;
  readonly units: Units;
  readonly dark: boolean;
  /** The sentence that tells why a building stands where it does. */
  reasonOf(b: number): Promise<string>;
  onHover(b: number | undefined): void;
  onSelect(b: number | undefined): void;
}

/**
 * The rain sheet with the buildings on it, its legend and its sources.
 * `data-drawn="yes"` on the figure means that everything asked for is drawn.
 */
export function RainMap(props: RainMapProps) {
  const panel = createPanel(props);
  let field!: HTMLDivElement;
  onMount(() => panel.open(field));

  /** What a walk by keyboard comes to, for those who do not see the note. */
  const said = lateText(panel.walk, async (walk) =>
    arrival(walk, await props.reasonOf(walk.order[walk.at]!)),
  );
  createEffect(() => panel.sheet()?.canvas.setAttribute('aria-label', label()));

  const shown = () => props.shown?.length ?? props.frame.n;
  const label = () =>
    `Rain sheet: yearly rain, and ${shown().toLocaleString('en')} buildings marked by tier. ${keysHelp}`;
  const redraw = () => {
    panel.close();
    panel.open(field);
  };

  const noteAt = () => {
    panel.moves();
    const mark = panel.pointed();
    const at = mark && panel.sheet()?.positionOf(mark);
    const within = { width: field.clientWidth, height: field.clientHeight };
    const isInView = at && at.x > 0 && at.y > 0 && at.x < within.width && at.y < within.height;
    return isInView && { mark, at, within };
  };

  return (
    <figure class="rain-map" data-drawn={panel.drawn() ? 'yes' : 'no'} aria-label="Rain sheet">
      <div class="rain-map-field">
        <div class="rain-map-canvas" ref={field} />
        <MapButtons
          zoomBy={(levels) => panel.sheet()?.zoomBy(levels)}
          showAll={() => panel.sheet()?.showAll()}
        />
        <Show when={noteAt()}>
          {(note) => <MapNote {...note()} reasonOf={props.reasonOf} under={panel.under} />}
        </Show>
        <Show when={panel.trouble()}>
          {(sentence) => (
            <p class="rain-map-trouble" role="alert">
              {sentence()}{' '}
              <button type="button" onClick={redraw}>
                Draw again
              </button>
            </p>
          )}
        </Show>
      </div>
      <Legend
        counts={panel.counts()}
        shown={shown()}
        unplaced={panel.unplaced()}
        range={panel.range()}
        units={props.units}
        dark={props.dark}
      />
      <figcaption class="rain-map-sources">
        Land: Natural Earth and U.S. Census Bureau, by way of world-atlas and us-atlas (public
        domain). Rain: {props.sheet.source}, {props.sheet.period}; the sheet shows the grid itself,
        before stations adjust it at the buildings.
      </figcaption>
      <p class="rain-map-voice" aria-live="polite">
        {said()}
      </p>
    </figure>
  );
}
