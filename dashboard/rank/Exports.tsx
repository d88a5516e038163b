import { For, Show } from 'solid-js';
import type { ExportFormat } from '../../analysis/session-types.ts';
import { createSaving } from '../parts/create-saving.ts';
import { save } from '../parts/save.ts';
import { ReportButton } from '../report/ReportButton.tsx';
import { useDesk } from '../state/desk.ts';

const formats: readonly { format: ExportFormat; word: string; type: string }[] = [
  { format: 'csv', word: 'CSV', type: 'text/csv' },
  { format: 'json', word: 'JSON', type: 'application/json' },
  { format: 'geojson', word: 'GeoJSON', type: 'application/geo+json' },
  {
    format: 'xlsx',
    word: 'XLSX',
    type: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  },
  { format: 'parquet', word: 'Parquet', type: 'application/vnd.apache.parquet' },
];

/** The whole ranking as a file in the units in use, each with its *about* file beside it. */
export function Exports() {
  const { state, session } = useDesk();
  const { busy, failed, run } = createSaving();
  const write = (format: ExportFormat, type: string) =>
    run(async () => {
      const { bytes, about } = await session.analyst.write(format, state.units);
      save(`ranking.${format}`, bytes, type);
      save(`ranking.${format}.about.json`, about, 'application/json');
    });
  return (
    <p class="exports" aria-busy={busy()}>
      <ReportButton />
      <span title="The whole ranking, not only the rows shown, with a file about how it was made">
        Save the whole ranking:
      </span>
      <For each={formats}>
        {({ format, word, type }) => (
          <button
            type="button"
            class="plain-button"
            disabled={busy()}
            onClick={() => write(format, type)}
          >
            {word}
          </button>
        )}
      </For>
      <Show when={failed()}>
        {(message) => <span role="alert">The file could not be written: {message()}</span>}
      </Show>
    </p>
  );
}
