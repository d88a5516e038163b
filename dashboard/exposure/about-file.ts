import { cautionTexts } from '../../analysis/cautions.ts';
import { constantUnder } from '../../analysis/constants.ts';
import { type Scope, type SumTable, scopes, sumAt } from '../../analysis/exposure/sums.ts';
import type { ExposureView } from '../../analysis/exposure/types.ts';
import { tiers } from '../../analysis/session-types.ts';
import type { SettingsChanges } from '../../analysis/settings.ts';
import { methodVersion, softwareName } from '../../analysis/version.ts';
import type { Opened } from '../state/session.ts';
import type { Told } from './pivot-file.ts';
import { currencyWord } from './words.ts';

interface Made extends Told {
  readonly view: ExposureView;
  readonly report: Opened['report'];
  /** SHA-256 of each input file, by name. */
  readonly digests: Readonly<Record<string, string>>;
  readonly settings: SettingsChanges;
  /** What the file is, in a sentence. */
  readonly about: string;
}

const words: Readonly<Record<Scope, string>> = {
  all: 'all_lines',
  low: 'first_two_tiers_leaning_low',
  mean: 'first_two_tiers',
  high: 'first_two_tiers_leaning_high',
};

const byScope = (of: (scope: Scope) => number) =>
  Object.fromEntries(scopes.map((scope) => [words[scope], of(scope)]));

const money = (sums: SumTable, row: number) => ({
  lines: sumAt(sums, 'valued', row, 'all'),
  ...byScope((scope) => sumAt(sums, 'value', row, scope)),
});

/** The sidecar of a file of this view: cautions, filter, totals that its rows add up to, and what it was made from. JSON text. */
export function exposureAbout({
  view,
  report,
  digests,
  settings,
  filter,
  units,
  about,
}: Made): string {
  const { pivot, totals } = view;
  const total = (measure: Parameters<typeof sumAt>[1]) => sumAt(pivot.total, measure, 0, 'all');
  const told = {
    caution: cautionTexts,
    about,
    filter: filter || 'all lines',
    units,
    totals: {
      lines: view.lines,
      lines_by_tier: Object.fromEntries(tiers.map((tier, i) => [tier, view.byTier[i]])),
      buildings: total('buildings'),
      building_count_not_on_record_taken_as_1: total('countUnknown'),
      wall_area_m2: total('areaM2'),
      wall_area_not_on_record: total('areaUnknown'),
      index_weighted_area_m2: total('weightedM2'),
      index_weighted_area_not_on_record: total('weightedUnknown'),
      insured_value: Object.fromEntries(
        totals.currencies.map((currency, row) => [currencyWord(currency), money(totals.sums, row)]),
      ),
      insured_value_not_on_record: total('valueUnknown'),
    },
    meaning: {
      lines: 'Rows of the ranking; a line may stand for several buildings.',
      low_high:
        'Sums over the lines that would lie in First look or Next look with all priors leaning low, and with all leaning high.',
      insured_value: 'Of the whole line, in its own currency; value at a place, not a loss.',
      index_weighted_area:
        'Sum of index / 100 × wall area: a sorting weight, not an area of damage.',
    },
    software: softwareName,
    method: methodVersion,
    as_of: constantUnder(settings, 'as_of'),
    invented_example: report.demo,
    inputs: report.files.map(({ file, role, rowsRead, accepted, joined, setAside }) => ({
      file,
      role,
      sha256: digests[file] ?? null,
      rows_read: rowsRead,
      accepted,
      joined,
      set_aside: setAside,
    })),
    settings,
  };
  return `${JSON.stringify(told, null, 2)}\n`;
}
