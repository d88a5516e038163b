/**
 * Months of days counted from a date, in the calendars of CF 1.11, 4.4.1. Gregorian arithmetic on whole days after
 * Hinnant, "chrono-compatible low-level date algorithms": years begin in March, so that the leap day comes last.
 */

const floor = Math.floor;

/** Days of four hundred years. */
const era = 146097;

/** Days from 1 March 0000 to a date; months count from 0. */
function dayNumber(year: number, month: number, day: number): number {
  const y = month < 2 ? year - 1 : year;
  const eras = floor(y / 400);
  const ofEra = y - 400 * eras;
  const ofYear = floor((153 * (month < 2 ? month + 10 : month - 2) + 2) / 5) + day - 1;
  return era * eras + 365 * ofEra + floor(ofEra / 4) - floor(ofEra / 100) + ofYear;
}

/** Month (0 is January) of a day so counted. */
function monthOf(days: number): number {
  const ofEra = days - era * floor(days / era);
  const years = floor(
    (ofEra - floor(ofEra / 1460) + floor(ofEra / 36524) - floor(ofEra / 146096)) / 365,
  );
  const ofYear = ofEra - (365 * years + floor(years / 4) - floor(years / 100));
  return (floor((5 * ofYear + 2) / 153) + 2) % 12;
}

/** A date; months count from 0. */
export interface CalendarDate {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

const within = (x: number, turn: number): number => x - turn * floor(x / turn);

/** Month (0 is January) some days after a date, by the name of the calendar; blank is the Gregorian. */
export function monthAfter(
  { year, month, day }: CalendarDate,
  days: number,
  calendar: string,
): number {
  const whole = floor(days);
  if (calendar === '360_day') return floor(within(30 * month + day - 1 + whole, 360) / 30);
  if (calendar === 'noleap' || calendar === '365_day') {
    // 2001 is a year without a leap day.
    const ofYear = within(dayNumber(2001, month, day) - dayNumber(2001, 0, 1) + whole, 365);
    return monthOf(dayNumber(2001, 0, 1) + ofYear);
  }
  return monthOf(dayNumber(year, month, day) + whole);
}
