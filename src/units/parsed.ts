/**
 * What reading a field gives: the value, or one line that says what is wrong.
 * `ways` lists how an ambiguous input could be meant, each as text that would be accepted.
 */
export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly fault: string; readonly ways: readonly string[] };

export const understood = <T>(value: T): Parsed<T> => ({ ok: true, value });

/** A refusal in one line: what stands there, what is wrong, and the ways it could be meant. */
export function refused<T>(input: string, why: string, ways: readonly string[] = []): Parsed<T> {
  const meant = ways.length === 0 ? '' : `; write ${ways.join(' or ')}`;
  return { ok: false, fault: `"${shown(input)}" ${why}${meant}`, ways };
}

const longestShown = 40;

/** The input as it may stand in one line of text: no line breaks, not longer than 40 signs. */
function shown(input: string): string {
  const oneLine = input.replaceAll(/[\p{C}\p{Z}]+/gu, ' ').trim();
  const signs = [...oneLine];
  return signs.length > longestShown ? `${signs.slice(0, longestShown).join('')}...` : oneLine;
}
