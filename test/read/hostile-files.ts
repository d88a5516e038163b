import { bytesOf, lines, utf16 } from './sources.ts';

/** A file with one thing wrong, and the sentence it must earn. */
export interface Hostile {
  /** What is wrong. */
  readonly wrong: string;
  readonly content: string | Uint8Array;
  readonly sentence: string;
}

const head = 'building_id,latitude,longitude,region,year_built,storeys';
const good = 'B-9,47.6,-122.3,WA,1990,3';
/** A building list of one good row (row 2) and the given row 3. */
const withRow = (row: string, heading = head): string =>
  lines(heading, heading === head ? good : 'B-9,47.6,-122.3', row);

const binary = (...first: readonly number[]): Uint8Array =>
  Uint8Array.from({ length: 200 }, (_, i) => first[i] ?? (i * 37) % 251);

const save =
  'Open it where it was made, save the sheet as CSV (UTF-8), and read that file instead.';

/** Building lists that are refused as a whole. */
export const refused: readonly Hostile[] = [
  {
    wrong: 'no bytes',
    content: '',
    sentence: 'portfolio.csv is empty (0 bytes). Choose another file.',
  },
  {
    wrong: 'blank lines only',
    content: '\r\n\r\n  \n',
    sentence: 'portfolio.csv holds nothing but blank lines. Choose another file.',
  },
  {
    wrong: 'a byte order mark and no more',
    content: new Uint8Array([0xef, 0xbb, 0xbf]),
    sentence: 'portfolio.csv holds nothing but blank lines. Choose another file.',
  },
  {
    wrong: 'headings only',
    content: lines(head),
    sentence: 'portfolio.csv has headings but no rows below them. Choose another file.',
  },
  {
    wrong: 'a workbook under the name of a CSV file',
    content: binary(0x50, 0x4b, 3, 4),
    sentence:
      'portfolio.csv is a damaged workbook: the list of its parts, which stands at its end, is missing. It was cut short or changed on its way: copy it again, or open it in the spreadsheet program and save it anew.',
  },
  {
    wrong: 'an old workbook',
    content: binary(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1),
    sentence:
      'portfolio.csv is in an old office format (such as .xls). Open it where it was made, save the sheet as an XLSX workbook or as CSV (UTF-8), and choose that file.',
  },
  {
    wrong: 'a PDF',
    content: '%PDF-1.7\n1 0 obj\n',
    sentence: `portfolio.csv is a PDF document, not a CSV file. ${save}`,
  },
  {
    wrong: 'a picture',
    content: binary(0x89, 0x50, 0x4e, 0x47),
    sentence: `portfolio.csv is a picture, not a CSV file. ${save}`,
  },
  {
    wrong: 'binary data at the start',
    content: Uint8Array.from({ length: 64 }, (_, i) => i % 7),
    sentence: `portfolio.csv is not a text file: it holds binary data. ${save}`,
  },
  {
    wrong: 'a zero byte far down',
    content: `${withRow(good.replace('B-9', 'B-1'))}${'\n'.repeat(3000)}B-2\0,1,2`,
    sentence: `portfolio.csv is not a text file: it holds binary data. ${save}`,
  },
  {
    wrong: 'letters of an encoding that cannot be told',
    content: Uint8Array.from([...bytesOf(lines(head)), 0x42, 0x8d, 0x2c, 0x31, 0x0a]),
    sentence:
      'portfolio.csv is not UTF-8 text: it was saved in an older encoding, which would garble accented letters. Save it again as "CSV UTF-8".',
  },
  {
    wrong: 'UTF-8 cut in the middle of a letter',
    content: bytesOf(`${withRow('B-é')}é`).slice(0, -1),
    sentence:
      'Line 4 of portfolio.csv holds bytes that are not UTF-8, while the lines above it are: parts of it were saved in another encoding, or it was cut short. Correct that line, or save the file again as "CSV UTF-8".',
  },
  {
    wrong: 'UTF-16 cut in the middle of a letter',
    content: utf16(lines(head, good), 'little').slice(0, -1),
    sentence:
      'portfolio.csv looks like UTF-16 text but holds bytes that are none: it was cut short or damaged. Save it again as "CSV UTF-8".',
  },
  {
    wrong: 'no building_id',
    content: lines('latitude,longitude', '47.6,-122.3', '47.6,-122.3'),
    sentence:
      'portfolio.csv has no heading "building_id", and no column that could be meant. Headings found: latitude, longitude. Add or rename the heading in the first row, or say in the column map which column it is.',
  },
  {
    wrong: 'latitude without longitude',
    content: lines('building_id,latitude,,note', 'B-1,47.6,,brick'),
    sentence:
      'portfolio.csv has neither "longitude" nor "postal_code" as a heading, and no column that could be meant. Headings found: building_id, latitude, (blank), note. Add or rename the heading in the first row, or say in the column map which column it is.',
  },
  {
    wrong: 'no heading row at all',
    content: lines(good, good),
    sentence:
      'portfolio.csv has neither "latitude" and "longitude" nor "postal_code" as a heading, and no column that could be meant. Headings found: B-9, 47.6, -122.3, WA, 1990, 3. Add or rename the heading in the first row, or say in the column map which column it is.',
  },
  {
    wrong: 'a known heading twice',
    content: lines('building_id,latitude,longitude,Building ID', 'B-1,47.6,-122.3,X'),
    sentence:
      'portfolio.csv has the heading "building_id" more than once (columns 1, 4), so it cannot be told which one counts. Rename or remove the others.',
  },
  {
    wrong: 'a quotation mark never closed',
    content: lines(head, good, '"B-1,47.6,-122.3', 'B-2,47.6,-122.3'),
    sentence:
      'Row 3 of portfolio.csv opens a quotation mark that is never closed, so the rows after it cannot be told apart. Close or remove it.',
  },
  {
    wrong: 'a record that never ends',
    content: `${lines(head, good)}B-1,${'x'.repeat(1_300_000)}`,
    sentence:
      'Row 3 of portfolio.csv is longer than 1,000,000 characters: a quotation mark in it was never closed, or the file is not a table. Correct that row, or choose another file.',
  },
  {
    wrong: 'no row that can be accepted',
    content: lines(head, 'B-1,0,0,WA,1990,3', ',47.6,-122.3,WA,1990,3', 'B-2,0,0,WA,1990,3'),
    sentence:
      'None of the 3 rows of portfolio.csv could be accepted. The commonest reason (2 of 3), for example: Row 2 of portfolio.csv: latitude and longitude are both 0, a point at sea. Give the coordinates of the building, or leave both empty and give its postal code.',
  },
  {
    wrong: 'more columns than a spreadsheet can hold',
    content: lines(`building_id,latitude,longitude${',a'.repeat(20_000)}`, 'B-1,47.6,-122.3'),
    sentence:
      'portfolio.csv has 20003 columns in its first row, more than a spreadsheet can hold. Choose another file.',
  },
  {
    wrong: 'a web page saved as CSV',
    content: '<!doctype html>\n<html><body>Session expired</body></html>\n',
    sentence:
      'portfolio.csv has no heading "building_id", and no column that could be meant. Headings found: <!doctype html>. Add or rename the heading in the first row, or say in the column map which column it is.',
  },
];

