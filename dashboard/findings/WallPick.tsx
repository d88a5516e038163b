import { createResource, createSignal, createUniqueId, For, onCleanup, Show } from 'solid-js';
import type { BuildingDetail } from '../../analysis/session-types.ts';
import { facing } from '../parts/format.ts';
import { plainWord } from '../parts/words.ts';
import { useDesk } from '../state/desk.ts';
import type { Draft } from './draft.ts';
import { Field } from './fields.tsx';
import { findBuilding, offerBuildings } from './find-building.ts';
import { type PlannedWall, plannedWalls } from './planned-walls.ts';
import type { Entry } from './register.ts';

interface PickProps {
  readonly draft: Draft;
  readonly entries: readonly Entry[];
  readonly put: (cells: Draft) => void;
  readonly troubleAt: (column: string) => string | null;
}

/** Which wall: one of a plan, or any of the portfolio by its building. */
export function WallPick(props: PickProps) {
  const { survey } = useDesk();
  return (
    <>
      <Show when={survey.plans().length > 0}>
        <PlannedPick {...props} />
      </Show>
      <BuildingPick {...props} />
      <WallOfBuilding {...props} />
      <Field words="Plan it belongs to" trouble={null}>
        {(control) => (
          <select
            onChange={(event) => props.put({ plan_id: event.currentTarget.value })}
            {...control}
          >
            <option value="" selected={!props.draft.plan_id}>
              none: opportunistic
            </option>
            <For each={survey.plans().map(({ plan }) => plan.head.planId)}>
              {(id) => (
                <option value={id} selected={props.draft.plan_id === id}>
                  {id}
                </option>
              )}
            </For>
          </select>
        )}
      </Field>
    </>
  );
}

const named = (name: string, about: string): string => (about ? `${name} (${about})` : name);

const wordsOf = (wall: PlannedWall, seen: boolean): string => {
  const order = wall.replacementOrder === null ? '' : `replacement ${wall.replacementOrder}: `;
  return `${order}${named(`${wall.building}, ${wall.wall}`, wall.about)}${seen ? ', on record' : ''}`;
};

/** Choosing a wall of a plan fills in building, wall and plan. */
function PlannedPick(props: PickProps) {
  const { survey } = useDesk();
  const walls = () => survey.plans().flatMap(plannedWalls);
  const seen = () =>
    new Set(
      props.entries
        .filter(({ standing }) => standing === 'on record')
        .map(({ cells }) => JSON.stringify([cells.building_id, cells.wall_id])),
    );
  const isSeen = ({ building, wall }: PlannedWall) => seen().has(JSON.stringify([building, wall]));
  const isChosen = (one: PlannedWall) =>
    one.building === props.draft.building_id &&
    one.wall === props.draft.wall_id &&
    (one.control ? '' : one.planId) === (props.draft.plan_id ?? '');
  const choose = (place: string) => {
    const one = walls()[Number(place)];
    if (place === '' || !one) return;
    const plan = one.control ? '' : one.planId;
    props.put({ building_id: one.building, wall_id: one.wall, plan_id: plan });
  };
  const groups = () => [...new Set(walls().map(groupOf))];
  return (
    <div class="log-wide">
      <Field words="A wall of a plan" trouble={null}>
        {(control) => (
          <select onChange={(event) => choose(event.currentTarget.value)} {...control}>
            <option value="">another wall, chosen below</option>
            <For each={groups()}>
              {(group) => (
                <optgroup label={group}>
                  <For each={walls()}>
                    {(one, i) => (
                      <Show when={groupOf(one) === group}>
                        <option value={i()} selected={isChosen(one)}>
                          {wordsOf(one, isSeen(one))}
                        </option>
                      </Show>
                    )}
                  </For>
                </optgroup>
              )}
            </For>
          </select>
        )}
      </Field>
    </div>
  );
}

const groupOf = ({ planId, control }: PlannedWall): string =>
  control ? `Sheltered walls beside plan ${planId}: no estimate` : `Plan ${planId}`;

/** Milliseconds without a further key after which buildings are offered. */
const pause = 200;

function BuildingPick(props: PickProps) {
  const { session } = useDesk();
  const list = createUniqueId();
  const [typed, setTyped] = createSignal('');
  let timer: ReturnType<typeof setTimeout> | undefined;
  onCleanup(() => clearTimeout(timer));
  const type = (text: string) => {
    clearTimeout(timer);
    timer = setTimeout(() => setTyped(text), pause);
  };
  const [offered] = createResource(typed, (text) => offerBuildings(session.analyst, text));
  return (
    <Field words="Building" trouble={props.troubleAt('building_id')}>
      {(control) => (
        <>
          <input
            type="text"
            list={list}
            autocomplete="off"
            placeholder="id, name, address or city"
            value={props.draft.building_id ?? ''}
            onInput={(event) => type(event.currentTarget.value)}
            onChange={(event) =>
              props.put({ building_id: event.currentTarget.value.trim(), wall_id: '', plan_id: '' })
            }
            {...control}
          />
          <datalist id={list}>
            <For each={offered.latest ?? []}>
              {({ id, about }) => <option value={id}>{about}</option>}
            </For>
          </datalist>
        </>
      )}
    </Field>
  );
}

type Wall = BuildingDetail['walls'][number];

const aboutWall = ({ material, azimuth_deg }: Wall): string =>
  [material && plainWord(`${material}`), azimuth_deg !== null && `faces ${facing(azimuth_deg)}`]
    .filter(Boolean)
    .join(', ');

function WallOfBuilding(props: PickProps) {
  const { session } = useDesk();
  const asked = () => {
    const id = props.draft.building_id ?? '';
    const version = session.opened()?.version;
    return id && version !== undefined ? { id, version } : null;
  };
  const [walls] = createResource(asked, async ({ id }) => {
    const b = await findBuilding(session.analyst, id);
    if (b === null) return null;
    const { walls } = await session.analyst.building(b);
    return walls.filter(({ kind }) => kind !== 'superseded');
  });
  const trouble = () =>
    asked() && walls.state === 'ready' && walls() === null
      ? `No building ${props.draft.building_id} is in the building list. Type part of its name and take one that is offered.`
      : props.troubleAt('wall_id');
  return (
    <Field words="Wall" trouble={trouble()}>
      {(control) => (
        <select
          disabled={!asked()}
          onChange={(event) => props.put({ wall_id: event.currentTarget.value, plan_id: '' })}
          {...control}
        >
          <option value="" selected={!props.draft.wall_id}>
            {asked() ? 'choose a wall' : 'choose a building first'}
          </option>
          <For each={walls.latest ?? []}>
            {(wall) => (
              <option
                value={`${wall.wall_id}`}
                selected={props.draft.wall_id === `${wall.wall_id}`}
              >
                {named(`${wall.wall_id}`, aboutWall(wall))}
              </option>
            )}
          </For>
        </select>
      )}
    </Field>
  );
}
