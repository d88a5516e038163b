import { byteGatherer } from './bytes.ts';
import { type OutHead, type OutTable, type OutValue, rowBatches } from './out-table.ts';

const rowsAtOnce = 5_000;

/** A list of objects, one a row. */
export function jsonBytes(table: OutTable): Uint8Array<ArrayBuffer> {
  return listed(table, '[', ']\n', (row) => ` ${objectText(table.heads, row, 1)}`);
}

/** RFC 7946: a point for each building; one without a place has no geometry (section 3.2). */
export function geojsonBytes(table: OutTable): Uint8Array<ArrayBuffer> {
  const at = (name: string) => table.heads.findIndex((head) => head.name === name);
  const [longitude, latitude] = [at('longitude'), at('latitude')];
  const others = <T>(cells: readonly T[]) =>
    cells.filter((_, i) => i !== longitude && i !== latitude);
  const heads = others(table.heads);
  const geometry = (row: readonly OutValue[]) => {
    const coordinates = [row[longitude], row[latitude]];
    const placed = coordinates.every((degrees) => typeof degrees === 'number');
    return JSON.stringify(placed ? { type: 'Point', coordinates } : null);
  };
  return listed(
    table,
    '{\n "type": "FeatureCollection",\n "features": [',
    ' ]\n}\n',
    (row) =>
      `  {\n   "type": "Feature",\n   "geometry": ${geometry(row)},\n   "properties": ${objectText(heads, others(row), 3)}\n  }`,
  );
}

function listed(
  table: OutTable,
  before: string,
  after: string,
  text: (row: readonly OutValue[]) => string,
): Uint8Array<ArrayBuffer> {
  const file = byteGatherer();
  let between = `${before}\n`;
  for (const rows of rowBatches(table, rowsAtOnce)) {
    file.text(between + rows.map(text).join(',\n'));
    between = ',\n';
  }
  file.text(`${table.n > 0 ? '\n' : between}${after}`);
  return file.bytes();
}

/** Put together by hand: an object would move a heading such as `2021` to the front. */
function objectText(heads: readonly OutHead[], row: readonly OutValue[], indent: number): string {
  const margin = ' '.repeat(indent);
  const lines = heads.map(
    ({ name }, i) => `${margin} ${JSON.stringify(name)}: ${JSON.stringify(row[i])}`,
  );
  return `{\n${lines.join(',\n')}\n${margin}}`;
}
