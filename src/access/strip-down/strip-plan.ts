import { BY_HAND_KG, FIT_SHARE } from '#standards';
import type { Vec } from '#geometry';
import type { Pose } from '../removal/pose.ts';
import { lengthOut } from '../removal/straight-pulls.ts';
import { joinedMover } from '../removal/mover.ts';
import { handReach } from './hand-reach.ts';
import type { CarProblem } from './car-problem.ts';
import { leastWithTools } from './least-with-tools.ts';
import { bondsByThing } from './needed-things.ts';
import { COMMON, moveOf, offAfter } from './strip-moves.ts';
import type { StripWatch } from './strip-scope.ts';
import { type ToolSaid, toolsSaid } from './tools-in-plan.ts';
import {
  bit,
  isWithin,
  SAME_COST,
  type StripMove,
  type StripProblem,
  type Thing,
  type Things,
} from './strip-problem.ts';

/** What is wanted of a part or line. */
export type StripAim = 'reach' | 'remove' | 'replace';
export const stripAims: readonly StripAim[] = ['reach', 'remove', 'replace'];

/** How something comes out. */
export type Coming =
  | { readonly how: 'straight'; readonly direction: Vec; readonly lengthMm: number }
  | { readonly how: 'turning'; readonly keys: readonly Pose[]; readonly middle: Vec }
  | { readonly how: 'freely' };

/** Something undone in a step. */
export interface Undone {
  readonly id: string;
  readonly kind: 'fastener' | 'fixings' | 'joint';
  readonly minutes: number;
  /** No straight way of a hand was found to it. */
  readonly isUnreached: boolean;
  /** Where no tool goes on plainly when its turn comes. */
  readonly tool?: ToolSaid;
}

/** One step: what comes off as one. */
export interface StripStep {
  /** What is taken hold of; the rest hangs on it or is carried along. */
  readonly what: string;
  readonly kind: 'part' | 'panel' | 'line' | 'end';
  readonly along: readonly string[];
  /** Ends of lines opened in it. */
  readonly ends: readonly string[];
  readonly undone: readonly Undone[];
  readonly onBench: readonly Undone[];
  readonly minutes: number;
  readonly coming: Coming;
  readonly lift?: { readonly by: 'hand' | 'hoist'; readonly massKg: number | null };
}

/** What comes off for one wish, in order, or why nothing was found. */
export type StripFound =
  | {
      readonly kind: 'found';
      readonly steps: readonly StripStep[];
      readonly minutesOff: number;
      readonly minutesOn: number;
      readonly cost: number;
      /** False: the search was cut short, a cheaper one may be left. */
      readonly isProved: boolean;
      /** No plan is cheaper by more than this, in minutes as weighed; 0 where it is proved. */
      readonly couldWin: number;
      /** What was found to go on before what, whatever the order else. */
      readonly fitBefore: readonly { readonly first: string; readonly second: string }[];
    }
  | { readonly kind: 'none' | 'stays-on' | 'stopped' };

/** The strip-down of least cost for a wish. */
export function stripPlan(car: CarProblem, id: string, aim: StripAim, watch?: StripWatch): StripFound {
  const place = car.placeOf.get(id)!;
  if (aim !== 'reach' && car.problem.things[place]!.staysOn) return { kind: 'stays-on' };
  let isStopped = false;
  const { problem, answer, met } = leastWithTools(car, wished(car, id, aim), (done, total) => {
    isStopped = watch?.(done, total) === false;
    return !isStopped;
  });
  if (isStopped) return { kind: 'stopped' };
  if (answer.kind !== 'found') return { kind: 'none' };
  const moves = inWorkOrder(car, problem, answer.moves);
  const tools = toolsSaid(car, problem, moves, met);
  const steps = moves.filter(({ root }) => root < car.kinds.length).map((move) => stepOf(car, move, tools));
  const minutesOff = steps.reduce((sum, { minutes }) => sum + minutes, 0);
  return {
    kind: 'found',
    steps,
    minutesOff,
    minutesOn: minutesOff * FIT_SHARE,
    cost: answer.cost,
    isProved: answer.isProved,
    couldWin: answer.isProved ? 0 : answer.cost - (answer.atLeast ?? 0),
    fitBefore: fitBefore(problem, moves),
  };
}

/**
 * Of what comes off here: what was found to come off only after what, whichever of its ways it takes, so that it goes on again before it.
 */
function fitBefore(
  problem: StripProblem,
  moves: readonly StripMove[],
): { readonly first: string; readonly second: string }[] {
  const solid = moves.filter(({ root }) => problem.waysOf(root)[0] !== 'free');
  return solid.flatMap(({ root: second }, i) => {
    const off = offWithout(problem, moves, second);
    return solid
      .slice(i + 1)
      .filter(({ root }) => (off & bit(root)) === 0n)
      .map(({ root }) => ({ first: problem.things[root]!.id, second: problem.things[second]!.id }));
  });
}

