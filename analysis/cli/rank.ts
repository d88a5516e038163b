import { extname } from 'node:path';
import { remarksCsv } from '../corrections.ts';
import type { Analyst, ExportFormat, MarkedRemark } from '../session-types.ts';
import { exportFormats } from '../session-types.ts';
import { type UnitSystem, unitSystems } from '../units.ts';
import { inParts, rankInParts } from './batch.ts';
import { writeWhole } from './files.ts';
import { type Flags, one, UsageError } from './flags.ts';
import { inputsOf, settingsOf } from './inputs.ts';
import { overSession } from './over-session.ts';
import { printRanked } from './report.ts';

/** Ranks what the flags name and writes the ranking: in memory, or in parts where the files are too large for that. */
export async function rank(flags: Flags, print: (line: string) => void): Promise<void> {
  const out = one(flags, 'out')!;
  const format = formatOf(out);
  const units = unitsOf(flags);
  const settings = settingsOf(flags);
  const inputs = await inputsOf(flags);
  if (await inParts(flags, inputs)) {
    return rankInParts(flags, { out, format, units, inputs, settings }, print);
  }
  await overSession(settings, inputs, async (session, report) => {
    const { bytes, about } = await session.write(format, units);
    const remarks = await allRemarks(session);
    const aside = remarks.length > 0 ? { [`${out}.set-aside.csv`]: remarksCsv(remarks) } : {};
    const files = { [out]: bytes, [`${out}.about.json`]: about, ...aside };
    writeWhole(files);
    const { counts } = await session.frame();
    printRanked({ report, remarks, counts: counts.tier }, Object.keys(files), print);
  });
}

const allRemarks = async (session: Analyst): Promise<MarkedRemark[]> =>
  (await session.remarks({ from: 0, count: Number.POSITIVE_INFINITY })).rows;

function formatOf(out: string): ExportFormat {
  const ending = extname(out).slice(1).toLowerCase();
  const format = exportFormats.find((one) => one === ending);
  if (format) return format;
  const endings = exportFormats.map((one) => `.${one}`).join(', ');
  throw new UsageError(`--out ${out}: the file must end in one of ${endings}.`);
}

function unitsOf(flags: Flags): UnitSystem {
  const wanted = one(flags, 'units') ?? 'metric';
  const units = unitSystems.find((system) => system === wanted);
  if (!units) throw new UsageError(`--units is metric or american, not "${wanted}".`);
  return units;
}
