import { type GeoPath, type GeoProjection, geoConicEqualArea, geoEqualEarth, geoPath } from 'd3';
import type { Position } from 'geojson';
import type { Bounds } from '../../analysis/place/bounds.ts';
import { turnedTo } from '../../analysis/place/longitudes.ts';

/** A picture of part of the world: a conic of equal area fitted to it, north up in its middle. */
export interface MapFrame {
  /** Units of the picture; a unit is about a CSS pixel on paper. */
  readonly width: number;
  readonly height: number;
  readonly place: (longitude: number, latitude: number) => readonly [x: number, y: number] | null;
  readonly path: GeoPath;
  /** Degrees: all that the picture shows. */
  readonly shows: Bounds;
  /** Units of the picture for one km, in its middle. */
  readonly unitsPerKm: number;
}

export interface FrameSize {
  readonly width: number;
  readonly maxHeight: number;
  readonly margin: number;
}

/** Wider than this, a conic would bend too far: the whole world is drawn instead. */
const widest = 120;
/** Less is no region: one building, or some at one address; degrees of latitude. */
const leastSpan = 1;
const kmPerDegree = 111.195;

const steps = Array.from({ length: 25 }, (_, i) => i / 24);

/** Points along the edge of a box of degrees or of picture units. */
function along(west: number, south: number, east: number, north: number): Position[] {
  const x = (share: number) => west + share * (east - west);
  const y = (share: number) => south + share * (north - south);
  return steps.flatMap((share) => [
    [x(share), south],
    [x(share), north],
    [west, y(share)],
    [east, y(share)],
  ]);
}

function projectionOf({ west, south, east, north }: Bounds): GeoProjection {
  const turn = -(west + east) / 2;
  if (east - west > widest) return geoEqualEarth().rotate([turn, 0]);
  const sixth = (north - south) / 6;
  return geoConicEqualArea()
    .parallels([south + sixth, north - sixth])
    .rotate([turn, 0]);
}

/** At least a region around these degrees. */
function widened({ west, south, east, north }: Bounds, least = leastSpan): Bounds {
  const middle = (south + north) / 2;
  const squeeze = Math.max(0.2, Math.cos((middle * Math.PI) / 180));
  const more = (span: number, wanted: number) => Math.max(0, (wanted - span) / 2);
  const [dx, dy] = [more(east - west, least / squeeze), more(north - south, least)];
  return {
    west: west - dx,
    east: east + dx,
    south: Math.max(-89, south - dy),
    north: Math.min(89, north + dy),
  };
}

/** The picture of these bounds, as wide as there is room, and no higher than allowed. */
export function frameOf(bounds: Bounds, { width, maxHeight, margin }: FrameSize): MapFrame {
  const box = widened(bounds);
  const edge = {
    type: 'MultiPoint' as const,
    coordinates: along(box.west, box.south, box.east, box.north),
  };
  const projection = projectionOf(box);
  const within = width - 2 * margin;
  projection.fitWidth(within, edge);
  const [[, top], [, bottom]] = geoPath(projection).bounds(edge);
  const height = Math.min(maxHeight, Math.ceil(bottom - top) + 2 * margin);
  projection.fitExtent(
    [
      [margin, margin],
      [width - margin, height - margin],
    ],
    edge,
  );
  const place: MapFrame['place'] = (longitude, latitude) => projection([longitude, latitude]);
  const shows = shownBy(projection, width, height, box);
  const middle = [(box.west + box.east) / 2, (box.south + box.north) / 2] as const;
  const [a, b] = [place(middle[0], middle[1] - 0.05), place(middle[0], middle[1] + 0.05)];
  projection.clipExtent([
    [0, 0],
    [width, height],
  ]);
  return {
    width,
    height,
    place,
    path: geoPath(projection).digits(1),
    shows,
    unitsPerKm: a && b ? Math.abs(a[1] - b[1]) / (0.1 * kmPerDegree) : 1,
  };
}

/** Degrees under the picture's edge; longitudes may leave ±180 so that west ≤ east. */
function shownBy(projection: GeoProjection, width: number, height: number, box: Bounds): Bounds {
  const middle = (box.west + box.east) / 2;
  const found = along(0, 0, width, height)
    .map(([x, y]) => projection.invert?.([x!, y!]))
    .filter((degrees): degrees is [number, number] => degrees?.every(Number.isFinite) ?? false);
  const longitudes = found.map(([longitude]) => turnedTo(middle, longitude));
  const latitudes = found.map(([, latitude]) => latitude);
  return {
    west: Math.min(box.west, ...longitudes),
    east: Math.max(box.east, ...longitudes),
    south: Math.min(box.south, ...latitudes),
    north: Math.max(box.north, ...latitudes),
  };
}
