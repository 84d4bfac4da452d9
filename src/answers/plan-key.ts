import type { Car, Line } from '#car';

/** What an answer about a car is worked out from, besides the question. */
export interface KeyInputs {
  readonly car: Car;
  /** A mark for what is in each mesh, by the file as the car names it. */
  readonly meshMarks: ReadonlyMap<string, string>;
  /** Tells one state of the program from another: two that may answer differently never share it. */
  readonly tool: string;
}

/** Raised when what is kept under a key has another form than before. */
const FORMAT = 1;

/** All that a plan depends on, as text: the same text, the same plan. */
export const planKey = ({ car, meshMarks, tool }: KeyInputs): string =>
  exactText(['plan', FORMAT, tool, marksInTurn(meshMarks), car]);

/**
 * All that the way of a line depends on which has the car to itself: of the other lines only the made ones, which stand in its way. The
 * name of the car is not looked at.
 */
export const wayAloneKey = ({ car, meshMarks, tool }: KeyInputs, line: Line): string => {
  const { name: _, ...rest } = car;
  const made = car.lines.filter((other) => other.state !== 'planned' && other.taken);
  const standing = made.map(({ id, taken }) => ({ id, bodies: taken!.bodies }));
  return exactText(['way alone', FORMAT, tool, marksInTurn(meshMarks), { ...rest, lines: standing }, line]);
};

const marksInTurn = (marks: ReadonlyMap<string, string>): [string, string][] =>
  [...marks].sort(([p], [q]) => (p < q ? -1 : p > q ? 1 : 0));

/**
 * JSON that tells apart what JSON does not: minus zero, and numbers that are none. Keys stay in their order: a car as read has them in
 * the schema's, and nobody promises that another order gives the same answer.
 */
export function exactText(value: unknown): string {
  return JSON.stringify(value, (_, item: unknown) => {
    if (typeof item !== 'number' || (Number.isFinite(item) && !Object.is(item, -0))) return item;
    return { number: Object.is(item, -0) ? '-0' : String(item) };
  });
}
