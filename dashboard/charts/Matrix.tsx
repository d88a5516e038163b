import { createMemo, Index } from 'solid-js';
import type { Condition } from '../../analysis/session-types.ts';
import { counted, digits } from '../parts/format.ts';
import { ChartFrame } from './ChartFrame.tsx';
import { sameCondition, withWord } from './condition.ts';
import { type MatrixCell, type MatrixRow, matrixShape } from './matrix-shape.ts';
import { Rest } from './Rest.tsx';
import { RowName } from './RowName.tsx';
import { leftFor, matrixReading, wordOf } from './readings.ts';
import { shortCount } from './short-count.ts';
import type { ChartProps } from './types.ts';
import { walk, walkWords } from './walk.ts';

/** Rows that a chart has room for. */
const ROOM = 5;

/** Materials by era: how many, and which part of them presses. A cell chooses its material and its era. */
export function Matrix(props: ChartProps) {
  const shape = createMemo(() => matrixShape(props.answer.matrix, props.filters, ROOM));
  const on = () => props.filters.on;
  const chooseEra = (era: Condition) =>
    props.onCommit({ installed_used: sameCondition(on().installed_used, era) ? null : era });
  const chooseMaterial = (word: string | null) =>
    props.onCommit({ material: withWord(props.filters, 'material', word) });
  const chooseCell = (word: string | null, era: Condition) => {
    const material = { among: [word] };
    const again = sameCondition(on().material, material) && sameCondition(on().installed_used, era);
    props.onCommit(
      again ? { material: null, installed_used: null } : { material, installed_used: era },
    );
  };
  return (
    <ChartFrame
      title="Material by era"
      chosen={on().material !== undefined || on().installed_used !== undefined}
      left={leftFor.matrix(props.answer)}
      reading={matrixReading(props.answer, props.filters)}
      onClear={() => props.onCommit({ material: null, installed_used: null })}
    >
      <table class="matrix" onKeyDown={walk}>
        <caption class="unseen">Buildings by material and era. {walkWords}</caption>
        <colgroup>
          <col class="name-column" />
        </colgroup>
        <thead>
          <tr>
            <td />
            <Index each={shape().eras}>
              {(era, i) => (
                <th scope="col">
                  <button
                    type="button"
                    class="era-name"
                    tabindex={i === 0 ? 0 : -1}
                    aria-pressed={era().chosen}
                    onClick={() => chooseEra(era().condition)}
                  >
                    {era().label}
                  </button>
                </th>
              )}
            </Index>
          </tr>
        </thead>
        <tbody>
          <Index each={shape().rows}>
            {(row) => (
              <MaterialRow
                row={row()}
                eras={shape().eras.map(({ label }) => label)}
                onMaterial={() => chooseMaterial(row().word)}
                onCell={(i) => chooseCell(row().word, shape().eras[i]!.condition)}
              />
            )}
          </Index>
        </tbody>
      </table>
      <Rest of={shape().rest} noun="material" />
    </ChartFrame>
  );
}

function MaterialRow(props: {
  readonly row: MatrixRow;
  readonly eras: readonly string[];
  readonly onMaterial: () => void;
  readonly onCell: (column: number) => void;
}) {
  return (
    <tr>
      <RowName word={props.row.word} chosen={props.row.chosen} onChoose={props.onMaterial} />
      <Index each={props.row.cells}>
        {(cell, i) => (
          <td>
            <button
              type="button"
              class="tally"
              tabindex={-1}
              aria-pressed={cell().chosen}
              aria-label={cellWords(cell())}
              title={`${wordOf(props.row.word)}, ${props.eras[i]}: ${cellWords(cell())}`}
              data-none={cell().kept === 0 || undefined}
              style={{
                '--ink-share': `${cell().ink * 36}%`,
                '--pressing': `${(100 * cell().pressing) / Math.max(1, cell().kept)}%`,
              }}
              onClick={() => props.onCell(i)}
            >
              {cell().whole === 0 ? '' : shortCount(cell().kept)}
            </button>
          </td>
        )}
      </Index>
    </tr>
  );
}

const cellWords = ({ kept, pressing, whole }: MatrixCell): string =>
  kept === whole
    ? `${counted(kept, 'building')}, ${digits(pressing, 0)} First or Next look`
    : `${digits(kept, 0)} of ${counted(whole, 'building')}, ${digits(pressing, 0)} First or Next look`;
