import { placeWords } from '../parts/place-words.ts';
import { openBuilding } from '../state/changes.ts';
import { useDesk } from '../state/desk.ts';
import type { RankRow } from '../state/rows.ts';

/** A building by name, or id until its row is here; the click opens it in Rank. */
export function BuildingDoor(props: { readonly b: number; readonly row: RankRow | undefined }) {
  const { apply } = useDesk();
  const text = (column: string) => String(props.row?.[column] ?? '');
  const name = () => text('name') || text('building_id') || '…';
  return (
    <>
      <button type="button" class="plain-button" onClick={() => apply(openBuilding(props.b))}>
        {name()}
      </button>
      <span class="building-place">{placeWords(props.row ?? {})}</span>
    </>
  );
}