/** What of a plan comes off, by any way, while one thing stays on. */
function offWithout(problem: StripProblem, moves: readonly StripMove[], kept: number): Things {
  const bonds = bondsByThing(problem);
  const wanted = moves.reduce(
    (all, { group, ends }) => [...group, ...ends].reduce((set, place) => set | bit(place), all),
    0n,
  );
  let off: Things = 0n;
  for (let isChanged = true; isChanged; ) {
    isChanged = false;
    for (const { root } of moves) {
      if (root === kept || (off & bit(root)) !== 0n) continue;
      const goes = problem
        .waysOf(root)
        .map((way) => moveOf(problem, bonds, off, root, way))
        .find((move) => move !== null && isWithin(offAfter(0n, move), wanted & ~bit(kept)));
      if (goes === undefined || goes === null) continue;
      off = offAfter(off, goes);
      isChanged = true;
    }
  }
  return off;
}

/** The car's problem with a goal: the thing off, off and apart, or within reach of a hand. */
export function wished(car: CarProblem, id: string, aim: StripAim): StripProblem {
  const { placeOf, kinds, scene, ways } = car;
  const place = placeOf.get(id)!;
  const isPartOff = aim !== 'reach' && kinds[place] === 'part';
  const problem = isPartOff
    ? { ...car.problem, waysOf: (at: number) => (at === place ? ways.waysOfWanted(id) : car.problem.waysOf(at)) }
    : car.problem;
  if (aim === 'remove') return { ...problem, goal: bit(place) };
  if (aim === 'replace') return { ...problem, goal: bit(place), alone: bit(place) };
  const spots = spotsOf({ kinds, scene }, id, place);
  const hands: Thing[] = spots.map(({ at, faces }, i) => {
    const { clearedBy } = handReach(scene, at, faces, new Set([id]));
    const sets = clearedBy.map((set) => set.reduce((all, one) => all | bit(placeOf.get(one)!), 0n));
    return {
      id: `hand ${i}`,
      staysOn: false,
      cost: 0,
      carries: [],
      undoes: [],
      // Out of reach by every straight way: nothing that comes off is known to help.
      needs: sets.length === 0 || sets.includes(0n) ? [] : [sets],
    };
  });
  const first = problem.things.length;
  return {
    ...problem,
    things: [...problem.things, ...hands],
    waysOf: (at) => (at < first ? problem.waysOf(at) : ['free']),
    inTheWay: (at, way) => (at < first ? problem.inTheWay(at, way) : []),
    goal: hands.reduce((all, _, i) => all | bit(first + i), 0n),
  };
}

/** Where a hand has to get to reach a thing: its fasteners and joints, else its middle. */
function spotsOf(
  { kinds, scene }: Pick<CarProblem, 'kinds' | 'scene'>,
  id: string,
  place: number,
): readonly { readonly at: Vec; readonly faces: Vec | null }[] {
  const { bay, car } = scene.world;
  if (kinds[place] === 'line') {
    const line = car.lines.find((one) => one.id === id)!;
    return [line.from, line.to].flatMap((ref) => {
      const port = bay.ports.get(ref);
      return port === undefined ? [] : [{ at: port.at, faces: null }];
    });
  }
  const part = bay.partById.get(id)?.part;
  const fasteners = (part?.fasteners ?? []).map(({ atMm, faces }) => ({ at: atMm, faces }));
  if (fasteners.length > 0) return fasteners;
  const middle = scene.moverFor(id)?.middle;
  return middle === undefined ? [] : [{ at: middle, faces: null }];
}

/** Panels first, then what runs, then lines, then parts, as far as each can come off by then; the cost stays what it is. */
function inWorkOrder(car: CarProblem, problem: StripProblem, moves: readonly StripMove[]): readonly StripMove[] {
  const bonds = bondsByThing(problem);
  const rank = { panel: 0, end: 1, line: 2, part: 3, hand: 4 } as const;
  const left = [...moves];
  const ordered: StripMove[] = [];
  let off: Things = 0n;
  while (left.length > 0) {
    const may = left
      .map((move) => ({ move, now: moveOf(problem, bonds, off, move.root, move.way) }))
      .filter(({ move, now }) => now !== null && now.group.length === move.group.length)
      .toSorted((a, b) => rank[car.kinds[a.move.root] ?? 'hand'] - rank[car.kinds[b.move.root] ?? 'hand']);
    const next = may[0] ?? { move: left[0]!, now: left[0]! };
    ordered.push(byItsBase(problem, bonds, off, next.now!));
    left.splice(left.indexOf(next.move), 1);
    off = offAfter(off, next.now!);
  }
  return ordered;
}

