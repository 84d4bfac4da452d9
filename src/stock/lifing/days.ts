/** A day as year, month and day of the month; null where it is none. */
function parts(day: string): readonly [number, number, number] | null {
  const found = /^(\d{4})-(\d{2})-(\d{2})$/.exec(day);
  return found === null ? null : [Number(found[1]), Number(found[2]), Number(found[3])];
}

/**
 * Months from one day to another, by the calendar; a part of a month counts thirty days to it.
 *
 *     months = 12 (y2 - y1) + (m2 - m1) + (d2 - d1)/30
 *
 * @param from - first day, such as 2026-11-25 [-]
 * @param to - second day [-]
 * @returns months between, below zero where the second is earlier [months]
 * @valid two days of the calendar
 * @source geometry
 * @example monthsBetween('2024-03-01', '2026-11-16') // 32.5
 */
export function monthsBetween(from: string, to: string): number {
  const [a, b] = [parts(from), parts(to)];
  if (a === null || b === null) return Number.NaN;
  return 12 * (b[0] - a[0]) + (b[1] - a[1]) + (b[2] - a[2]) / 30;
}

/** The day so many whole months later; the last of a shorter month where that has no such day. */
export function monthsLater(day: string, months: number): string {
  const from = parts(day);
  if (from === null) return day;
  const count = from[0] * 12 + from[1] - 1 + Math.round(months);
  const [year, month] = [Math.floor(count / 12), (count % 12) + 1];
  const long = [
    31,
    year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28,
    31,
    30,
    31,
    30,
    31,
    31,
    30,
    31,
    30,
    31,
  ];
  const date = Math.min(from[2], long[month - 1]!);
  return `${year}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`;
}
