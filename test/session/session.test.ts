import { beforeAll, describe, expect, test } from 'vitest';
import type { Analyst, LedgerNode, ReadReport } from '../../analysis/session-types.ts';
import { inputs, session, textOf } from './open.ts';

const buildings = `building_id,name,city,region,latitude,longitude,year_built,storeys,use,roof,wall_area_m2,insured_value,currency,Policy
B1,Alder Court,Seattle,WA,47.61,-122.33,1996,4,apartment,low,1200,5200000,USD,P-77
B2,Mesquite Row,Phoenix,AZ,33.45,-112.07,2004,2,townhouse,low,,900000,USD,P-78
B3,"=HYPERLINK(""x"")",Vancouver,BC,49.26,-123.11,2001,3,townhouse,steep,,,CAD,P-79
B4,Brick Hall,Boston,MA,42.36,-71.06,1920,3,office,low,,1,USD,P-80
B1,Again,Seattle,WA,47.6,-122.3,1990,2,house,steep,,,,P-81
`;
const walls = `building_id,wall_id,azimuth_deg,material,area_m2,drainage,sheathing,installed,source,recorded_on
B1,north,N,stucco,300,double paper,OSB,1996,survey,2019-05-02
B1,north,N,stucco,300,none,plywood,1996,assumed,2024
B1,south,180,stucco,300,none,OSB,1996,survey,2019-05-02
B3,w,270,cement plaster,200,,plywood,,,
B4,all,,brick veneer,900,,,,,
B9,orphan,0,stucco,10,,,,,
`;

let analyst: Analyst;
let report: ReadReport;
beforeAll(async () => {
  analyst = await session();
  report = await analyst.open(inputs(buildings, walls));
});
const all = async () => analyst.rows(await analyst.order({ by: 'index' }));

describe('a portfolio opened', () => {
  test('is told to the map with the box around it, and with every index to the hundredth', async () => {
    const { bounds, cents, n } = await analyst.frame();
    expect(bounds).toEqual({ west: -123.11, south: 33.45, east: -71.06, north: 49.26 });
    const rows = await analyst.rows(Int32Array.from({ length: n }, (_, b) => b));
    expect([...cents].map((one) => (one === -1 ? null : one / 100))).toEqual(
      rows.map(({ index }) => index),
    );
  });

  test('balances: rows read = accepted + set aside', () => {
    expect(
      report.files.map(({ role, rowsRead, accepted, setAside }) => [
        role,
        rowsRead,
        accepted,
        setAside,
      ]),
    ).toEqual([
      ['buildings', 5, 4, 1],
      ['walls', 6, 5, 1],
    ]);
  });

  test('ranks the undrained wall in the wet place first and the unranked cladding last', async () => {
    const rows = await all();
    expect(rows.map(({ building_id, tier }) => [building_id, tier])).toEqual([
      ['B1', 'First look'],
      ['B3', expect.any(String)],
      ['B2', expect.any(String)],
      ['B4', 'Not scored'],
    ]);
    expect(rows[0]).toMatchObject({
      rank: 1,
      wall_id: 'south',
      drainage_state: 'absent',
      caution: 'SCREENING-NOT-DIAGNOSIS',
    });
    expect(rows[3]!.reason).toMatch(/^Not scored: its walls on record are anchored brick/);
  });

  test('says why in a sentence, in the unit asked for', async () => {
    const [first] = await all();
    expect(first!.reason).toMatch(
      /^Takes about \d+ L\/m² a year; no layer where 4\.8 mm is asked now, over OSB; .+ not on record\.$/,
    );
    expect(first!.reason_american).toMatch(
      /^Takes about \d\.\d+ gal\/ft² a year; no layer where 3\/16 in is asked now/,
    );
  });

  test('shows the record that lost beside the one that stands', async () => {
    const { walls: shown } = await analyst.building(0);
    expect(shown.map(({ wall_id, kind, sheathing }) => [wall_id, kind, sheathing])).toEqual([
      ['south', 'recorded', 'osb'],
      ['north', 'recorded', 'osb'],
      ['rest of the walls', 'remainder', null],
      ['north', 'superseded', 'plywood'],
    ]);
  });

  test('filters, searches and sorts', async () => {
    const ids = async (query: Parameters<Analyst['order']>[0]) =>
      (await analyst.rows(await analyst.order(query))).map(({ building_id }) => building_id);
    expect(await ids({ by: 'index', on: { tier: { among: ['Not scored'] } } })).toEqual(['B4']);
    expect(
      await ids({
        by: 'index',
        on: { region: { among: ['AZ', 'BC'] } },
        sort: { column: 'building_id', descending: false },
      }),
    ).toEqual(['B2', 'B3']);
    expect(await ids({ by: 'index', on: { material: { among: [null] } } })).toEqual(['B2']);
    expect(await ids({ by: 'index', on: { height_used_m: { from: 9, below: 10 } } })).toHaveLength(
      2,
    );
    expect(await ids({ by: 'index', search: ' MESQUITE ' })).toEqual(['B2']);
    expect(await ids({ by: 'index', search: "'; DROP TABLE ranking; --" })).toEqual([]);
    await expect(
      ids({ by: 'index', sort: { column: 'b; DROP', descending: true } }),
    ).rejects.toThrow('no column b; DROP');
  });

  test('writes every column of the contract, then the user’s own, and disarms formulas', async () => {
    const written = await analyst.write('csv', 'metric');
    const text = textOf(written);
    const [head, ...lines] = text.trimEnd().split('\r\n');
    expect(head).toBe(
      'rank,building_id,name,latitude,longitude,place_source,rain_mm,rain_low_mm,rain_high_mm,p_rain_over_threshold,rain_source,rain_period,rain_flag,wall_id,material,wetting_l_m2,drainage_state,need_code_then,need_code_now,need_practice,index,index_low,index_high,index_spread,tier,tier_low,tier_high,index_weighted_area_m2,insured_value,currency,reason,unknowns,caution,Policy',
    );
    expect(lines).toHaveLength(4);
    expect(lines[0]).toMatch(/P-77$/);
    expect(text).toContain(`"'=HYPERLINK(""x"")"`);
    const told = JSON.parse(written.about);
    expect(told.caution.length).toBeGreaterThan(4);
    expect(told.inputs[0]).toMatchObject({
      file: 'buildings.csv',
      rows_read: 5,
      accepted: 4,
      set_aside: 1,
    });
    expect(told.inputs[0].sha256).toMatch(/^[0-9a-f]{64}$/);
  });

  test('writes American figures under American names', async () => {
    const [head, line] = textOf(await analyst.write('csv', 'american')).split('\r\n');
    expect(head).toContain('rain_in');
    expect(head).toContain('wetting_gal_ft2');
    expect(line).toContain('gal/ft²');
  });

  test('writes GeoJSON points, longitude first', async () => {
    const { features } = JSON.parse(textOf(await analyst.write('geojson', 'metric')));
    expect(features[0].geometry).toEqual({ type: 'Point', coordinates: [-122.33, 47.61] });
    expect(features[0].properties.building_id).toBe('B1');
  });

  test('keeps what was open when the next files are refused', async () => {
    await expect(analyst.open(inputs('nothing,here\n1,2\n'))).rejects.toMatchObject({
      name: 'Refusal',
    });
    expect(await all()).toHaveLength(4);
  });
});

