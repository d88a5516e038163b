import { once } from '../../analysis/sift/kept.ts';
import { readLand } from '../map/tiles/land-files.ts';

/** Land, borders and lakes that ship with the page; read once, asked for again where that went wrong. */
export const knownLand = once(() => readLand((trouble) => `the ${trouble}`));
