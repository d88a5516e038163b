import { cautionTexts } from '../cautions.ts';
import { escaped } from './sheet-xml.ts';

const declaration = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const relations = 'http://schemas.openxmlformats.org/package/2006/relationships';
const office = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const types = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

const relation = (id: number, kind: string, target: string): string =>
  `<Relationship Id="rId${id}" Type="${office}/${kind}" Target="${target}"/>`;

const override = (part: string, kind: string): string =>
  `<Override PartName="/xl/${part}" ContentType="${types}.${kind}+xml"/>`;

/** The parts of a workbook (ECMA-376 part 1, 18) beside its sheets, by path. No part tells when it was written. */
export function workbookParts(sheets: readonly string[]): Readonly<Record<string, string>> {
  const files = sheets.map((_, i) => `worksheets/sheet${i + 1}.xml`);
  const xml = 'application/xml';
  const rels = 'application/vnd.openxmlformats-package.relationships+xml';
  return {
    '[Content_Types].xml': part(
      'Types',
      'xmlns="http://schemas.openxmlformats.org/package/2006/content-types"',
      [
        `<Default Extension="rels" ContentType="${rels}"/><Default Extension="xml" ContentType="${xml}"/>`,
        override('workbook.xml', 'sheet.main'),
        ...files.map((file) => override(file, 'worksheet')),
        override('styles.xml', 'styles'),
      ],
    ),
    '_rels/.rels': part('Relationships', `xmlns="${relations}"`, [
      relation(1, 'officeDocument', 'xl/workbook.xml'),
    ]),
    'xl/workbook.xml': part('workbook', `xmlns="${main}" xmlns:r="${office}"`, [
      '<sheets>',
      ...sheets.map((name, i) => `<sheet name="${name}" sheetId="${i + 1}" r:id="rId${i + 1}"/>`),
      '</sheets>',
    ]),
    'xl/_rels/workbook.xml.rels': part('Relationships', `xmlns="${relations}"`, [
      ...files.map((file, i) => relation(i + 1, 'worksheet', file)),
      relation(files.length + 1, 'styles', 'styles.xml'),
    ]),
    'xl/styles.xml': part('styleSheet', `xmlns="${main}"`, styles),
  };
}

const part = (name: string, attributes: string, inner: readonly string[]): string =>
  `${declaration}<${name} ${attributes}>${inner.join('')}</${name}>`;

const base = 'fillId="0" borderId="0"';
const face = '<sz val="11"/><name val="Calibri"/>';

/** Fonts, fills and cell formats; the formats in the order of `format` in sheet-xml.ts. 49 is the built-in text format. */
const styles: readonly string[] = [
  `<fonts count="2"><font>${face}</font><font><b/>${face}</font></fonts>`,
  '<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>',
  '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>',
  `<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" ${base}/></cellStyleXfs>`,
  '<cellXfs count="4">',
  `<xf numFmtId="0" fontId="0" ${base} xfId="0"/>`,
  `<xf numFmtId="49" fontId="0" ${base} xfId="0" quotePrefix="1" applyNumberFormat="1"/>`,
  `<xf numFmtId="0" fontId="1" ${base} xfId="0" applyFont="1"/>`,
  `<xf numFmtId="0" fontId="0" ${base} xfId="0" applyAlignment="1"><alignment vertical="top" wrapText="1"/></xf>`,
  '</cellXfs>',
  '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles>',
];

/** Where a sheet begins: its headings stay in sight. */
const sheetOpening = [
  `${declaration}<worksheet xmlns="${main}">`,
  '<sheetViews><sheetView workbookViewId="0">',
  '<pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/>',
  '</sheetView></sheetViews><sheetFormatPr defaultRowHeight="15"/>',
].join('');

/** What stands before the rows of a sheet. Widths in characters, one for each column. */
export function sheetHead(widths: readonly number[]): string {
  const columns = widths.map(
    (width, i) => `<col min="${i + 1}" max="${i + 1}" width="${width}" customWidth="1"/>`,
  );
  return `${sheetOpening}<cols>${columns.join('')}</cols><sheetData>`;
}

/** What stands after the rows: the first caution at the foot of every printed page. `&&` prints an ampersand. */
export const sheetFoot = `</sheetData><headerFooter><oddFooter>&amp;C${escaped(footer(cautionTexts[0]!))}</oddFooter></headerFooter></worksheet>`;

/** A footer holds 255 characters. */
function footer(text: string): string {
  return text.replaceAll('&', '&&').slice(0, 250);
}
