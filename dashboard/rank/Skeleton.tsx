import { Index } from 'solid-js';
import './skeleton.css';

const rows = Array.from({ length: 9 }, (_, i) => i);

/** The table's rules before its rows: what will stand there, and what is being done meanwhile. */
export function Skeleton(props: { readonly what: string }) {
  return (
    <div class="skeleton">
      <p role="status">{props.what}</p>
      <div class="skeleton-body" aria-hidden="true">
        <div>
          <Index each={rows}>
            {() => (
              <div class="skeleton-row">
                <i class="lines" />
                <i />
                <i class="lines" />
                <i class="bar" />
                <i class="lines" />
              </div>
            )}
          </Index>
        </div>
        <i class="sheet" />
      </div>
    </div>
  );
}