const row3 = 'Row 3 of portfolio.csv: ';

/** Building lists whose row 3 is set aside. */
export const aside: readonly Hostile[] = [
  {
    wrong: 'a blank identifier',
    content: withRow(' ,47.6,-122.3,WA,1990,3'),
    sentence: `${row3}building_id is blank. Give the building an identifier of its own.`,
  },
  {
    wrong: 'an identifier that says there is none',
    content: withRow('N/A,47.6,-122.3,WA,1990,3'),
    sentence: `${row3}building_id is blank. Give the building an identifier of its own.`,
  },
  {
    wrong: 'a repeated identifier',
    content: withRow(good),
    sentence: `${row3}building_id "B-9" is already used in row 2. Give each building an identifier of its own, or merge the two rows.`,
  },
  {
    wrong: 'coordinates in words',
    content: withRow('B-1,north,-122.3,WA,1990,3'),
    sentence: `${row3}latitude "north" is not a number. Write decimal degrees such as 47.61 and -122.33.`,
  },
  {
    wrong: 'coordinates that are too large to be numbers',
    content: withRow('B-1,47.6,1e999,WA,1990,3'),
    sentence: `${row3}longitude "1e999" is not a number. Write decimal degrees such as 47.61 and -122.33.`,
  },
  {
    wrong: 'the word NaN',
    content: withRow('B-1,NaN,-122.3,WA,1990,3'),
    sentence: `${row3}latitude "NaN" is not a number. Write decimal degrees such as 47.61 and -122.33.`,
  },
  {
    wrong: 'a latitude beyond the pole',
    content: withRow('B-1,147.6,-22.3,WA,1990,3'),
    sentence: `${row3}latitude "147.6" is not between -90 and 90. Write decimal degrees such as 47.61.`,
  },
  {
    wrong: 'a longitude counted from 0 to 360',
    content: withRow('B-1,47.6,237.7,WA,1990,3'),
    sentence: `${row3}longitude "237.7" is not between -180 and 180. Write decimal degrees such as -122.33.`,
  },
  {
    wrong: 'coordinates 0/0',
    content: withRow('B-1,0,0.0,WA,1990,3'),
    sentence: `${row3}latitude and longitude are both 0, a point at sea. Give the coordinates of the building, or leave both empty and give its postal code.`,
  },
  {
    wrong: 'swapped coordinates',
    content: withRow('B-1,-122.3,47.6,,1990,3'),
    sentence: `${row3}latitude and longitude look swapped (-122.3 and 47.6). Exchange the two cells.`,
  },
  {
    wrong: 'a missing minus sign',
    content: withRow('B-1,47.6,122.3,WA,1990,3'),
    sentence: `${row3}longitude 122.3 lies far outside WA: is the minus sign missing? Longitudes in North America are negative.`,
  },
  {
    wrong: 'coordinates of another state',
    content: withRow('B-1,25.8,-120.2,Washington,1990,3'),
    sentence: `${row3}latitude 25.8 lies far outside WA. Correct the coordinates or the region.`,
  },
  {
    wrong: 'coordinates far east of the state',
    content: withRow('B-1,47.6,-80.2,WA,1990,3'),
    sentence: `${row3}longitude -80.2 lies far outside WA. Correct the coordinates or the region.`,
  },
  {
    wrong: 'no place at all',
    content: withRow('B-1,,,WA,1990,3'),
    sentence: `${row3}there are no coordinates and there is no postal code, so the building cannot be placed. Give latitude and longitude, or a US postal code.`,
  },
  {
    wrong: 'a postal code that is not on the list',
    content: lines('building_id,postal_code', 'B-9,98101', 'B-1,00000'),
    sentence: `${row3}there are no coordinates and postal_code "00000" has no place in the list of US postal codes, so the building cannot be placed. Give latitude and longitude, or a US postal code.`,
  },
  {
    wrong: 'a postal code of another state',
    content: lines('building_id,postal_code,region', 'B-9,98101,WA', 'B-1,33101,WA'),
    sentence: `${row3}postal_code "33101" lies far outside WA. Correct the postal code or the region, or give coordinates.`,
  },
  {
    wrong: 'a building of the future',
    content: withRow('B-1,47.6,-122.3,WA,2031,3'),
    sentence: `${row3}year_built "2031" is after 2026. Correct the year, or set "as of" to a later year.`,
  },
  {
    wrong: 'a year of two digits',
    content: withRow('B-1,47.6,-122.3,WA,98,3'),
    sentence: `${row3}year_built "98" is before 1600. Correct the year, or leave the cell empty if it is not known.`,
  },
  {
    wrong: 'a new cladding older than the building',
    content: withRow(
      'B-1,47.6,-122.3,1990,1985',
      'building_id,latitude,longitude,year_built,reclad_year',
    ),
    sentence: `${row3}reclad_year "1985" is before year_built "1990". Correct one of the two years.`,
  },
  {
    wrong: 'more storeys than any building',
    content: withRow('B-1,47.6,-122.3,WA,1990,300'),
    sentence: `${row3}storeys "300" lies outside 0 to 200 storeys. Correct the number, or leave the cell empty if it is not known.`,
  },
  {
    wrong: 'a negative height',
    content: withRow('B-1,47.6,-122.3,-12', 'building_id,latitude,longitude,height_m'),
    sentence: `${row3}height_m "-12" lies outside 0 to 1000 m. Correct the number, or leave the cell empty if it is not known.`,
  },
  {
    wrong: 'more cells than headings',
    content: withRow('B-1,47.6,-122.3,WA,1,990,3'),
    sentence: `${row3}it has 7 cells where there are 6 headings. A cell that holds the delimiter needs quotation marks; correct the row so that its cells stand under their headings.`,
  },
  {
    wrong: 'an inch mark that swallows the next row',
    content: lines(
      `${head},note`,
      `${good},`,
      'B-1,47.6,-122.3,WA,1990,3,"5" pipe',
      'B-2,47.6,-122.3,WA,1990,3,"ok"',
    ),
    sentence: `${row3}a quotation mark inside a quoted cell made one row of several. Double the mark ("") or remove it, so that the rows part again.`,
  },
];

