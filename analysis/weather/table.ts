import Papa from 'papaparse';
import { yearsText } from './notes.ts';
import type { WeatherRecord } from './read.ts';
import type { DrivingRain, WindRose } from './record.ts';
import { step } from './rose.ts';

const heads = ['azimuth_deg', 'airfield_index_mm', 'kappa'];

/** The rose as CSV: one row every 10° with the azimuth a wall faces, its airfield index (mm) and its κ. */
export function roseCsv({ kappa, airfieldIndex }: WindRose): string {
  const rows = Array.from(kappa, (k, i) => [step * i, airfieldIndex[i]!, k]);
  return `${Papa.unparse([heads, ...rows], { newline: '\r\n', escapeFormulae: true })}\r\n`;
}

const bearing = (values: Float64Array): number => step * values.indexOf(Math.max(...values));

function indexLine({ index, coverage }: DrivingRain): string {
  if (index.m2PerS === null) return 'Driving-rain index: not given, no wind for most hours.';
  const over = coverage.partYear ? 'over the record' : 'a year';
  const named = index.class ? `, ${index.class}` : ', no class from less than a year';
  return `Driving-rain index: ${index.m2PerS.toFixed(2)} m²/s ${over}${named} (rain × mean wind of all hours).`;
}

function rainLine({ rainMm, frozenMm, dividedBy, coverage }: DrivingRain): string {
  const per = coverage.partYear ? 'over the record' : 'a year';
  const frozen = frozenMm > 0 ? `, and ${frozenMm.toFixed(1)} mm frozen` : '';
  const by = coverage.partYear ? '' : ` (sums over ${yearsText(dividedBy)})`;
  return `Rain: ${rainMm.toFixed(1)} mm ${per}${frozen}${by}.`;
}

function roseLine({ rose: { kappa, airfieldIndex }, coverage }: DrivingRain): string {
  const most = Math.max(...airfieldIndex).toFixed(1);
  const unit = coverage.partYear ? 'mm over the record' : 'mm a year';
  return `Greatest airfield index (ISO 15927-3): ${most} ${unit}, for a wall facing ${bearing(airfieldIndex)}°. Greatest κ: ${Math.max(...kappa).toFixed(3)}, facing ${bearing(kappa)}°.`;
}

/** Totals for the terminal, a line each: what was read, the figures, what to know about them, and their limits. */
export function totalLines(record: WeatherRecord, found: DrivingRain): readonly string[] {
  const { setAside, hours, rowsRead } = record;
  return [
    `${record.file}: ${rowsRead} rows read = ${hours.n} hours used + ${setAside.length} set aside.`,
    ...record.understood,
    rainLine(found),
    `Wind: ${found.windInRain.toFixed(2)} m/s during rain (U, weighted by rain), ${found.meanWind.toFixed(2)} m/s over all hours.`,
    indexLine(found),
    roseLine(found),
    ...found.notes,
    ...found.indexNotes,
    ...found.isoLimits,
  ];
}
