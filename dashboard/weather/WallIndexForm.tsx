import { createSignal, For, Show } from 'solid-js';
import type { DrivingRain } from '../../analysis/weather/record.ts';
import type { TerrainCategory } from '../../analysis/weather/tables.ts';
import { wallIndex } from '../../analysis/weather/wall-index.ts';

const categories = ['I', 'II', 'III', 'IV'] as const satisfies readonly TerrainCategory[];
const directions = Array.from({ length: 36 }, (_, i) => 10 * i);

/** The wall index of ISO 15927-3 from the airfield index, for a wall that the user describes. W has no default. */
export function WallIndexForm(props: { readonly found: DrivingRain }) {
  const [terrain, setTerrain] = createSignal<TerrainCategory | null>(null);
  const [height, setHeight] = createSignal(Number.NaN);
  const [obstruction, setObstruction] = createSignal(Number.NaN);
  const [wallFactor, setWallFactor] = createSignal(Number.NaN);
  const at = (azimuth: number) =>
    wallIndex(props.found.airfieldByDegree[azimuth] ?? Number.NaN, {
      terrain: terrain(),
      heightM: height(),
      obstructionM: obstruction(),
      wallFactor: wallFactor(),
    });
  const first = () => at(0);
  const why = () => {
    const found = first();
    return found.given ? null : found.why;
  };
  const factors = () => {
    const found = first();
    if (!found.given) return null;
    const { roughness, topography, obstruction: o, wallFactor: w, notes } = found;
    return `C_R ${roughness.toFixed(3)} · C_T ${topography} (level ground assumed) · O ${o} · W ${w}. ${notes.join(' ')}`;
  };
  const value = (azimuth: number): string => {
    const found = at(azimuth);
    return found.given ? found.wallIndexMm.toFixed(1) : '';
  };
  const number = (label: string, set: (value: number) => void, hint = '') => (
    <label>
      {label}{' '}
      <input
        type="number"
        min="0"
        step="any"
        placeholder={hint}
        onInput={(event) => set(event.currentTarget.valueAsNumber)}
      />
    </label>
  );
  return (
    <details class="wall-index">
      <summary>Wall index (ISO 15927-3) for one wall</summary>
      <p class="wall-index-form">
        <label>
          Terrain category{' '}
          <select
            onChange={(event) =>
              setTerrain(categories.find((name) => name === event.currentTarget.value) ?? null)
            }
          >
            <option value="">choose</option>
            <For each={categories}>{(name) => <option value={name}>{name}</option>}</For>
          </select>
        </label>
        {number('Height of the wall, m', setHeight)}
        {number('Obstruction at, m', setObstruction, '4 or more')}
        {number('W, yours', setWallFactor, '0–1')}
      </p>
      <Show when={why() === null} fallback={<p aria-live="polite">{why()}</p>}>
        <p>{factors()}</p>
        <div class="wall-index-values">
          <For each={directions}>
            {(azimuth) => (
              <span>
                {azimuth}° <b>{value(azimuth)}</b>
              </span>
            )}
          </For>
        </div>
        <p class="soft">
          Litres per m² a year by the direction the wall faces. {props.found.isoLimits.join(' ')}
        </p>
      </Show>
    </details>
  );
}
