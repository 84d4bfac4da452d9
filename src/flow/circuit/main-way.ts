import type { Circuit } from '#car';
import type { CircuitState } from './flow-answer.ts';
import { Joints } from './joints.ts';

/** One step along a circuit: a line, a pump or a way through a part. Pressures above the air outside. */
export interface WayStep {
  readonly id: string;
  readonly words: string;
  readonly kind: 'line' | 'pump' | 'passage';
  readonly fromPa: number;
  readonly toPa: number;
  readonly flowM3S: number;
}

interface Through extends WayStep {
  readonly from: string;
  readonly to: string;
}

/**
 * The way that most of the liquid takes, step by step: from the vessel that the driving pump draws from, or from the pump
 * itself where all of it goes round, to where it comes to rest or has been. Empty where nothing flows.
 */
export function mainWay(
  circuit: Circuit,
  ends: (line: string) => { readonly from: string; readonly to: string } | undefined,
  state: CircuitState,
): readonly WayStep[] {
  const all = throughs(circuit, ends, state);
  const joints = new Joints();
  for (const { from, to, open } of circuit.passages ?? []) if (open === true) joints.join(from, to);
  const vessels = new Set((circuit.vessels ?? []).map(({ part }) => part));
  const spot = (at: string): string => spotOf(at, joints, vessels, all);
  const pump = all
    .filter(({ kind, flowM3S }) => kind === 'pump' && flowM3S > 0)
    .toSorted((a, b) => b.flowM3S - a.flowM3S)[0];
  if (pump === undefined) return [];
  const way = [pump];
  const into = (at: string) => all.filter((row) => spot(row.to) === at && !way.includes(row));
  while (!vessels.has(spot(way[0]!.from))) {
    const before = strongest(into(spot(way[0]!.from)));
    if (before === undefined || before.flowM3S < pump.flowM3S * LEAST_SHARE) break;
    way.unshift(before);
  }
  const isRound = !vessels.has(spot(way[0]!.from));
  if (isRound) way.splice(0, way.length, pump);
  for (;;) {
    const at = spot(way.at(-1)!.to);
    if (vessels.has(at)) break;
    const next = strongest(all.filter((row) => spot(row.from) === at && !way.includes(row)));
    if (next === undefined) break;
    way.push(next);
  }
  return way.map(({ id, words, kind, fromPa, toPa, flowM3S }): WayStep => ({ id, words, kind, fromPa, toPa, flowM3S }));
}

/** A branch with less of the pump's flow than this is no part of its main way. */
const LEAST_SHARE = 0.3;

const strongest = (rows: readonly Through[]): Through | undefined => rows.toSorted((a, b) => b.flowM3S - a.flowM3S)[0];

/** Everything with its ends turned so that flow runs from `from` to `to`. */
function throughs(circuit: Circuit, ends: Parameters<typeof mainWay>[1], state: CircuitState): Through[] {
  const turned = (row: Through): Through =>
    row.flowM3S >= 0
      ? row
      : { ...row, from: row.to, to: row.from, fromPa: row.toPa, toPa: row.fromPa, flowM3S: -row.flowM3S };
  const rowOf = (rows: Circuit['passages'] | Circuit['pumps'], id: string) =>
    (rows ?? []).find((row) => row.id === id || row.name === id || `${row.from} to ${row.to}` === id);
  return [
    ...state.lines.flatMap((row): Through[] => {
      const at = ends(row.line);
      if (at === undefined || row.carries !== 'liquid') return [];
      return [turned({ ...pressures(row), id: row.line, words: row.line, kind: 'line', from: at.from, to: at.to })];
    }),
    ...(['pump', 'passage'] as const).flatMap((kind) =>
      state[`${kind}s`].flatMap((row): Through[] => {
        const at = rowOf(circuit[`${kind}s`], row.id);
        return at === undefined
          ? []
          : [turned({ ...pressures(row), id: row.id, words: row.words, kind, from: at.from, to: at.to })];
      }),
    ),
  ];
}

const pressures = ({ fromPa, toPa, flowM3S }: { fromPa: number; toPa: number; flowM3S: number }) => ({
  fromPa,
  toPa,
  flowM3S,
});

/** A vessel's port is the vessel, unless a pump or passage lies between. */
function spotOf(at: string, joints: Joints, vessels: ReadonlySet<string>, all: readonly Through[]): string {
  const joint = joints.of(at);
  const part = joint.split('.')[0] ?? joint;
  if (!vessels.has(part) || joint === part) return joint;
  const isPiped = all.some(
    ({ kind, from, to }) => kind !== 'line' && ((from === part && to === at) || (to === part && from === at)),
  );
  return isPiped ? joint : part;
}
