import type { Random } from '../../analysis/sample/random.ts';
import type { Assembly } from './assembly.ts';
import { idOf } from './building-records.ts';
import { between, chance, pick } from './random.ts';
import { type Cells, type Clerk, clerk } from './records.ts';
import type { Building } from './scenario.ts';
import { words } from './tables.ts';

export const wallHeadings = [
  'building_id',
  'wall_id',
  'azimuth_deg',
  'material',
  'area_m2',
  'installed',
  'drainage',
  'gap_mm',
  'drainage_eff_pct',
  'sheathing',
  'runoff',
  'windows_count',
  'kickout',
  'balcony_or_deck',
  'weep_screed',
  'coating',
  'overhang_mm',
  'source',
  'recorded_on',
  'photo_ref',
] as const;

const column = (name: (typeof wallHeadings)[number]): number => wallHeadings.indexOf(name);

/** One face of a building, or a part of it with a cladding of its own. */
interface Face {
  readonly name: string;
  readonly azimuth: number;
  readonly area: number;
  readonly assembly: Assembly;
}

const compass = [
  ...['N', 'NNE', 'NE', 'ENE', 'E', 'ESE', 'SE', 'SSE'],
  ...['S', 'SSW', 'SW', 'WSW', 'W', 'WNW', 'NW', 'NNW'],
];

/** Most directions are degrees, some points of the compass. */
const azimuthText = (random: Random, azimuth: number): string =>
  chance(random, 72) ? String(azimuth) : compass[Math.round(azimuth / 22.5) % 16]!;

/** The four faces; the street front may be clad in part or whole with something else. */
function facesOf(random: Random, b: Building): Face[] {
  const { development: d, block, heightM } = b;
  const first = d.azimuth + 90 + (block % 2) * 180;
  const faces = ['front', 'right', 'rear', 'left'].map((name, i): Face => {
    const width = i % 2 === 0 ? b.frontM : b.depthM;
    const area = Math.round(width * heightM * 0.82 * 10) / 10;
    return { name, azimuth: (first + 90 * i) % 360, area, assembly: d.main };
  });
  return d.front ? [...split(random, faces[0]!, d.front), ...faces.slice(1)] : faces;
}

function split(random: Random, face: Face, assembly: Assembly): Face[] {
  const share = pick(random, [0.3, 0.4, 0.5, 1]);
  const part = Math.round(face.area * share * 10) / 10;
  const faced: Face = { ...face, area: part, assembly };
  if (share === 1) return [faced];
  return [
    { ...face, area: Math.round((face.area - part) * 10) / 10 },
    { ...faced, name: 'front base' },
  ];
}

/** Whose records are there: all faces, some of them, or none. */
function recorded(random: Random, faces: Face[]): Face[] {
  if (chance(random, 82)) return faces;
  return chance(random, 62) ? faces.slice(0, between(random, 1, 3)) : [];
}

const monthDay = (random: Random): string =>
  `${String(between(random, 1, 12)).padStart(2, '0')}-${String(between(random, 1, 28)).padStart(2, '0')}`;

function dateText(random: Random, year: number): string {
  return chance(random, 85) ? `${year}-${monthDay(random)}` : String(year);
}

/** `yes` in so many of a hundred, written by the clerk. */
const yesNo = (random: Random, { spelt }: Clerk, name: string, pct: number): string =>
  spelt(name, chance(random, pct) ? 'yes' : 'no', 'yes_no');

const sources = [
  'survey',
  'survey',
  'survey',
  'survey',
  'drawing',
  'drawing',
  'assumed',
  'survey',
] as const;

function sourceOf(random: Random): string {
  return chance(random, 4) ? 'opening' : pick(random, sources);
}

function wallCells(random: Random, b: Building, face: Face): Cells {
  const { assembly } = face;
  const notes = clerk(random, 'walls', b.development.gaps);
  const { kept, spelt } = notes;
  const plaster = ['stucco', 'one_coat_stucco'].includes(assembly.material);
  const steep = b.development.roof === 'steep';
  return [
    idOf(b),
    kept('wall_id', face.name),
    kept('azimuth_deg', azimuthText(random, face.azimuth)),
    spelt('material', assembly.material),
    kept('area_m2', face.area),
    kept('installed', assembly.installed),
    spelt('drainage', assembly.drainage),
    kept('gap_mm', assembly.gapMm || ''),
    kept('drainage_eff_pct', assembly.efficiencyPct || ''),
    spelt('sheathing', assembly.sheathing),
    yesNo(random, notes, 'runoff', steep ? 6 : 12),
    kept('windows_count', Math.round((face.area / 14) * (between(random, 5, 15) / 10))),
    yesNo(random, notes, 'kickout', 40),
    yesNo(random, notes, 'balcony_or_deck', b.development.kind.name === 'garden' ? 45 : 15),
    plaster ? yesNo(random, notes, 'weep_screed', 55) : '',
    plaster ? kept('coating', pick(random, words('coating'))) : '',
    kept('overhang_mm', 50 * (steep ? between(random, 4, 18) : between(random, 0, 5))),
    spelt('source', sourceOf(random)),
    kept('recorded_on', dateText(random, between(random, 2011, 2025))),
    chance(random, 30) ? `IMG_${between(random, 1000, 9999)}` : '',
  ];
}

/** What an older drawing says of the same wall: mostly what should have been built. */
function olderRecord(random: Random, cells: Cells, installed: number): Cells {
  const older = [...cells];
  older[column('drainage')] = pick(random, [
    'double_paper',
    'double_paper',
    'two layers',
    'drainage_mat',
    '',
  ]);
  older[column('gap_mm')] = '';
  older[column('source')] = pick(random, ['drawing', 'as built', 'assumed']);
  older[column('recorded_on')] = chance(random, 70) ? String(Math.max(1960, installed)) : '';
  older[column('photo_ref')] = '';
  return older;
}

/** The records of a building's walls, in the order in which they were filed. */
export function wallRecords(random: Random, b: Building): Cells[] {
  return recorded(random, facesOf(random, b)).flatMap((face) => {
    const cells = wallCells(random, b, face);
    const again = cells[column('wall_id')] !== '' && chance(random, 6);
    return again ? [olderRecord(random, cells, face.assembly.installed), cells] : [cells];
  });
}
