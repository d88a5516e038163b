import { scaleLinear } from 'd3';

/** The strip's lanes, px in its own box: rain side on the left, the room on the right, the index last. */
export const strip = {
  width: 256,
  height: 34,
  wetting: { from: 0, to: 70 },
  drains: { from: 80, to: 118 },
  sheathing: { from: 128, to: 168 },
  index: { from: 184, to: 252 },
} as const;

/** One scale over the portfolio: the longest bar is the wettest ranked wall of all buildings. */
export const wettingScale = (wettingMax: number) =>
  scaleLinear([0, wettingMax > 0 ? wettingMax : 1], [strip.wetting.from, strip.wetting.to]).clamp(
    true,
  );

export const indexScale = scaleLinear([0, 100], [strip.index.from, strip.index.to]).clamp(true);
export const adequacyScale = scaleLinear([0, 1], [0, strip.drains.to - strip.drains.from]).clamp(
  true,
);

/** The more readily the sheathing decays, the longer its bar. */
export const susceptibilityScale = scaleLinear(
  [0, 1],
  [0, strip.sheathing.to - strip.sheathing.from],
).clamp(true);
