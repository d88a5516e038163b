import { type Columns, numbers, texts } from '../columns.ts';

/** A wall to open beside the selected one, for comparison: chosen on purpose, so it has no probability and bears no estimate. */
export interface Control {
  readonly wallId: string | null;
  /** Why it is the one, or why there is none. */
  readonly says: string;
}

/**
 * The most sheltered wall of the same building and cladding: the one with the least wetting. Where every wall of the
 * building takes the same wetting there is nothing to tell them apart by.
 */
export function controlFor(walls: Columns, row: number): Control {
  const b = numbers(walls, 'b');
  const wetting = numbers(walls, 'wetting_l_m2');
  const material = texts(walls, 'material');
  const others = Array.from({ length: walls.n }, (_, i) => i).filter(
    (i) => i !== row && b[i] === b[row],
  );
  if (others.length === 0)
    return { wallId: null, says: 'no other wall of the building is on record' };
  const alike = others.filter((i) => material[i] === material[row]);
  const among = alike.length > 0 ? alike : others;
  const least = among.reduce((best, i) => (wetting[i]! < wetting[best]! ? i : best));
  if (!(wetting[least]! < wetting[row]!)) {
    return {
      wallId: null,
      says: 'cannot tell which wall is sheltered: no wind record tells the walls apart, or this wall is the driest',
    };
  }
  const other =
    alike.length > 0
      ? ''
      : `; its cladding is another (${(material[least] ?? 'no record').replaceAll('_', ' ')})`;
  return {
    wallId: texts(walls, 'wall_id')[least]!,
    says: `takes the least wind-driven rain of the building, ${wetting[least]} L/m² a year${other}`,
  };
}
