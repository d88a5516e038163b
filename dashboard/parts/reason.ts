import type { Value } from './format.ts';
import type { Units } from './quantity.ts';

/** The reason sentence of a ranking row in the units in use; the analysis writes it in both. */
export function reasonIn(row: Readonly<Record<string, Value>>, units: Units): string {
  const american = units === 'american' ? row.reason_american : null;
  return String(american ?? row.reason ?? '');
}
