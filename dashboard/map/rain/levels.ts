export type Units = 'metric' | 'american';

/** One isohyet. */
export interface Level {
  readonly mm: number;
  /** As written along the line: `20 in`, `800 mm`. */
  readonly label: string;
  /** The 20-inch line, drawn heavier. */
  readonly main: boolean;
  /** Whether the legend writes its figure. */
  readonly inLegend: boolean;
}

/** Exact since 1959. */
export const mmPerInch = 25.4;

/** The threshold of the trade: 20 inches a year (common practice, no source). Drawn in both units. */
const mainInches = 20;
const mainMm = mainInches * mmPerInch;

/** Round figures, closer together where it is dry. */
const inches = [5, 10, 15, 20, 30, 40, 50, 60, 80, 100, 120, 160, 200];
const millimetres = [100, 200, 300, 400, 600, 800, 1000, 1200, 1500, 2000, 2500, 3000, 4000, 5000];

type Plain = Omit<Level, 'inLegend'>;

const mainLevel: Readonly<Record<Units, Plain>> = {
  american: { mm: mainMm, label: '20 in', main: true },
  metric: { mm: mainMm, label: '508 mm', main: true },
};

const plainLevels: Readonly<Record<Units, readonly Plain[]>> = {
  american: inches
    .filter((n) => n !== mainInches)
    .map((n) => ({ mm: n * mmPerInch, label: `${n} in`, main: false })),
  metric: millimetres.map((n) => ({ mm: n, label: `${n.toLocaleString('en')} mm`, main: false })),
};

/** The legend has room for every second figure; the main line is one of them. */
function ordered(units: Units): readonly Level[] {
  const all = [...plainLevels[units], mainLevel[units]].sort((a, b) => a.mm - b.mm);
  const main = all.findIndex((level) => level.main);
  return all.map((level, i) => ({ ...level, inLegend: (i - main) % 2 === 0 }));
}

/** Isohyets to draw, driest first. */
export const levels: Readonly<Record<Units, readonly Level[]>> = {
  american: ordered('american'),
  metric: ordered('metric'),
};

/** A band of shading from one isohyet (inclusive) to the next; the last is open upwards. */
export interface Band {
  readonly from: number;
  readonly below: number;
  /** The rain whose shade fills the whole band, mm. */
  readonly shade: number;
  /** Whether it begins at the main line. */
  readonly main: boolean;
}

/** Bands between the isohyets, driest first, the first from 0. */
export function bandsOf(units: Units): readonly Band[] {
  const edges = [0, ...levels[units].map((level) => level.mm)];
  return edges.map((from, i) => {
    const below = edges[i + 1] ?? Infinity;
    const shade = Number.isFinite(below) ? (from + below) / 2 : from * 1.1;
    return { from, below, shade, main: from === mainMm };
  });
}

/** The bands that a sheet between these rains shows, mm. */
export function bandsWithin(
  units: Units,
  [least, most]: readonly [least: number, most: number],
): readonly Band[] {
  return bandsOf(units).filter(({ from, below }) => from <= most && below > least);
}