describe('the ledger', () => {
  const walk = (node: LedgerNode): LedgerNode[] => [node, ...(node.inputs ?? []).flatMap(walk)];

  test.each([
    'index',
    'index_low',
    'index_high',
    'tier',
    'tier_low',
    'tier_high',
    'wetting_l_m2',
    'rain_mm',
    'rain_low_mm',
    'rain_high_mm',
    'p_rain_over_threshold',
    'drainage_state',
    'need_code_then',
    'need_code_now',
    'need_practice',
    'index_spread',
    'index_weighted_area_m2',
    'insured_value',
    'latitude',
  ])('derives %s with the value of the table', async (column) => {
    const [row] = await all();
    const node = await analyst.ledger(row!.b as number, column);
    if (typeof node.value === 'number') expect(node.value).toBeCloseTo(row![column] as number, 1);
    else expect(node.value).toBe(row![column]);
    for (const leaf of walk(node).filter(({ inputs: below }) => !below?.length)) {
      expect(leaf.source ?? leaf.note ?? leaf.formula, `${column}: ${leaf.label}`).toBeTruthy();
    }
  });

  test('tells a fact of a wall by its file and row', async () => {
    const { walls: shown } = await analyst.building(0);
    const node = await analyst.ledger(0, 'sheathing', shown[0]!.wall as number);
    expect(node).toMatchObject({ value: 'osb', source: 'walls.csv, row 4, sheathing' });
  });
});

test('a building list alone is ranked with four walls of unknowns each', async () => {
  const alone = await session();
  await alone.open(inputs(buildings));
  const { walls: shown } = await alone.building(0);
  expect(shown.map(({ kind, azimuth_deg, area_m2 }) => [kind, azimuth_deg, area_m2])).toEqual(
    [90, 0, 180, 270].map((azimuth) => ['assumed', azimuth, 300]),
  );
});
