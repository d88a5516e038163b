import { createExpression, validateStyleMin } from '@maplibre/maplibre-gl-style-spec';
import { lab, rgb } from 'd3';
import { describe, expect, test } from 'vitest';
import { tiers } from '../../analysis/session-types.ts';
import { cellWidths, drawingOf } from '../../dashboard/map/mark-images.ts';
import { rainShade } from '../../dashboard/map/rain/ramp.ts';
import { sheetStyle, tileOf } from '../../dashboard/map/style.ts';
import { sheetThemes } from '../../dashboard/map/theme.ts';
import { tierMarks } from '../../dashboard/map/tier-marks.ts';
import { fileText } from './support.ts';

const themes = ['light', 'dark'] as const;

/** Contrast ratio of WCAG 2.2 (relative luminance of sRGB). */
function contrast(a: string, b: string): number {
  const luminance = (colour: string) => {
    const { r, g, b: blue } = rgb(colour);
    const [R, G, B] = [r, g, blue].map((v) =>
      v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4,
    );
    return 0.2126 * R! + 0.7152 * G! + 0.0722 * B!;
  };
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light! + 0.05) / (dark! + 0.05);
}

/** Colour difference in CIELAB (CIE 1976). */
function difference(a: string, b: string): number {
  const [p, q] = [lab(a), lab(b)];
  return Math.hypot(p.l - q.l, p.a - q.a, p.b - q.b);
}

/** Full deuteranopia and protanopia: matrices of Machado, Oliveira and Fernandes 2009, from memory, on linear RGB. */
const blindness = {
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
};

function seenWith(kind: keyof typeof blindness, colour: string): string {
  const { r, g, b } = rgb(colour);
  const linear = [r, g, b].map((v) => (v / 255) ** 2.2);
  const seen = blindness[kind].map((row) =>
    row.reduce((sum, weight, i) => sum + weight * linear[i]!, 0),
  );
  const [R, G, B] = seen.map((v) => Math.round(255 * Math.min(1, Math.max(0, v)) ** (1 / 2.2)));
  return rgb(R!, G!, B!).formatHex();
}

const pairs = tiers.flatMap((a, i) => tiers.slice(i + 1).map((b) => [a, b] as const));

