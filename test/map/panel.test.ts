import { describe, expect, test } from 'vitest';
import { tiers } from '../../analysis/session-types.ts';
import { pickedFeatures } from '../../dashboard/map/picked.ts';
import { TileClient } from '../../dashboard/map/tiles/client.ts';
import { SheetTiles } from '../../dashboard/map/tiles/sheet-tiles.ts';
import { arrival, startWalk, stepWalk } from '../../dashboard/map/walk.ts';
import { landSources, readTile } from './support.ts';

/** A worker that keeps what it is sent and says what it is told to. */
class SilentWorker extends EventTarget {
  readonly sent: { id: number; name: string }[] = [];
  ended = false;
  postMessage(message: { id: number; name: string }): void {
    this.sent.push(message);
  }
  terminate(): void {
    this.ended = true;
  }
  say(data: unknown): void {
    this.dispatchEvent(new MessageEvent('message', { data }));
  }
}

function clientOf() {
  const worker = new SilentWorker();
  const deaths: string[] = [];
  const client = new TileClient(worker as unknown as Worker, ({ message }) => deaths.push(message));
  return { worker, deaths, client };
}

describe('the map and its worker', () => {
  test('an answer reaches the request it belongs to, in any order', async () => {
    const { worker, client } = clientOf();
    const [first, second] = [client.ask('units', 'metric'), client.ask('nearest', {} as never)];
    worker.say({ id: worker.sent[1]!.id, answer: Uint32Array.of(7) });
    worker.say({ id: worker.sent[0]!.id, answer: null });
    expect(await second).toEqual(Uint32Array.of(7));
    expect(await first).toBeNull();
  });

  test('a failed request rejects with its sentence', async () => {
    const { worker, client } = clientOf();
    const asked = client.ask('units', 'metric');
    worker.say({ id: worker.sent[0]!.id, error: 'The map file could not be read (404).' });
    await expect(asked).rejects.toThrow('The map file could not be read (404).');
  });

  test('an aborted request rejects at once, and its late answer does no harm', async () => {
    const { worker, client } = clientOf();
    const abort = new AbortController();
    const asked = client.ask('units', 'metric', { signal: abort.signal });
    abort.abort();
    await expect(asked).rejects.toMatchObject({ name: 'AbortError' });
    worker.say({ id: worker.sent[0]!.id, answer: null });
  });

  test('a worker that dies rejects what is waiting and what comes after, and says so once', async () => {
    const { worker, deaths, client } = clientOf();
    const waiting = client.ask('units', 'metric');
    worker.dispatchEvent(Object.assign(new Event('error'), { message: 'out of memory' }));
    await expect(waiting).rejects.toThrow('out of memory');
    await expect(client.ask('units', 'american')).rejects.toThrow('out of memory');
    expect(deaths).toEqual(['out of memory']);
    expect(worker.ended).toBe(true);
  });
});

test('one sheet serves land, rain in the units asked for, and the buildings shown', async () => {
  const tiles = new SheetTiles(Promise.resolve(landSources()));
  const at = { z: 4, x: 3, y: 6 };
  const read = async (set: 'land' | 'rain' | 'buildings') =>
    readTile(await tiles.tile({ set, ...at }));
  expect(await read('rain')).toEqual([]);
  expect((await read('land')).length).toBeGreaterThan(0);

  const mm = Float32Array.from({ length: 60 * 40 }, (_, i) => 300 + (i % 60) * 10);
  const range = tiles.sheet({
    width: 60,
    height: 40,
    west: -130,
    north: 60,
    stepX: 1,
    stepY: -1,
    mm,
    source: '',
    period: '',
  });
  expect(range).toEqual([300, 890]);
  const labels = async () =>
    new Set((await read('rain')).map(({ properties }) => properties.label));
  expect(await labels()).toContain('20 in');
  tiles.units('metric');
  expect(await labels()).toContain('508 mm');
  expect(await labels()).not.toContain('20 in');

  const placed = tiles.portfolio({
    longitude: Float64Array.of(-100, -101, Number.NaN),
    latitude: Float64Array.of(38, 37, 38),
  });
  expect(placed).toBe(2);
  const drawn = async () =>
    (await read('buildings')).map(({ id, properties }) => [id, properties.tier]);
  const notScored = tiers.indexOf('Not scored');
  expect(await drawn()).toEqual(
    expect.arrayContaining([
      [0, notScored],
      [1, notScored],
    ]),
  );
  const scores = { tier: Uint8Array.of(0, 3, 1), cents: Int16Array.of(8000, 1000, 6000) };
  expect(tiles.scores(scores)).toEqual([1, 1, 0, 1, 0]);
  expect(await drawn()).toEqual([
    [1, 3],
    [0, 0],
  ]);
  tiles.shown(Int32Array.of(0, 2));
  expect(await drawn()).toEqual([[0, 0]]);
  tiles.scores({ ...scores, tier: Uint8Array.of(2, 3, 1) });
  expect(await drawn()).toEqual([[0, 2]]);
  tiles.shown(null);
  expect(await drawn()).toEqual([
    [1, 3],
    [0, 2],
  ]);
});

test('the hovered and the selected building are ringed, one without a place is not', () => {
  const frame = {
    longitude: Float64Array.of(-100, Number.NaN),
    latitude: Float64Array.of(40, 41),
  };
  const picked = { hovered: { b: 1, n: 1 }, selected: 0 };
  const { features } = pickedFeatures(frame, Uint8Array.of(2, 0), picked);
  expect(features).toMatchObject([
    { properties: { state: 'selected', tier: 2, n: 1 }, geometry: { coordinates: [-100, 40] } },
  ]);
});

test('the mark of several buildings is ringed where it stands, not where one of them does', () => {
  const frame = { longitude: Float64Array.of(-100), latitude: Float64Array.of(40) };
  const several = { z: 3, place: [-98, 39] } as const;
  const hovered = { b: 0, n: 40, several };
  const { features } = pickedFeatures(frame, Uint8Array.of(2), { hovered, selected: undefined });
  expect(features).toMatchObject([
    { properties: { state: 'hovered', n: 40 }, geometry: { coordinates: [-98, 39] } },
  ]);
});

describe('a walk over the buildings in view', () => {
  test('goes from the nearest outwards, and round at either end', () => {
    const walk = startWalk(Uint32Array.of(5, 9, 2))!;
    expect(walk.at).toBe(0);
    expect(stepWalk(walk, 1).at).toBe(1);
    expect(stepWalk(walk, -1).at).toBe(2);
    expect(stepWalk({ ...walk, at: 2 }, 1).at).toBe(0);
  });

  test('says where it stands and why that building is there', () => {
    expect(arrival({ order: Uint32Array.of(5, 9), at: 1 }, 'No record of drainage.')).toBe(
      '2 of the 2 nearest the centre. No record of drainage.',
    );
  });

  test('does not begin where nothing is in view', () => {
    expect(startWalk(new Uint32Array(0))).toBeUndefined();
  });
});
