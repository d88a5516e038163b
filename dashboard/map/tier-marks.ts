import type { Tier } from '../../analysis/session-types.ts';

/** One tier's mark: told by its shape alone in black and white, by its colour as well on screen. */
export interface TierMark {
  /** SVG path in a 24 × 24 box, filled with the even-odd rule. */
  readonly path: string;
  /** The shape without its openings, which stands for several buildings and is filled to their mean index. */
  readonly outline: string;
  /** CSS custom property that holds the colour (`map.css`). */
  readonly property: string;
  /** The same colours for the map's canvas, which reads no CSS. */
  readonly light: string;
  readonly dark: string;
}

/**
 * Ink falls with the tier: a solid plumb bob, a wall with one opening, the lower half of a drum, a thin ring, and a
 * cross where nothing was scored. The colours differ in lightness as well as in hue.
 */
export const tierMarks: Readonly<Record<Tier, TierMark>> = {
  'First look': {
    path: 'M3 2H21V13L12 23L3 13Z',
    outline: 'M3 2H21V13L12 23L3 13Z',
    property: '--tier-first',
    light: '#7c1436',
    dark: '#ff7d9c',
  },
  'Next look': {
    path: 'M3 3H21V21H3Z M9 9V15H15V9Z',
    outline: 'M3 3H21V21H3Z',
    property: '--tier-next',
    light: '#b4500f',
    dark: '#f6b25e',
  },
  'Keep watch': {
    path: 'M2 9H22A10 11 0 0 1 2 9Z',
    outline: 'M2 7H22V9A10 12 0 0 1 2 9Z',
    property: '--tier-keep',
    light: '#3f56a0',
    dark: '#9fb2ff',
  },
  'No flag': {
    path: 'M12 4A8 8 0 0 1 12 20A8 8 0 0 1 12 4Z M12 7.5A4.5 4.5 0 0 0 12 16.5A4.5 4.5 0 0 0 12 7.5Z',
    outline: 'M12 3A9 9 0 0 1 12 21A9 9 0 0 1 12 3Z',
    property: '--tier-none',
    light: '#556166',
    dark: '#c3cccd',
  },
  'Not scored': {
    path: 'M6.2 3.8L12 9.6L17.8 3.8L20.2 6.2L14.4 12L20.2 17.8L17.8 20.2L12 14.4L6.2 20.2L3.8 17.8L9.6 12L3.8 6.2Z',
    outline:
      'M6.2 3.8L12 9.6L17.8 3.8L20.2 6.2L14.4 12L20.2 17.8L17.8 20.2L12 14.4L6.2 20.2L3.8 17.8L9.6 12L3.8 6.2Z',
    property: '--tier-unscored',
    light: '#7d7568',
    dark: '#8f8a7d',
  },
};
