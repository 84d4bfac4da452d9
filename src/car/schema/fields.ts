import { z } from 'zod';

/** Nothing on a car is further than this from the front axle [mm]. */
export const FARTHEST_MM = 100_000;

/*
 * Small field makers. Each takes what the field is (for the JSON Schema) and says in words what is allowed there: that
 * text becomes the `allowed` of a fault, so it is written for a builder.
 */

export const number = (about: string, from: number, to: number, unit: string) => {
  const error = `a number from ${from} to ${to}${unit === '' ? '' : ` ${unit}`}`;
  return z.number({ error }).min(from, { error }).max(to, { error }).describe(about);
};

/** A number above zero. */
export const positive = (about: string, to: number, unit: string) => {
  const error = `a number above 0, at most ${to} ${unit}`;
  return z.number({ error }).gt(0, { error }).max(to, { error }).describe(about);
};

export const lengthMm = (about: string) => positive(about, FARTHEST_MM, 'mm');
export const toleranceMm = (about: string) => number(about, 0, 1000, 'mm');
export const angleDeg = (about: string) => number(about, -360, 360, 'deg');
export const integer = (about: string, from: number, to: number) => {
  const error = `a whole number from ${from} to ${to}`;
  return z.number({ error }).int({ error }).min(from, { error }).max(to, { error }).describe(about);
};

const coordinate = z
  .number({ error: `a number of millimetres within +-${FARTHEST_MM}` })
  .min(-FARTHEST_MM, { error: `a number of millimetres within +-${FARTHEST_MM} (100 m)` })
  .max(FARTHEST_MM, { error: `a number of millimetres within +-${FARTHEST_MM} (100 m)` });

export const pointMm = (about: string) =>
  z.tuple([coordinate, coordinate, coordinate], { error: 'three numbers [x, y, z] in mm' }).describe(about);

const component = z
  .number({ error: 'a number' })
  .min(-1e6, { error: 'a number within +-1000000' })
  .max(1e6, { error: 'a number within +-1000000' });
export const direction = (about: string) =>
  z
    .tuple([component, component, component], { error: 'three numbers [x, y, z] of a direction' })
    .refine((d) => Math.hypot(d[0], d[1], d[2]) > 1e-9, { error: 'a direction with some length, such as [0, 0, 1]' })
    .describe(about);

const turn = angleDeg('');
export const turnDeg = (about: string) =>
  z.tuple([turn, turn, turn], { error: 'three angles [x, y, z] in degrees' }).describe(about);

export const text = (about: string, longest = 500) => {
  const error = `a text of 1 to ${longest} characters`;
  return z.string({ error }).min(1, { error }).max(longest, { error }).describe(about);
};

const ID = /^[\p{L}\p{N}][\p{L}\p{N}_-]{0,63}$/u;
const ID_WORDS = 'an id: 1 to 64 letters, digits, - or _, beginning with a letter or digit';
export const id = (about: string) => z.string({ error: ID_WORDS }).regex(ID, { error: ID_WORDS }).describe(about);

const PORT_WORDS = 'a port as "part.port"';
export const portRef = (about: string) =>
  z
    .string({ error: PORT_WORDS })
    .regex(/^[^\s.]{1,64}\.[^\s.]{1,64}$/, { error: PORT_WORDS })
    .describe(about);

const LEADER_WORDS = 'a part, or a port as "part.port"';
export const leader = (about: string) =>
  z
    .string({ error: LEADER_WORDS })
    .regex(/^[^\s.]{1,64}(?:\.[^\s.]{1,64})?$/, { error: LEADER_WORDS })
    .describe(about);

/** Catalogue ids come from makers' and standards' numbers, so more signs are allowed. */
const ROW_WORDS = 'an id of 1 to 80 printable characters without spaces at either end';
export const rowId = (about: string) =>
  z
    .string({ error: ROW_WORDS })
    .regex(/^(?! )[^\p{C}]{1,80}(?<! )$/u, { error: ROW_WORDS })
    .describe(about);

export const flag = (about: string) => z.boolean({ error: 'true or false' }).describe(about);

export const oneOf = <const T extends readonly [string, ...string[]]>(about: string, words: T) =>
  z.enum(words, { error: `one of ${words.join(', ')}` }).describe(about);

export const list = <T extends z.ZodType>(about: string, item: T, most = 100_000) => {
  const error = `a list [...] of at most ${most} entries`;
  return z.array(item, { error }).max(most, { error }).describe(about);
};

/** An object whose keys are all known; keys that begin with x- are set aside before it is checked. */
export const fields = <T extends z.core.$ZodLooseShape>(about: string, shape: T) =>
  z.strictObject(shape, { error: 'an object {...}' }).describe(about);

/** Two numbers, the lower first. */
export const rangeDeg = (about: string) => {
  const error = 'two angles [low, high] within +-90 deg, the lower first';
  const end = z.number({ error }).min(-90, { error }).max(90, { error });
  return z
    .tuple([end, end], { error })
    .refine((r) => r[0] <= r[1], { error })
    .describe(about);
};

/** Any JSON at all. */
export const anything = (about: string) => z.unknown().describe(about);
