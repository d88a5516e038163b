import type { Tier } from '../../analysis/session-types.ts';
import { tierMarks } from '../map/tier-marks.ts';
import './number.css';

/** A tier's mark; its word stands beside it, so the mark itself is silent. */
export function TierMark(props: { readonly tier: Tier }) {
  const mark = () => tierMarks[props.tier];
  return (
    <svg
      class="tier-mark"
      viewBox="0 0 24 24"
      aria-hidden="true"
      style={{ '--on-light': mark().light, '--on-dark': mark().dark }}
    >
      <path d={mark().path} fill-rule="evenodd" />
    </svg>
  );
}
