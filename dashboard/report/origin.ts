import { constantUnder } from '../../analysis/constants.ts';
import { referenceRows } from '../../analysis/reference.ts';
import type { Analyst, FileReport, Inputs, RainReport } from '../../analysis/session-types.ts';
import { defaultSettings, type SettingsChanges } from '../../analysis/settings.ts';
import { methodVersion, softwareName } from '../../analysis/version.ts';
import { inputDigests } from '../sample/input-digests.ts';
import { changedWords } from '../settings/changed-words.ts';
import type { Opened } from '../state/session.ts';

/** One file, and what was read from it. */
interface OriginFile
  extends Pick<FileReport, 'file' | 'role' | 'rowsRead' | 'accepted' | 'joined' | 'setAside'> {
  /** Null where the file can no longer be read. */
  readonly sha256: string | null;
}

/** What made a printout: the provenance that any of its pages must carry. */
export interface Origin {
  readonly demo: boolean;
  readonly software: string;
  readonly method: string;
  readonly asOf: number;
  readonly rain: Pick<RainReport, 'source' | 'period' | 'sentence'>;
  readonly files: readonly OriginFile[];
  /** Cells corrected in the page, without touching the files. */
  readonly edits: number;
  /** What differs from the settings that ship, counted; '' where nothing does. */
  readonly changed: string;
  /** The same, one by one. */
  readonly settings: readonly string[];
}

/** Provenance of what is open; pure. `digests` by file name. */
export function originOf(
  { inputs, report }: Pick<Opened, 'inputs' | 'report'>,
  digests: Readonly<Record<string, string>>,
  changes: SettingsChanges,
  rain: RainReport,
): Origin {
  return {
    demo: report.demo,
    software: softwareName,
    method: methodVersion,
    asOf: constantUnder(changes, 'as_of'),
    rain,
    files: report.files.map((one) => ({ ...one, sha256: digests[one.file] ?? null })),
    edits: inputs.edits?.length ?? 0,
    changed: changedWords(changes),
    settings: settingsWords(changes),
  };
}

/** Settings that differ from what ships, each with what ships. */
function settingsWords({ constants, priors, editions }: SettingsChanges): string[] {
  const numbers = Object.entries(constants ?? {}).map(
    ([name, value]) => `${name} ${value} (ships as ${defaultSettings.constants[name]})`,
  );
  const tables = Object.keys(priors ?? {}).map((id) => `prior ${id}: replaced`);
  const inForce = (Array.isArray(editions) ? editions : []).map(
    ({ region, code, edition, from_year }) =>
      `${editionLabel(code, edition)} in force in ${region} from ${from_year}`,
  );
  return [...numbers, ...tables, ...inForce];
}

const editionLabel = (code: string, edition: number): string =>
  referenceRows('editions').find((row) => row.code === code && row.edition === `${edition}`)
    ?.label ?? `${code} ${edition}`;

/** Files do not change while they are open: their digests are reckoned once. */
const digested = new WeakMap<Inputs, Promise<Record<string, string>>>();

const digestsOf = (inputs: Inputs): Promise<Record<string, string>> => {
  const known = digested.get(inputs) ?? inputDigests(inputs).catch(() => ({}));
  digested.set(inputs, known);
  return known;
};

/** Asks for the provenance of what is open. */
export async function askOrigin(
  analyst: Pick<Analyst, 'rainReport'>,
  opened: Opened,
  changes: SettingsChanges,
): Promise<Origin> {
  const [digests, rain] = await Promise.all([digestsOf(opened.inputs), analyst.rainReport()]);
  return originOf(opened, digests, changes, rain);
}
