import type { Line } from '#car';
import { exactText, type KeyInputs } from './plan-key.ts';

/** Raised when what is kept under a key has another form than before. */
const FORMAT = 2;

/**
 * All that the heat of a car depends on, as text: the same text, the same answer. Not looked at: the car's name and remark, what lies in
 * the box, which snags are accepted, and how far a line is made.
 */
export function heatKey({ car, meshMarks, tool }: KeyInputs): string {
  const { name: _name, note: _note, box: _box, accepted: _accepted, lines, ...rest } = car;
  const marks = [...meshMarks].sort(([p], [q]) => (p < q ? -1 : p > q ? 1 : 0));
  return exactText(['heat', FORMAT, tool, marks, rest, lines.map(withoutState)]);
}

const withoutState = ({ state: _state, note: _note, ...line }: Line): Omit<Line, 'state' | 'note'> => line;
