import { createMemo, createResource, createSignal, onMount, Show, untrack } from 'solid-js';
import { RainMap } from '../map/RainMap.tsx';
import { Answer } from '../parts/Answer.tsx';
import { reasonIn } from '../parts/reason.ts';
import { openBuilding, select } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { createRested } from './at-rest.ts';
import type { Ranking } from './ranking.ts';

/** Buildings from which on the map waits until a weight rests: drawing it anew would keep the table from following. */
const many = 100_000;

/** The rain sheet beside the table: same buildings, same pencil. A second click on a building opens it. */
export function MapPane(props: { readonly ranking: Ranking }) {
  const desk = useDesk();
  // The map measures its field once, when it is made: it may not be made before the pane stands in the page. And not
  // before the frame is painted in which it stands, for the first rows stand there too.
  const [standing, setStanding] = createSignal(false);
  onMount(() => requestAnimationFrame(() => setTimeout(() => setStanding(true))));
  const [sheet] = createResource(() => desk.session.analyst.rainSheet());
  const reasonOf = async (b: number): Promise<string> => {
    const [row] = await desk.session.analyst.rows(Int32Array.of(b));
    return row ? reasonIn(row, desk.state.units) : '';
  };
  /** Nothing is filtered out when every building is in the order, whatever the order is. */
  const shown = () => {
    const order = props.ranking.order();
    return order.length === props.ranking.opened.frame.n ? null : order;
  };
  /** Places stay while files are open: another scoring only brings other scores. */
  const places = untrack(() => props.ranking.opened.frame);
  const rested = createRested(desk.session.live);
  const live = () => (places.n > many ? rested() : desk.session.live());
  const scores = createMemo(() => live() ?? props.ranking.opened.frame);
  const pick = (b: number | undefined) =>
    desk.apply(b !== undefined && b === desk.state.selected ? openBuilding(b) : select(b ?? null));
  return (
    <section class="map-pane" aria-label="Rain map">
      <Show when={standing()}>
        <Answer of={sheet} wait="Drawing the rain sheet …" trouble="The rain could not be read:">
          {(rain) => (
            <RainMap
              frame={places}
              scores={scores()}
              shown={shown()}
              selected={desk.state.selected ?? undefined}
              hovered={desk.hovered() ?? undefined}
              sheet={rain()}
              units={desk.state.units}
              dark={desk.dark()}
              reasonOf={reasonOf}
              onHover={(b) => desk.hover(b ?? null)}
              onSelect={pick}
            />
          )}
        </Answer>
      </Show>
    </section>
  );
}
