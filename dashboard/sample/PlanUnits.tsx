import { createSignal, For, Show } from 'solid-js';
import type { ShownPlan } from '../../analysis/survey/plan-standing.ts';
import { known, type PlanLine, planLines, turnWord } from '../../analysis/survey/plan-table.ts';
import { counted, digits, facing, noRecord } from '../parts/format.ts';
import { sentenceIn } from '../parts/sentence.ts';
import { plainWord } from '../parts/words.ts';
import { useDesk } from '../state/desk.ts';

/** Rows shown before the reader asks for all. */
const firstRows = 60;

/** A chance with six decimals at most, or that there is none. */
const chanceWord = (chance: number | null): string =>
  known(chance) === null ? 'none' : String(Math.round(chance! * 1e6) / 1e6);

const weightWord = (weight: number | null): string =>
  known(weight) === null ? 'none' : digits(weight!, 2);

/** `B-12`, or with the wall that is opened. */
const text = (value: number | string | null | undefined): string =>
  value === null || value === undefined || value === '' ? noRecord : String(value);

/** The walls to open, in the order of the plan, with replacements at the end. */
export function PlanUnits(props: { readonly shown: ShownPlan; readonly all?: boolean }) {
  const [all, setAll] = createSignal(false);
  const lines = () => planLines(props.shown);
  const rows = () => (all() || props.all ? lines() : lines().slice(0, firstRows));
  return (
    <>
      <section class="sample-scroll plan-units" tabindex={0} aria-label="Walls to open">
        <table>
          <thead>
            <tr>
              <th scope="col">No.</th>
              <th scope="col">{props.shown.plan.unit === 'wall' ? 'Wall' : 'Building'} (unit)</th>
              <th scope="col">Where</th>
              <th scope="col">Turn</th>
              <th scope="col">Stratum</th>
              <th scope="col" class="right">
                Probability
              </th>
              <th scope="col" class="right">
                Weight
              </th>
              <th scope="col">Sheltered wall to compare</th>
            </tr>
          </thead>
          <tbody>
            <For each={rows()}>{(line) => <UnitRow line={line} />}</For>
          </tbody>
        </table>
      </section>
      <Show when={rows().length < lines().length}>
        <p>
          <button type="button" class="plain-button" onClick={() => setAll(true)}>
            Show all {counted(lines().length, 'row')}
          </button>
        </p>
      </Show>
    </>
  );
}

function UnitRow(props: { readonly line: PlanLine }) {
  const { state } = useDesk();
  const wall = () => props.line.field.wall;
  const unit = () => props.line.unit;
  const control = () => props.line.field.control;
  const turn = () =>
    [
      turnWord(props.line),
      ...(unit().certainty ? ['certain'] : []),
      ...(unit().replicate === null ? [] : [`draw ${unit().replicate}`]),
    ].join(', ');
  return (
    <tr>
      <td>{props.line.line}</td>
      <th scope="row">{unit().id}</th>
      <td>
        {text(wall().name)}
        <br />
        <span class="soft">
          wall {text(wall().wall_id)}, faces {facing(wall().azimuth_deg)},{' '}
          {plainWord(text(wall().material))}
        </span>
      </td>
      <td>{turn()}</td>
      <td>{plainWord(unit().stratum)}</td>
      <td class="right">{chanceWord(unit().probability)}</td>
      <td class="right">{weightWord(unit().weight)}</td>
      <td>
        <Show when={control().wallId} fallback={<span class="soft">none: </span>}>
          {control().wallId}, probability none:{' '}
        </Show>
        <span class="soft">{sentenceIn(control().says, state.units)}</span>
      </td>
    </tr>
  );
}
