import type { JSX } from 'solid-js';
import { openBuilding } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';

/** The name of a row's building, which opens it. Arrow keys bring the reader to a row before Tab finds its name. */
export function BuildingName(props: {
  readonly b: number;
  readonly reachable: boolean;
  readonly children: JSX.Element;
}) {
  const { apply } = useDesk();
  return (
    <button
      type="button"
      class="building-name"
      dir="auto"
      tabindex={props.reachable ? 0 : -1}
      onClick={(event) => {
        event.stopPropagation();
        apply(openBuilding(props.b));
      }}
    >
      {props.children}
    </button>
  );
}
