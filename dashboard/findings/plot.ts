import { scaleLinear } from 'd3';

/** The box of the reliability plot, px of its own. */
export const box = { width: 340, height: 320, left: 54, right: 14, top: 12, bottom: 46 } as const;

/** Both axes are chances from 0 to 1: the diagonal is where what was foretold was seen. */
export const across = scaleLinear([0, 1], [box.left, box.width - box.right]);
export const upward = scaleLinear([0, 1], [box.height - box.bottom, box.top]);

export const chanceTicks = [0, 0.25, 0.5, 0.75, 1] as const;

/** One scale for all intervals of the view: a share from 0 to 1. */
export const whisker = { width: 216, height: 26, from: 6, to: 210 } as const;
export const shareScale = scaleLinear([0, 1], [whisker.from, whisker.to]).clamp(true);

/** The index of a wall, drawn as the shares are. */
export const indexScale = scaleLinear([0, 100], [whisker.from, whisker.to]).clamp(true);
