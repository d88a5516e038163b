import type { Map as MapCanvas } from 'maplibre-gl';
import type { TileSet } from './tiles/messages.ts';

/** Has tiles cut anew after what they show has changed: at most once a frame, and one cutting of a set at a time. */
export interface Refresher {
  /** A tile of the set has been asked for, and will be cut from what is known now. */
  asked(set: TileSet): void;
  /** What the set shows has changed. Answers whether tiles must be cut anew. */
  changed(set: TileSet): boolean;
  /** Whether no tile waits to be cut anew. */
  isFresh(): boolean;
  /** Refreshes what is stale and can be. Call when tiles have arrived. */
  settle(): void;
}

export function createRefresher(map: MapCanvas): Refresher {
  /** Sets with tiles asked for since their last change; a set without any has nothing to cut anew. */
  const asked = new Set<TileSet>();
  const stale = new Set<TileSet>();
  let due = 0;

  const settle = () => {
    due = 0;
    for (const set of stale) {
      // A tile asked for again while on its way comes as it was cut first: wait for those under way.
      if (!map.getSource(set) || !map.isSourceLoaded(set)) continue;
      stale.delete(set);
      map.refreshTiles(set);
    }
  };

  map.on('remove', () => cancelAnimationFrame(due));

  return {
    asked: (set) => void asked.add(set),
    changed: (set) => {
      if (!asked.delete(set) && !stale.has(set)) return false;
      stale.add(set);
      due ||= requestAnimationFrame(settle);
      return true;
    },
    isFresh: () => stale.size === 0,
    settle,
  };
}