const noted3 = (clause: string): string => `${row3}${clause}`;
const valued = 'building_id,latitude,longitude,insured_value,use,climate_zone,currency';

/** Building lists of two accepted rows, with one cell of row 3 taken as no record. */
export const noted: readonly Hostile[] = [
  {
    wrong: 'an amount in words',
    content: withRow('B-1,47.6,-122.3,a lot,house,4C,USD', valued),
    sentence: noted3(
      'insured_value "a lot" is not an amount, so it is taken as no record. Write a plain number such as 1250000, or leave the cell empty if it is not known.',
    ),
  },
  {
    wrong: 'a decimal comma in a comma file',
    content: withRow('B-1,47.6,-122.3,"12,5",house,4C,USD', valued),
    sentence: noted3(
      'insured_value "12,5" is not an amount, so it is taken as no record. Write a plain number such as 1250000, or leave the cell empty if it is not known.',
    ),
  },
  {
    wrong: 'a word of no vocabulary',
    content: withRow('B-1,47.6,-122.3,5,castle,4C,USD', valued),
    sentence: noted3(
      'use "castle" is not a word known here, so it is taken as no record. Use one of: house, townhouse, apartment, hotel, office, retail, institution, industrial, other, or leave the cell empty if it is not known.',
    ),
  },
  {
    wrong: 'a climate zone that is none',
    content: withRow('B-1,47.6,-122.3,5,house,rainy,USD', valued),
    sentence: noted3(
      'climate_zone "rainy" is not a climate zone, so it is taken as no record. Write one such as 4A, or leave the cell empty if it is not known.',
    ),
  },
  {
    wrong: 'a currency that could be several',
    content: withRow('B-1,47.6,-122.3,5,house,4C,$', valued),
    sentence: noted3(
      'currency "$" is not a currency, so it is taken as no record. Write three letters such as USD or CAD, or leave the cell empty if it is not known.',
    ),
  },
  {
    wrong: 'a year that is a phrase',
    content: withRow('B-1,47.6,-122.3,WA,c. 1990,3'),
    sentence: noted3(
      'year_built "c. 1990" is not a year, so it is taken as no record. Write four digits such as 1998, or leave the cell empty if it is not known.',
    ),
  },
  {
    wrong: 'no storeys',
    content: withRow('B-1,47.6,-122.3,WA,1990,0'),
    sentence: noted3(
      'storeys "0" lies outside 1 to 200 storeys, so it is taken as no record. Check the number and its unit.',
    ),
  },
  {
    wrong: 'half of the coordinates beside a postal code',
    content: lines(
      'building_id,latitude,longitude,postal_code',
      'B-9,47.6,-122.3,',
      'B-1,47.6,,98101',
    ),
    sentence: noted3(
      'latitude "47.6" stands alone, so the building is placed by its postal code. Give both coordinates, or neither.',
    ),
  },
  {
    wrong: 'a postal code without its leading zero',
    content: lines('building_id,postal_code,region', 'B-9,98101,WA', 'B-1,2134,MA'),
    sentence: noted3(
      'postal_code "2134" is read as 02134: a spreadsheet dropped its leading zeros. Format the column as text.',
    ),
  },
  {
    wrong: 'a cell longer than a sentence can show',
    content: withRow(`B-1,47.6,-122.3,5,"${'very '.repeat(400)}\nlong",4C,USD`, valued),
    sentence: noted3(
      `use "${'very '.repeat(12)}…" is not a word known here, so it is taken as no record. Use one of: house, townhouse, apartment, hotel, office, retail, institution, industrial, other, or leave the cell empty if it is not known.`,
    ),
  },
];
