import { createMemo, createResource, Show } from 'solid-js';
import { Charts } from '../charts/Charts.tsx';
import { patch, setConditions } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import { queryOf } from '../state/page-state.ts';

/** The linked views of the ranking, folded or not: what is brushed in one filters all, the map and the table. */
export function LinkedViews() {
  const { state, session, apply, preview, giveUp } = useDesk();
  const query = createMemo(() => JSON.stringify(queryOf({ ...state, by: 'index', sort: null })));
  const asked = () =>
    state.charts && {
      query: query(),
      version: session.opened()?.version,
      live: session.live(),
    };
  const [views] = createResource(asked, (one) => session.analyst.views(JSON.parse(one.query)));
  const trouble = () => (views.error ? String(views.error.message ?? views.error) : undefined);
  return (
    <details
      class="linked-views"
      open={state.charts}
      onToggle={(event) => {
        if (event.currentTarget.open !== state.charts) apply(patch({ charts: !state.charts }));
      }}
    >
      <summary>
        Charts
        <Show when={state.charts}>
          <span class="soft">
            : brush or click one, and all the others, the table and the map follow
          </span>
        </Show>
      </summary>
      <Show when={state.charts}>
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
