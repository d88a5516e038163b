import { cautionTexts } from '../cautions.ts';
import { csvText } from '../export/csv-text.ts';
import type { UnitSystem } from '../units.ts';
import { draftWord, lockedText, type ShownPlan, standingWord } from './plan-standing.ts';
import { planTable } from './plan-table.ts';

/** The name of a file of a plan; what a disk may refuse becomes a dash. A draft says so in its name. */
export function fileName({ plan, locked }: ShownPlan, ending: string): string {
  const name = plan.head.planId.replace(/[^\p{L}\p{N}._-]+/gu, '-') || 'plan';
  return `${locked ? '' : 'DRAFT-'}${name}.${ending}`;
}

/** RFC 4180: one row a unit. A text that a spreadsheet would take for a formula is disarmed with an apostrophe. */
export function planCsv(shown: ShownPlan, units: UnitSystem): string {
  const { heads, rows } = planTable(shown, units);
  return csvText([heads, ...rows]);
}

/** RFC 7946: a point for each unit; one without a place has no geometry (section 3.2). */
export function planGeojson(shown: ShownPlan, units: UnitSystem): string {
  const { heads, rows } = planTable(shown, units);
  const features = rows.map((row) => {
    const { latitude, longitude, ...properties } = Object.fromEntries(
      heads.map((head, i) => [head, row[i] ?? null]),
    );
    const placed = typeof latitude === 'number' && typeof longitude === 'number';
    const geometry = placed ? { type: 'Point', coordinates: [longitude, latitude] } : null;
    return { type: 'Feature', geometry, properties };
  });
  const { head, method, generator, seed, limits } = shown.plan;
  const plan = { status: standingWord(shown), ...head, method, generator, seed, limits };
  const all = { type: 'FeatureCollection', caution: cautionTexts, plan, features };
  return `${JSON.stringify(all, null, 1)}\n`;
}

/**
 * A locked plan as the very text that was digested, so that any SHA-256 tool finds the digest of the file; a draft
 * wrapped in a note that it is one.
 */
export const planJson = (shown: ShownPlan): string =>
  shown.locked
    ? lockedText(shown)
    : `{"status":${JSON.stringify(draftWord)},"plan":${lockedText(shown)}}`;
