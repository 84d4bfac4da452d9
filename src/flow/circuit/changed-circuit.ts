import type { Line, Pump } from '#car';
import type { Vec } from '#geometry';
import type { Catalogue } from '#standards';
import type { DrawnCircuit, DrawnVessel } from './drawn-circuit.ts';
import { nameOf } from './drawn-circuit.ts';
import { straightRun } from './line-run.ts';

/** Where a line ends that leads to the open air: what comes out of it comes to rest there. */
export const OPEN_AIR = 'the open air';

/** A line that a circuit does not have yet. */
export interface AddedLine {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly duty: Line['duty'];
  readonly fromMm: Vec;
  readonly toMm: Vec;
  readonly boreMm: number;
}

/** The circuit with one line more, laid straight from place to place. */
export function withLine(drawn: DrawnCircuit, added: AddedLine): DrawnCircuit {
  const { id, from, to, duty, fromMm, toMm, boreMm } = added;
  const line: Line = { id, from, to, duty, boreMm, pieces: [], through: [], state: 'planned' };
  return {
    ...drawn,
    runs: [...drawn.runs, straightRun(line, fromMm, toMm, boreMm)],
    lines: new Map([...drawn.lines, [id, line]]),
  };
}

/** The circuit with one pump otherwise. */
export const withPump = (drawn: DrawnCircuit, id: string, change: Partial<Pump>): DrawnCircuit => ({
  ...drawn,
  pumps: drawn.pumps.map((row) => ((row.id ?? nameOf(row)) === id ? { ...row, ...change } : row)),
});

/** The highest port of a vessel: where a vent or bleed of its own would come in. */
export const topOf = ({ ports }: Pick<DrawnVessel, 'ports'>): Vec | undefined =>
  ports.map(({ atMm }) => atMm).toSorted((a, b) => b[2] - a[2])[0];

/** Dash sizes that a vent or bleed comes in, the smallest first, each with the bore of a hose in it. */
export function hoseSizes(
  shelf: Catalogue,
  dashes: readonly number[],
): { readonly dash: number; readonly boreMm: number }[] {
  return dashes.flatMap((dash) => {
    const boreMm = shelf.hoses.find((row) => row.dash === dash)?.boreMm;
    return boreMm === undefined ? [] : [{ dash, boreMm }];
  });
}
