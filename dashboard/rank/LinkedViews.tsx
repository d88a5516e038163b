import { createMemo, createResource, Show } from 'solid-js';
import { Charts } from '../charts/Charts.tsx';
import { patch, setConditions } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { queryOf } from '../state/page-state.ts';
import { createRested } from './at-rest.ts';
import type { Ranking } from './ranking.ts';

/** The linked views of the ranking, folded or not: what is brushed in one filters all, the map and the table. */
export function LinkedViews(props: { readonly ranking: Ranking }) {
  const { state, session, apply, preview, giveUp, beside } = useDesk();
  const open = () => (state.charts === 'auto' ? beside() : state.charts === 'open');
  const query = createMemo(() => JSON.stringify(queryOf({ ...state, by: 'index', sort: null })));
  const latest = createMemo(() => ({
    query: query(),
    version: session.opened()?.version,
    live: session.live(),
  }));
  const rested = createRested(session.live);
  // The table comes first: counting a million keeps its order and rows waiting.
  const asked = createMemo((before?: ReturnType<typeof latest> | false) =>
    props.ranking.pending() || rested() !== session.live() ? before : open() && latest(),
  );
  const [views] = createResource(asked, async (one) => {
    await new Promise(requestAnimationFrame);
    return session.analyst.views(JSON.parse(one.query));
  });
  const trouble = () => (views.error ? String(views.error.message ?? views.error) : undefined);
  return (
    <details
      class="linked-views"
      open={open()}
      onToggle={(event) => {
        const now = event.currentTarget.open;
        if (now !== open()) apply(patch({ charts: now ? 'open' : 'folded' }));
      }}
    >
      <summary>
        Charts
        <Show when={open()}>
          <span class="soft">
            : brush or click one, and all the others, the table and the map follow
          </span>
        </Show>
      </summary>
      <Show when={open()}>
        <Charts
          answer={views.error ? undefined : views.latest}
          pending={views.loading}
          trouble={trouble()}
          filters={state.filters}
          units={state.units}
          onPreview={(conditions) => (conditions ? preview(setConditions(conditions)) : giveUp())}
          onCommit={(conditions) => apply(setConditions(conditions))}
        />
      </Show>
    </details>
  );
}
