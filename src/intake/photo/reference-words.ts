import type { PhotoReference } from './reference.ts';

/** How a reference is written, with an example of each. */
export const REFERENCE_WORDS =
  'square:600x400 (outer edges of its arms), square:600x400x45x40 (their widths too), frame:800x600, frame:800x600x25 (its bar too), sheet:420x297 or rule:1000x30, in mm';

const LEAST_MM = 10;
const MOST_MM = 5000;

/** A reference from words such as `square:600x400`; undefined where they do not say one. */
export function readReference(words: string): PhotoReference | undefined {
  const found = /^(square|frame|sheet|rule):([\d.]+(?:x[\d.]+)+)$/u.exec(words.trim());
  if (found === null) return undefined;
  const kind = found[1] as PhotoReference['kind'];
  const sizes = found[2]!.split('x').map(Number);
  if (!sizes.every((mm) => mm >= 1 && mm <= MOST_MM) || !(sizes[0]! >= LEAST_MM)) return undefined;
  const [a, b, c, d] = sizes as [number, number, number?, number?];
  const most = kind === 'square' ? 4 : kind === 'frame' ? 3 : 2;
  if (sizes.length < 2 || sizes.length > most || (kind === 'square' && sizes.length === 3)) return undefined;
  // an arm or a bar is narrower than what it belongs to
  if ([c, d].some((wide) => wide !== undefined && 2 * wide >= Math.min(a, b))) return undefined;
  if (kind === 'square')
    return {
      kind,
      armMm: a,
      otherArmMm: b,
      ...(c === undefined || d === undefined ? {} : { armWideMm: c, otherArmWideMm: d }),
    };
  if (kind === 'frame') return { kind, widthMm: a, heightMm: b, ...(c === undefined ? {} : { barMm: c }) };
  return { kind, widthMm: a, heightMm: b };
}
