import { expect, test } from 'vitest';
import { drivingRain } from '../../analysis/weather/record.ts';
import { roseCsv, totalLines } from '../../analysis/weather/table.ts';
import { read, recordFile, reference } from './hours.ts';

const record = await read(recordFile('newark.csv'));
const found = drivingRain(record);

test('the table has one row every 10° with the airfield index and κ', () => {
  const lines = roseCsv(found.rose).trimEnd().split('\r\n');
  expect(lines[0]).toBe('azimuth_deg,airfield_index_mm,kappa');
  expect(lines.length).toBe(37);
  lines.slice(1).forEach((line, i) => {
    const [azimuth, index, kappa] = line.split(',').map(Number);
    expect(azimuth).toBe(10 * i);
    expect(index).toBeCloseTo(reference.newark.airfield_sum_mm[i], 5);
    expect(kappa).toBeCloseTo(reference.newark.kappa[i], 9);
  });
});

test('the totals balance rows, name the figures and end with the limits of the standard', () => {
  expect(totalLines(record, found)).toMatchInlineSnapshot(`
    [
      "airfield.csv: 50 rows read = 50 hours used + 0 set aside.",
      "Time: "time", as written, one row an hour.",
      "Rain: "precip (in)", in inches.",
      "Wind speed: "wind speed (mph)", in mph.",
      "Wind direction: "wind direction (deg)", in degrees; the direction the wind comes from.",
      "Temperature: "temp (°F)", in °F.",
      "Rain: 14.7 mm over the record, and 5.1 mm frozen.",
      "Wind: 4.45 m/s during rain (U, weighted by rain), 3.99 m/s over all hours.",
      "Driving-rain index: 0.06 m²/s over the record, no class from less than a year (rain × mean wind of all hours).",
      "Greatest airfield index (ISO 15927-3): 13.5 mm over the record, for a wall facing 10°. Greatest κ: 0.960, facing 10°.",
      "under 0.1 years: not an annual average. There is less than a year, so figures are sums over the record and no class is given.",
      "Frozen precipitation is not driven rain. Left out of every figure of rain: 2 hours with precipitation at or below 0 °C (5.1 mm).",
      "The annual driving-rain index and its classes are historical and were made for the United Kingdom; near coasts a place counts a class higher.",
      "ISO 15927-3 is not meant for mountainous places with sheer cliffs or deep gorges.",
      "ISO 15927-3 is not meant for places where more than 25 % of the annual rain comes from severe convective storms.",
      "ISO 15927-3 is not meant for snow or hail; it speaks of rain only.",
      "The airfield index is ISO 15927-3's own rose, of wind × rain to the power 8/9; κ is a share of wind × rain. The two are not the same and neither stands for the other.",
    ]
  `);
});
