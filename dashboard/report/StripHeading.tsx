import { figureOf, joined } from '../parts/format.ts';
import { StripLegend } from '../rank/Strip.tsx';
import { useDesk } from '../state/desk.ts';

/** Heading of a column of strips: what they show, and their scale. */
export function StripHeading(props: { readonly wettingMax: number }) {
  const { state } = useDesk();
  return (
    <th scope="col">
      <span class="unseen">The wall from the rain inwards</span>
      <StripLegend wettingMax={joined(figureOf(props.wettingMax, 'wetting', state.units))} />
    </th>
  );
}
