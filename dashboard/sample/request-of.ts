import type { Allocation } from '../../analysis/sample/allocate.ts';
import { defaultRequest, type SelectionRequest } from '../../analysis/sample/request.ts';
import type { Outcome } from '../../analysis/sample/types.ts';
import { numberOf, type SampleForm, shareOf } from './form.ts';
import { exclusionLines, idLines } from './id-lines.ts';

/** Fields filled for strata that are there now; what was typed for others is left alone. */
const given = (
  texts: Readonly<Record<string, string>>,
  strata: readonly string[],
  of: (text: string) => number,
): Record<string, number> =>
  Object.fromEntries(
    strata.flatMap((name) => {
      const text = texts[name]?.trim() ?? '';
      return text === '' ? [] : [[name, of(text)]];
    }),
  );

function allocationOf(form: SampleForm, strata: readonly string[]): Allocation {
  if (form.allocation === 'neyman')
    return { kind: 'neyman', shares: given(form.shares, strata, shareOf) };
  if (form.allocation === 'by hand')
    return { kind: 'by hand', openings: given(form.byHand, strata, numberOf) };
  return { kind: 'proportional' };
}

/** Openings set by hand, in all. */
export const handTotal = (form: SampleForm, strata: readonly string[]): number =>
  Object.values(given(form.byHand, strata, numberOf)).reduce((sum, n) => sum + n, 0);

const orZero = (text: string): number => (text.trim() === '' ? 0 : numberOf(text));

/** What is asked of the draw; `strata` are the names in the table now. What a line lacks comes back in words. */
export function requestOf(
  form: SampleForm,
  strata: readonly string[],
): Outcome<{ request: SelectionRequest }> {
  const exclusions = exclusionLines(form.exclusions);
  if (exclusions.says.length > 0) return { ok: false, says: exclusions.says };
  const request: SelectionRequest = {
    ...defaultRequest,
    design: form.design,
    openings: numberOf(form.openings),
    seed: numberOf(form.seed),
    strata: form.strata,
    allocation: allocationOf(form, strata),
    chances: form.chances,
    replicates: numberOf(form.replicates),
    replacementsPerStratum: orZero(form.replacements),
    exclusions: exclusions.read,
    mustInclude: idLines(form.mustInclude),
    minimumDistanceKm: orZero(form.distanceKm),
    withAzimuth: form.withAzimuth,
  };
  return { ok: true, request, says: [] };
}
