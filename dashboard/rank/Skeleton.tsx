import { For } from 'solid-js';

const lines = Array.from({ length: 8 }, (_, i) => i);

/** The table's rules before its rows: what will stand there, and what is being done meanwhile. */
export function Skeleton(props: { readonly what: string }) {
  return (
    <div class="skeleton">
      <p role="status">{props.what}</p>
      <div aria-hidden="true">
        <For each={lines}>
          {() => (
            <div class="skeleton-row">
              <i />
              <i />
              <i />
              <i />
            </div>
          )}
        </For>
      </div>
    </div>
  );
}
