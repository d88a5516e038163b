import { createSignal } from 'solid-js';

const accepted =
  '.csv,.tsv,.txt,.xlsx,.json,.geojson,.ndjson,.parquet,.tif,.tiff,.nc,.nc4,.h5,.asc,.rainledger';

/** Where files come in: dropped all at once, or chosen. */
export function FileDrop(props: { readonly onFiles: (files: readonly File[]) => void }) {
  const [over, setOver] = createSignal(false);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    props.onFiles([...(event.dataTransfer?.files ?? [])]);
  };
  const drag = (event: DragEvent) => {
    event.preventDefault();
    setOver(true);
  };
  const choose = (input: HTMLInputElement) => {
    props.onFiles([...(input.files ?? [])]);
    input.value = '';
  };
  return (
    <fieldset
      class="file-drop"
      classList={{ over: over() }}
      onDragOver={drag}
      onDragLeave={() => setOver(false)}
      onDrop={drop}
    >
      <legend class="unseen">Add files</legend>
      <label>
        <b>Drop your files here</b>, or choose them:{' '}
        <input
          type="file"
          multiple
          accept={accepted}
          onChange={(event) => choose(event.currentTarget)}
        />
      </label>
      <p class="soft">
        Tables of buildings and walls as CSV, XLSX, GeoJSON, JSON or Parquet, with whatever headings
        they have. Rain, wind and temperature grids as GeoTIFF, NetCDF, Esri ASCII grid or CSV.
        Stations and hourly weather as CSV. Only a building list is needed.
      </p>
    </fieldset>
  );
}
