/** More digits than this say nothing of what is worked out here. */
const MOST_DIGITS = 6;

/** A number that breaks a limit, told with as many digits as tell the two apart: "-0.204" beside "-0.20". */
export function toldApart(value: number, limit: number, digits: number): string {
  if (value === limit) return value.toFixed(digits);
  for (let more = digits; more < MOST_DIGITS; more++)
    if (Number(value.toFixed(more)) !== Number(limit.toFixed(more)) && value.toFixed(more) !== limit.toFixed(digits))
      return value.toFixed(more);
  return value.toFixed(MOST_DIGITS);
}
