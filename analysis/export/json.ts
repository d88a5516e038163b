import type { OutHead, OutValue } from './out-table.ts';
import type { TextForm } from './text-form.ts';

/** A list of objects, one a row. */
export const jsonForm = (heads: readonly OutHead[]): TextForm =>
  listed('[', ']\n', (row) => ` ${objectText(heads, row, 1)}`);

/** RFC 7946: a point for each building; one without a place has no geometry (section 3.2). */
export function geojsonForm(all: readonly OutHead[]): TextForm {
  const at = (name: string) => all.findIndex((head) => head.name === name);
  const [longitude, latitude] = [at('longitude'), at('latitude')];
  const others = <T>(cells: readonly T[]) =>
    cells.filter((_, i) => i !== longitude && i !== latitude);
  const heads = others(all);
  const geometry = (row: readonly OutValue[]) => {
    const coordinates = [row[longitude], row[latitude]];
    const placed = coordinates.every((degrees) => typeof degrees === 'number');
    return JSON.stringify(placed ? { type: 'Point', coordinates } : null);
  };
  return listed(
    '{\n "type": "FeatureCollection",\n "features": [',
    ' ]\n}\n',
    (row) =>
      `  {\n   "type": "Feature",\n   "geometry": ${geometry(row)},\n   "properties": ${objectText(heads, others(row), 3)}\n  }`,
  );
}

const listed = (
  before: string,
  after: string,
  text: (row: readonly OutValue[]) => string,
): TextForm => ({
  begin: `${before}\n`,
  rows: (rows, first) => (first ? '' : ',\n') + rows.map(text).join(',\n'),
  end: (empty) => `${empty ? '' : '\n'}${after}`,
});

/** Put together by hand: an object would move a heading such as `2021` to the front. */
function objectText(heads: readonly OutHead[], row: readonly OutValue[], indent: number): string {
  const margin = ' '.repeat(indent);
  const lines = heads.map(
    ({ name }, i) => `${margin} ${JSON.stringify(name)}: ${JSON.stringify(row[i])}`,
  );
  return `{\n${lines.join(',\n')}\n${margin}}`;
}
