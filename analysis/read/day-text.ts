const two = (n: number): string => String(n).padStart(2, '0');

/**
 * The date of a day counted from 1 January 1970, proleptic Gregorian, as yyyy-mm-dd.
 * Algorithm: H. Hinnant, chrono-Compatible Low-Level Date Algorithms, `civil_from_days`.
 */
export function dayText(days: number): string {
  const shifted = days + 719_468;
  const era = Math.floor(shifted / 146_097);
  const dayOfEra = shifted - era * 146_097;
  const yearOfEra = Math.floor(
    (dayOfEra -
      Math.floor(dayOfEra / 1460) +
      Math.floor(dayOfEra / 36_524) -
      Math.floor(dayOfEra / 146_096)) /
      365,
  );
  const dayOfYear =
    dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const fromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const month = fromMarch < 10 ? fromMarch + 3 : fromMarch - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  const day = dayOfYear - Math.floor((153 * fromMarch + 2) / 5) + 1;
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
}

/** A time of day, seconds after midnight with up to nine decimals, as hh:mm:ss and the decimals there are. */
export function timeText(seconds: number, nanoseconds = 0): string {
  const fraction = String(nanoseconds).padStart(9, '0').replace(/0+$/, '');
  const [hour, minute, second] = [
    Math.floor(seconds / 3600),
    Math.floor(seconds / 60) % 60,
    seconds % 60,
  ];
  return `${two(hour)}:${two(minute)}:${two(second)}${fraction && `.${fraction}`}`;
}

/** A moment in nanoseconds from the start of 1970 (of no time zone) as yyyy-mm-dd or, where it is not midnight, ISO 8601. */
export function momentText(nanoseconds: bigint): string {
  const perDay = 86_400_000_000_000n;
  const rest = ((nanoseconds % perDay) + perDay) % perDay;
  const day = dayText(Number((nanoseconds - rest) / perDay));
  if (rest === 0n) return day;
  return `${day}T${timeText(Number(rest / 1_000_000_000n), Number(rest % 1_000_000_000n))}`;
}
