import { For, Show } from 'solid-js';
import { type ShownPlan, standingWord } from '../../analysis/survey/plan-standing.ts';
import type { PlanLine } from '../../analysis/survey/plan-table.ts';
import { counted, facing, noRecord, show } from '../parts/format.ts';
import { sentenceIn } from '../parts/sentence.ts';
import { plainWord } from '../parts/words.ts';
import { useDesk } from '../state/desk.ts';
import { entryPlaces, protocol, sheetCautions } from './field-sheet.ts';
import { LocatorMap } from './LocatorMap.tsx';
import type { Locator } from './locator.ts';
import { NorthArrow } from './NorthArrow.tsx';

const emptyRows = ['Other: '] as const;

interface SheetProps {
  readonly line: PlanLine;
  readonly shown: ShownPlan;
  readonly locator: Locator | null;
}

/** The page that goes to one wall. */
export function FieldSheet(props: SheetProps) {
  const plan = () => props.shown.plan;
  const unit = () => props.line.unit;
  const turn = () =>
    unit().replacementOrder === null
      ? `No. ${props.line.line}`
      : `Replacement ${unit().replacementOrder} of stratum ${plainWord(unit().stratum)}: only for a unit of it that cannot be opened, in this order`;
  return (
    <article class="field-sheet">
      <header>
        <h2>{unit().id}</h2>
        <p>
          <b>{turn()}</b> · plan {plan().head.planId}, {standingWord(props.shown)}
          <Show when={props.shown.locked}>
            {(locked) => <>, {locked().digest.slice(0, 12)}…</>}
          </Show>
        </p>
      </header>
      <ul class="sheet-cautions">
        <For each={sheetCautions}>
          {({ short, text }) => (
            <li>
              <b>{short}</b> {text}
            </li>
          )}
        </For>
      </ul>
      <div class="sheet-place">
        <WallFacts {...props} />
        <NorthArrow azimuth={props.line.field.wall.azimuth_deg ?? null} />
        <LocatorMap locator={props.locator} />
      </div>
      <Readings control={props.line.field.control.wallId} />
      <Protocol />
      <p class="sheet-foot">
        Observer <i /> Date <i /> Weather <i />
      </p>
      <p class="sheet-foot">
        Not accessible, because <i />
      </p>
      <p class="sheet-small">
        Screening, not diagnosis; an opening shows this place, not the wall. Only an opening sees
        the sheathing. Local codes and a licensed professional decide.
      </p>
    </article>
  );
}

function WallFacts(props: SheetProps) {
  const { state } = useDesk();
  const wall = () => props.line.field.wall;
  const value = (column: string) => {
    const found = wall()[column] ?? null;
    return typeof found === 'string' ? plainWord(found) : show(found, column, state.units);
  };
  const address = () =>
    [wall().address, wall().city, wall().region].filter(Boolean).join(', ') || noRecord;
  const at = () =>
    [wall().latitude, wall().longitude].every((degrees) => typeof degrees === 'number')
      ? `${Number(wall().latitude).toFixed(5)}, ${Number(wall().longitude).toFixed(5)}`
      : noRecord;
  const facts = (): readonly (readonly [string, string])[] => [
    ['Building', `${wall().building_id}, ${wall().name ?? 'no name on record'}`],
    ['Address', address()],
    ['Place (WGS 84)', at()],
    ['Wall', String(wall().wall_id ?? noRecord)],
    ['Faces', facing(wall().azimuth_deg)],
    ['Cladding', `${value('material')}, installed ${value('installed')}`],
    ['Drainage, sheathing', `${value('drainage')}; ${value('sheathing')}`],
    ['Area, height', `${value('area_m2')}; ${value('height_m')}`],
    ['Wind-driven rain', value('wetting_l_m2')],
    ['Control', controlWords(props.line, state.units)],
  ];
  return (
    <dl>
      <For each={facts()}>
        {([term, words]) => (
          <div>
            <dt>{term}</dt>
            <dd>{words}</dd>
          </div>
        )}
      </For>
    </dl>
  );
}

const controlWords = ({ field }: PlanLine, units: 'metric' | 'american'): string => {
  const { wallId, says } = field.control;
  return wallId === null
    ? `none: ${sentenceIn(says, units)}`
    : `${wallId}: ${sentenceIn(says, units)}. Chosen for comparison, probability none.`;
};

/** Rows for what is seen and read, each place on the wall to open and on the sheltered one. */
function Readings(props: { readonly control: string | null }) {
  return (
    <table class="readings">
      <thead>
        <tr>
          <th scope="col">Where water usually enters</th>
          <th scope="col">Opened?</th>
          <th scope="col">Condition*</th>
          <th scope="col">Moisture, scale</th>
          <th scope="col">Extent</th>
          <th scope="col">Photos, samples</th>
          <th scope="col">Sheltered wall {props.control ?? ''}</th>
        </tr>
      </thead>
      <tbody>
        <For each={[...entryPlaces.map(({ place }) => place), ...emptyRows]}>
          {(place) => (
            <tr>
              <th scope="row">{place}</th>
              <For each={['opened', 'condition', 'moisture', 'extent', 'photos', 'control']}>
                {() => <td />}
              </For>
            </tr>
          )}
        </For>
      </tbody>
      <caption>
        *sound, stained, softened or decayed, where the sheathing itself was seen.{' '}
        {counted(entryPlaces.length, 'place')}: common practice, no source.
      </caption>
    </table>
  );
}

function Protocol() {
  return (
    <div class="protocol">
      <For each={protocol}>
        {({ when, steps }) => (
          <section>
            <h3>{when}</h3>
            <ul>
              <For each={steps}>
                {(step) => (
                  <li>
                    <svg viewBox="0 0 12 12" aria-hidden="true">
                      <path d="M1 1H11V11H1Z" />
                    </svg>
                    {step}
                  </li>
                )}
              </For>
            </ul>
          </section>
        )}
      </For>
    </div>
  );
}