describe.each(themes)('on the %s sheet', (theme) => {
  test.each(tiers)('the mark of %s stands out from its halo (WCAG 2.2, 1.4.11: 3 to 1)', (tier) => {
    expect(contrast(tierMarks[tier][theme], sheetThemes[theme].halo)).toBeGreaterThanOrEqual(3);
  });

  test.each(pairs)('%s and %s differ in colour for full and for red-green-blind sight', (a, b) => {
    const [p, q] = [tierMarks[a][theme], tierMarks[b][theme]];
    expect(difference(p, q)).toBeGreaterThan(15);
    for (const kind of ['protanopia', 'deuteranopia'] as const) {
      expect(difference(seenWith(kind, p), seenWith(kind, q))).toBeGreaterThan(12);
    }
  });

  test('shades of rain change in one direction and in even steps', () => {
    const shades = Array.from({ length: 11 }, (_, i) =>
      rainShade(sheetThemes[theme].ramp, 4000 * (i / 10) ** (1 / 0.75)),
    );
    const lightness = shades.map((shade) => lab(shade).l);
    const way = theme === 'light' ? -1 : 1;
    const steps = shades.slice(1).map((shade, i) => {
      expect((lightness[i + 1]! - lightness[i]!) * way).toBeGreaterThan(0);
      return difference(shade, shades[i]!);
    });
    const mean = steps.reduce((a, b) => a + b) / steps.length;
    for (const step of steps) expect(Math.abs(step / mean - 1)).toBeLessThan(0.35);
  });

  test('names read against every shade they may lie on (halo: 4.5 to 1)', () => {
    const { name, cityName, isohyet, mainIsohyet, halo } = sheetThemes[theme];
    for (const ink of [name, cityName, isohyet, mainIsohyet]) {
      expect(contrast(ink, halo)).toBeGreaterThanOrEqual(4.5);
    }
  });

  test("the style is valid (MapLibre style specification) and asks no address but the map's own", () => {
    const style = sheetStyle('rain-sheet-1', theme);
    expect(validateStyleMin(style)).toEqual([]);
    expect(JSON.stringify(style)).not.toMatch(/https?:|"glyphs"|"sprite"/);
  });

  test('every text names a bundled font, and every mark an image that is drawn', () => {
    const families = new Set(
      [...fileText('dashboard/fonts.css').matchAll(/font-family: "?([^";]+)"?;/g)].map((m) => m[1]),
    );
    for (const layer of sheetStyle('rain-sheet-1', theme).layers) {
      if (layer.type !== 'symbol') continue;
      if (layer.layout?.['text-field'])
        expect(families).toContain((layer.layout['text-font'] as string[])[0]);
    }
  });

  const imageOf = (properties: Record<string, number>): string => {
    const layer = sheetStyle('rain-sheet-1', theme).layers.find(({ id }) => id === 'buildings')!;
    const icon = (layer.layout as Record<string, unknown>)['icon-image'];
    const made = createExpression(icon, 'layers.icon-image');
    if (made.result === 'error') throw new Error('not an expression');
    return made.value.evaluate({ zoom: 4 }, { type: 1, properties });
  };

  test.each(tiers.map((tier, t) => [tier, t] as const))(
    'one building of %s wears its tier’s shape; several are larger and filled to their mean index',
    (tier, t) => {
      const { path, outline, [theme]: colour } = tierMarks[tier];
      expect(drawingOf(imageOf({ tier: t, n: 1 }))).toMatchObject({ path, colour, fill: 1 });
      for (const [n, size] of [
        [2, 0],
        [99, 0],
        [100, 1],
        [9999, 1],
        [10_000, 2],
      ] as const) {
        expect(drawingOf(imageOf({ tier: t, n, tenth: 3 }))).toMatchObject({
          path: outline,
          colour,
          width: cellWidths[size],
          fill: 0.3,
        });
      }
      expect(drawingOf(imageOf({ tier: t, n: 5 }))).toMatchObject({ path: outline, fill: 0 });
      expect(drawingOf(imageOf({ tier: t, n: 5, tenth: 10 }))!.fill).toBe(1);
    },
  );

  test('the city dot is drawn, and no name that the map does not give', () => {
    expect(drawingOf(`${theme}-city`)).toMatchObject({ colour: sheetThemes[theme].cityName });
    expect(drawingOf(`${theme}-7`)).toBeUndefined();
    expect(drawingOf('city')).toBeUndefined();
  });

  test.each([
    [1, ''],
    [2, '2'],
    [999, '999'],
    [1240, '1.2k'],
    [9960, '10k'],
    [34_400, '34k'],
    [999_600, '1m'],
    [1_250_000, '1.3m'],
  ])('a mark of %i buildings is labelled %s', (n, label) => {
    const layer = sheetStyle('rain-sheet-1', theme).layers.find(({ id }) => id === 'buildings')!;
    const made = createExpression(
      (layer.layout as Record<string, unknown>)['text-field'],
      'layers.text-field',
    );
    if (made.result === 'error') throw new Error('not an expression');
    const told = made.value.evaluate({ zoom: 4 }, { type: 1, properties: { n } });
    expect(String(told)).toBe(label);
  });
});

test('tiers have five different shapes, each within its box of 24', () => {
  const paths = tiers.map((tier) => tierMarks[tier].path);
  const outlines = tiers.map((tier) => tierMarks[tier].outline);
  expect(new Set(paths).size).toBe(5);
  expect(new Set(outlines).size).toBe(5);
  for (const path of [...paths, ...outlines]) {
    for (const number of path.match(/\d+(\.\d+)?/g)!)
      expect(Number(number)).toBeLessThanOrEqual(24);
  }
});

test('the page and the map draw a tier in the same colour', () => {
  const [light, dark] = fileText('dashboard/map/map.css').split(':root[data-theme');
  for (const { property, ...colours } of Object.values(tierMarks)) {
    expect(light).toContain(`${property}: ${colours.light};`);
    expect(dark).toContain(`${property}: ${colours.dark};`);
  }
});

test('a tile address is read back, and a strange one refused', () => {
  expect(tileOf('rain-sheet-3://buildings/5/7/11')).toEqual({
    set: 'buildings',
    z: 5,
    x: 7,
    y: 11,
  });
  expect(() => tileOf('https://example.com/5/7/11')).toThrow('not a tile of this map');
});
