import { For } from 'solid-js';
import { constantUnder } from '../../analysis/constants.ts';
import type { BuildingDetail } from '../../analysis/session-types.ts';
import { methodVersion, softwareVersion } from '../../analysis/version.ts';
import { counted, noRecord } from '../parts/format.ts';
import { useDesk } from '../state/desk.ts';

/** Where the sheet's numbers come from: the files, the rain, the tool. Printed at its foot. */
export function Provenance(props: { readonly detail: BuildingDetail }) {
  const { session } = useDesk();
  const files = () => session.opened()?.report.files ?? [];
  const row = () => props.detail.row;
  return (
    <footer class="provenance">
      <p>
        <b>Where this comes from.</b> Files:{' '}
        <For each={files()}>
          {(file, i) =>
            `${i() ? '; ' : ''}${file.file} (${counted(file.accepted, 'row')} of ${file.rowsRead} accepted)`
          }
        </For>
        . Rain is annual precipitation, melted snow included: {row().rain_source ?? noRecord},{' '}
        {row().rain_period ?? noRecord}. {row().rain_flag ? `Flag: ${row().rain_flag}.` : ''}
      </p>
      <p>
        Rainledger {softwareVersion}, method {methodVersion}, as of{' '}
        {constantUnder(session.changes(), 'as_of')}. It ranks records and has seen no wall.{' '}
        {String(row().caution ?? '')}
        {session.opened()?.report.demo ? ' Invented example: no real building.' : ''}
      </p>
    </footer>
  );
}