/** The same load taken hold of by what carries most of it; of equals by what is wanted. */
function byItsBase(
  problem: StripProblem,
  bonds: ReturnType<typeof bondsByThing>,
  off: Things,
  move: StripMove,
): StripMove {
  if (!move.way.startsWith(COMMON)) return move;
  const load = offAfter(0n, move);
  const worth = (place: number): number =>
    problem.things[place]!.carries.length + ((problem.goal & bit(place)) === 0n ? 0 : 0.5);
  let best = move;
  for (const place of move.group) {
    if (worth(place) <= worth(best.root)) continue;
    const same = moveOf(problem, bonds, off, place, move.way);
    if (same !== null && offAfter(0n, same) === load && same.cost < move.cost + SAME_COST) best = same;
  }
  return best;
}

function stepOf(car: CarProblem, move: StripMove, tools: ReadonlyMap<string, ToolSaid>): StripStep {
  const { things } = car.problem;
  const idOf = (place: number): string => things[place]!.id;
  const kind = car.kinds[move.root]! as StripStep['kind'];
  const toolAt = (id: string): Pick<Undone, 'tool'> => {
    const tool = tools.get(id);
    return tool === undefined ? {} : { tool };
  };
  const undone: Undone[] = [
    ...move.undone.map(
      ({ id, cost }): Undone => ({
        id,
        kind: car.scene.panels.has(id.split('/')[0]!) ? 'fixings' : 'fastener',
        minutes: cost,
        isUnreached: car.unreached.has(id),
        ...toolAt(id),
      }),
    ),
    ...[...move.ends, ...(kind === 'end' ? [move.root] : [])].map(
      (place): Undone => ({
        id: idOf(place),
        kind: 'joint',
        minutes: car.minutesOf(place),
        isUnreached: isEndUnreached(car, idOf(place)),
        ...toolAt(idOf(place)),
      }),
    ),
  ];
  const onBench = move.onBench.map(
    ({ id, cost }): Undone => ({ id, kind: 'fastener', minutes: cost, isUnreached: false }),
  );
  const own = kind === 'end' ? [] : move.group;
  const minutes =
    [...undone, ...onBench].reduce((sum, row) => sum + row.minutes, 0) +
    (kind === 'part'
      ? Math.max(...own.map((place) => car.minutesOf(place)))
      : own.reduce((sum, place) => sum + car.minutesOf(place), 0));
  return {
    what: idOf(move.root),
    kind,
    along: move.group.filter((place) => place !== move.root).map(idOf),
    ends: [...(kind === 'end' ? [idOf(move.root)] : []), ...move.ends.map(idOf)],
    undone,
    onBench,
    minutes,
    coming: comingOf(car, move),
    ...(kind === 'part' ? { lift: liftOf(car, move.group.map(idOf)) } : {}),
  };
}

function isEndUnreached({ scene, unreached }: CarProblem, end: string): boolean {
  const [lineId, which] = end.split('@') as [string, 'from' | 'to'];
  const line = scene.world.car.lines.find(({ id }) => id === lineId);
  return line !== undefined && unreached.has(`${lineId}@${line[which]}`);
}

function comingOf({ ways, scene, problem }: CarProblem, { way, group }: StripMove): Coming {
  const mover = joinedMover(group.flatMap((place) => scene.moverFor(problem.things[place]!.id) ?? []));
  if (mover === undefined) return { how: 'freely' };
  const direction = ways.direction(way);
  if (direction !== undefined)
    return { how: 'straight', direction, lengthMm: lengthOut(mover, scene.bounds, direction) };
  const turned = ways.turn(way);
  const root = way.slice('turn '.length);
  const whole = joinedMover(
    [...new Set([root, ...scene.world.car.parts.map(({ id }) => id)])].flatMap((id) =>
      ways.goesWith(root).includes(id) ? (scene.moverFor(id) ?? []) : [],
    ),
  );
  return turned === null || whole === undefined
    ? { how: 'freely' }
    : { how: 'turning', keys: turned.keys, middle: whole.middle };
}

function liftOf({ scene }: CarProblem, ids: readonly string[]): NonNullable<StripStep['lift']> {
  const parts = ids.flatMap((id) => scene.world.bay.partById.get(id)?.part ?? []);
  const masses = parts.flatMap(({ massKg }) => massKg ?? []);
  const massKg = masses.length === 0 ? null : masses.reduce((sum, kg) => sum + kg, 0);
  const isSaid = parts.some(({ lifts }) => lifts === 'hoist');
  const byHand = parts.length > 0 && parts[0]!.lifts === 'hand';
  return { by: isSaid || (!byHand && (massKg ?? 0) > BY_HAND_KG.value) ? 'hoist' : 'hand', massKg };
}
