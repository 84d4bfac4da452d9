import { add, dot, scale, unit, type Vec } from '#geometry';
import { parseAngle, type Parsed } from '#units';

/** The six plain ways, in the words of somebody who stands beside the car. */
export const ways = {
  forward: [-1, 0, 0],
  rearward: [1, 0, 0],
  left: [0, -1, 0],
  right: [0, 1, 0],
  up: [0, 0, 1],
  down: [0, 0, -1],
} as const satisfies Record<string, Vec>;
export type PlainWay = keyof typeof ways;
export const plainWays = Object.keys(ways) as readonly PlainWay[];

/** As it stands in the form: a plain way, one that is tipped towards another, or three numbers. */
export interface FacingDraft {
  readonly way: PlainWay | 'sloping' | 'numbers';
  readonly mostly: PlainWay;
  readonly tip: string;
  readonly towards: PlainWay;
  readonly numbers: readonly [string, string, string];
}

export const facingOf = (way: PlainWay): FacingDraft => ({
  way,
  mostly: way,
  tip: '30',
  towards: way === 'up' || way === 'down' ? 'forward' : 'up',
  numbers: ['', '', ''],
});

const isAlong = (a: PlainWay, b: PlainWay): boolean => ways[a].some((x, i) => x !== 0 && ways[b][i] !== 0);

/** Ways that something facing one way can be tipped towards. */
export const asideOf = (way: PlainWay): readonly PlainWay[] => plainWays.filter((other) => !isAlong(way, other));

/** More than this is mostly another way [deg]. */
const MOST_TIP_DEG = 89;

/** An angle in degrees; a bare number is degrees. */
export function angleDeg(text: string): Parsed<number> {
  const read = parseAngle(/^[\d.,\s-]+$/u.test(text.trim()) ? `${text} deg` : text);
  return read.ok ? { ok: true, value: (read.value * 180) / Math.PI } : read;
}

/**
 * The way a port faces, as a unit vector in car axes.
 *
 *     tipped: cos(tip) mostly + sin(tip) towards
 */
export function facing(draft: FacingDraft): Parsed<[number, number, number]> {
  if (draft.way === 'numbers') return byNumbers(draft.numbers);
  if (draft.way !== 'sloping') return { ok: true, value: [...ways[draft.way]] };
  const tip = angleDeg(draft.tip);
  if (!tip.ok) return tip;
  if (tip.value < 0 || tip.value > MOST_TIP_DEG)
    return { ok: false, fault: `"${draft.tip}" tips it too far; 0 to ${MOST_TIP_DEG} degrees are allowed`, ways: [] };
  if (isAlong(draft.mostly, draft.towards))
    return { ok: false, fault: `what faces ${draft.mostly} cannot be tipped towards ${draft.towards}`, ways: [] };
  const rad = (tip.value * Math.PI) / 180;
  return {
    ok: true,
    value: rounded(add(scale(ways[draft.mostly], Math.cos(rad)), scale(ways[draft.towards], Math.sin(rad)))),
  };
}

function byNumbers(numbers: readonly string[]): Parsed<[number, number, number]> {
  const [x = NaN, y = NaN, z = NaN] = numbers.map((text) =>
    text.trim() === '' ? NaN : Number(text.replace(',', '.')),
  );
  if (![x, y, z].every(Number.isFinite) || Math.hypot(x, y, z) < 1e-6)
    return { ok: false, fault: 'three numbers are wanted, not all nought, such as 0, -1, 0.5', ways: [] };
  return { ok: true, value: rounded(unit([x, y, z])) };
}

const rounded = (v: Vec): [number, number, number] => {
  const of = (x: number): number => Math.round(x * 1e5) / 1e5 + 0;
  return [of(v[0]), of(v[1]), of(v[2])];
};

/** Nearer than this to a plain way it is that way [deg]. */
const SAME_DEG = 0.2;

/** A direction as the form shows it, so that it can be changed. */
export function facingDraft(faces: Vec): FacingDraft {
  const v = unit(faces);
  const along = plainWays.map((way) => ({ way, share: dot(ways[way], v) })).sort((a, b) => b.share - a.share);
  const [first, second, third] = along as [(typeof along)[0], (typeof along)[0], (typeof along)[0]];
  const deg = (share: number): number => (Math.asin(Math.min(1, share)) * 180) / Math.PI;
  const off = (Math.acos(Math.min(1, first.share)) * 180) / Math.PI;
  if (off < SAME_DEG) return facingOf(first.way);
  if (deg(third.share) < SAME_DEG)
    return { ...facingOf(first.way), way: 'sloping', tip: String(Math.round(off * 10) / 10), towards: second.way };
  const number = (x: number): string => String(Math.round(x * 1000) / 1000);
  return { ...facingOf(first.way), way: 'numbers', numbers: [number(v[0]), number(v[1]), number(v[2])] };
}
