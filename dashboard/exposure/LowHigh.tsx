import { type SumTable, sumAt } from '../../analysis/exposure/sums.ts';
import { useDesk } from '../state/desk.ts';
import type { Shown } from './form.ts';
import { sumDigits } from './words.ts';

/** A sum over the first two tiers with all priors leaning low, and leaning high: both ends are sums, not a spread. */
export function LowHigh(props: {
  readonly sums: SumTable;
  readonly group: number;
  readonly shown: Shown;
}) {
  const { state } = useDesk();
  const end = (scope: 'low' | 'high') =>
    sumDigits(sumAt(props.sums, props.shown, props.group, scope), props.shown, state.units);
  return (
    <span class="low-high">
      <span class="unseen">leaning low </span>
      {end('low')} – <span class="unseen">leaning high </span>
      {end('high')}
    </span>
  );
}
