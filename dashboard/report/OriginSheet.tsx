import { For, Show } from 'solid-js';
import { counted, digits, noRecord } from '../parts/format.ts';
import type { Origin } from './origin.ts';

/**
 * Where a printout comes from, in full: software, rain, every file with its digest, every setting that was changed; and blanks
 * for the person who answers for it.
 */
export function OriginSheet(props: { readonly origin: Origin }) {
  const of = () => props.origin;
  return (
    <section class="origin keep">
      <h2>Where this comes from</h2>
      <p>
        {of().software}, method {of().method}, as of {of().asOf}.{' '}
        <Show when={of().demo}>
          <b>Invented example: no real building, no real owner.</b>{' '}
        </Show>
        Rain is annual precipitation, melted snow included: {of().rain.source}, {of().rain.period}.{' '}
        {of().rain.sentence}
      </p>
      <p>
        Settings that differ from what ships:{' '}
        {of().settings.length > 0 ? of().settings.join('; ') : 'none'}. Cells corrected in the page:{' '}
        {digits(of().edits, 0)}.
      </p>
      <table class="plain">
        <thead>
          <tr>
            <th scope="col">File, read as</th>
            <th scope="col">Rows</th>
            <th scope="col">SHA-256</th>
          </tr>
        </thead>
        <tbody>
          <For each={of().files}>
            {(one) => (
              <tr>
                <th scope="row">
                  {one.file}, {one.role}
                </th>
                <td>
                  {counted(one.accepted, 'row')} accepted, {digits(one.joined, 0)} joined,{' '}
                  {digits(one.setAside, 0)} set aside, of {digits(one.rowsRead, 0)} read
                </td>
                <td class="digest">{one.sha256 ?? noRecord}</td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
      <p class="signature">
        Prepared by <i /> Date <i /> Signature <i />
      </p>
    </section>
  );
}
