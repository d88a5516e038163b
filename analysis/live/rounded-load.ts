/** Places between 0 and 1 at which a power is worked out; between them it is expanded. */
const places = 4096;
/** From here on the expansion is good to 2e-4 millionths for exponents up to 3: its next term is below (1/128)⁴ / 24. */
const first = places / 64;
/** Millionths from a border of rounding within which the power itself is taken. */
const nearPower = 1e-3;
/** The same for w, which is off by the last bits of a double alone. */
const nearLoad = 1e-6;

/**
 * w^α in whole millionths, w = wetting / (wetting + half-load), of a wetting in whole 1e-5 L/m². Always what load-factor.ts
 * has, where w and its power are each rounded to 1e-6, but several times as fast: three terms around the nearest of a few
 * thousand powers tell the rounding, unless a border is near.
 */
export function roundedLoad(alpha: number, halfLoad: number): (wetting: number) => number {
  const powers = Float64Array.from({ length: places + 1 }, (_, i) => (i / places) ** alpha * 1e6);
  const inverses = Float64Array.from({ length: places + 1 }, (_, i) => places / i);
  const second = (alpha - 1) / 2;
  const third = (alpha - 2) / 3;
  const half = halfLoad * 1e5;
  return (wetting) => {
    const load = (wetting / (wetting + half)) * 1e6;
    let millionths = Math.floor(load + 0.5);
    if (Math.abs(load - millionths) > 0.5 - nearLoad) millionths = loadOf(wetting, halfLoad);
    const w = millionths * 1e-6;
    const i = (w * places + 0.5) | 0;
    if (i < first) return powerOf(millionths, alpha);
    const off = w * inverses[i]! - 1;
    const value = powers[i]! * (1 + alpha * off * (1 + second * off * (1 + third * off)));
    const whole = Math.floor(value + 0.5);
    return Math.abs(value - whole) > 0.5 - nearPower ? powerOf(millionths, alpha) : whole;
  };
}

function loadOf(hundredThousandths: number, halfLoad: number): number {
  const wetting = hundredThousandths / 1e5;
  return Math.round((wetting / (wetting + halfLoad)) * 1e6);
}

const powerOf = (millionths: number, alpha: number): number =>
  Math.round((millionths / 1e6) ** alpha * 1e6);
