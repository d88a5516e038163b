import { quantities, type Units } from '../parts/quantity.ts';

const miles = quantities.far.american.times;

const scaled = (text: string, by: number): string =>
  text.trim() === '' ? '' : String(Number((Number(text) * by).toPrecision(10)));

/** A distance kept in km as the page's units say it, and as typed back in km. */
export const shownDistance = (km: string, units: Units): string =>
  units === 'metric' ? km : scaled(km, miles);

export const keptDistance = (typed: string, units: Units): string =>
  units === 'metric' ? typed : scaled(typed, 1 / miles);
