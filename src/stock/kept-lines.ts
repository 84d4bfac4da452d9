import { type Car, type Line, type TakenWay, findLine } from '#car';
import type { Bay } from '#bay';
import { type Body, pathsGap, tightestBend } from '#geometry';
import { BEND_GRACE, bodiesOfWay, type LinesWorld, type Way } from '#lines';
import { type Catalogue, dutyNeeds } from '#standards';
import { askedOtherwise } from './asked-otherwise.ts';
import { changedFor } from './changed-parts.ts';
import { turnsOnHose } from './hose-ends-of.ts';
import { type BrokenGap, gapsBroken, hoseLength, laidAnew, turnBetweenEnds, wayWithBodies } from './laid-way.ts';
import { type PortMove, movedPort, movesAlike } from './moved-port.ts';
import { type PlannedLines, linesWithWays } from './planned-lines.ts';

/** A hose of the first car that does in the second, as it then lies. */
export interface KeptLine {
  readonly line: string;
  readonly way: Way | TakenWay;
  readonly bodies: readonly Body[];
  readonly why: string;
  /** Its ports moved, and it went with them. */
  readonly moved: boolean;
}

/** Why a line of the first car does not do in the second as it is. */
export interface NotKept {
  readonly line: string;
  readonly why: readonly string[];
}

export interface KeptLines {
  readonly kept: ReadonlyMap<string, KeptLine>;
  readonly not: ReadonlyMap<string, NotKept>;
}

/**
 * Which lines of the first car still do in the second, without planning anything: same ports, ends and hose asked for, the hose still
 * long enough within its allowance, its two elbows within 3 degrees of the angle they stand at, its bend radius kept, and every gap it
 * had. A line whose ports moved a little is laid anew with its fittings fast on their ports.
 */
export function keptLines(a: LinesWorld, plannedA: PlannedLines, b: LinesWorld): KeptLines {
  const kept = new Map<string, KeptLine>();
  const not = new Map<string, NotKept>();
  const changed = changedFor(a, b);
  const answers = linesWithWays(a.car, plannedA).flatMap(({ line, way }) => {
    const lineB = findLine(b.car, line.id);
    return way === null || lineB === undefined || way.bodies.length === 0
      ? []
      : [judged({ a, lineA: line, way, b, lineB, seen: () => changed(line, lineB) })];
  });
  const isMoved = (answer: KeptLine | NotKept): number => ('moved' in answer && answer.moved ? 1 : 0);
  for (const answer of [...answers].sort((p, q) => isMoved(p) - isMoved(q))) {
    if (!('way' in answer)) not.set(answer.line, answer);
    else {
      const hit = answer.moved ? lineHit(answer.bodies, [...kept.values()], b.lineKeepOffMm) : null;
      if (hit === null) kept.set(answer.line, answer);
      else not.set(answer.line, { line: answer.line, why: [hit] });
    }
  }
  return { kept, not };
}

/** The second car with the lines that still do standing in it as made: what a plan then leaves alone. */
export function withKept(car: Car, { kept }: KeptLines): Car {
  return {
    ...car,
    lines: car.lines.map((line) =>
      kept.has(line.id)
        ? {
            ...line,
            state: line.state === 'planned' ? 'made' : line.state,
            taken: kept.get(line.id)!.way as unknown as TakenWay,
          }
        : line,
    ),
  };
}

export interface WayMade extends KeptLines {
  /** Lines that others make way for. */
  readonly wanting: readonly string[];
}

/**
 * What is kept if lines that found no way get room: kept lines that stand in their way make it. One that the second car has as bought or
 * made stays whatever it costs. Null where no kept line stands in anyone's way.
 */
export function makingWay(known: KeptLines, planned: PlannedLines, car: Car): WayMade | null {
  const [kept, not] = [new Map(known.kept), new Map(known.not)];
  const wanting = new Set<string>();
  for (const { line: id, taken, best } of planned.lines) {
    if (taken !== null) continue;
    for (const { part } of best?.fails ?? []) {
      const other = part?.startsWith('line ') === true ? part.slice('line '.length) : '';
      if (!kept.has(other) || findLine(car, other)?.state !== 'planned') continue;
      kept.delete(other);
      not.set(other, { line: other, why: [`it makes way for ${id}`] });
      wanting.add(id);
    }
  }
  return wanting.size === 0 ? null : { kept, not, wanting: [...wanting] };
}

/** Are fewer lines without a way in one plan than in another? */
export const fewerRefused = (one: PlannedLines, other: PlannedLines): boolean => refused(one) < refused(other);

const refused = ({ lines }: PlannedLines): number => lines.filter((row) => row.taken === null).length;

/** Farther than this a port did not move a little: the line is planned anew [mm, deg]. */
const MOST_SHIFT_MM = 150;
const MOST_TURN_DEG = 30;
/** Angle between two elbows of a made hose; SAE J516:2019, elbow angles [deg]. */
const ELBOWS_DEG = 3;

/** One line of both cars, and the way it has in the first. */
interface Case {
  readonly a: LinesWorld;
  readonly lineA: Line;
  readonly way: Way | TakenWay;
  readonly b: LinesWorld;
  readonly lineB: Line;
  /** What a line that lies where it lay has to be measured against. */
  readonly seen: () => Bay;
}

function judged(both: Case): KeptLine | NotKept {
  const { a, lineA, way, b, lineB } = both;
  const asked = askedOtherwise(a, lineA, way, b, lineB);
  if (asked.length > 0) return { line: lineA.id, why: asked };
  const moves = portMoves(a, lineA, b, lineB);
  if (moves === null) return { line: lineA.id, why: ['one of its ports is gone'] };
  const before = bodiesOfWay(way);
  if (moves.every((move) => move.stays))
    return held(both, { way, bodies: before, moved: false, words: 'ports, hose and gaps stay as they were' });
  const cannot = cannotFollow(lineB, way, moves);
  if (cannot !== null) return { line: lineA.id, why: [`${moveWords(lineA, lineB, moves)}${cannot}`] };
  const bodies = laidAnew(before, moves[0].motion, moves[1].motion, movesAlike(moves[0], moves[1]));
  const wrong = hoseFollows(way, before, bodies, b.shelf);
  if (wrong !== null) return { line: lineA.id, why: [`${moveWords(lineA, lineB, moves)}; ${wrong}`] };
  const longer = hoseLength(bodies) - hoseLength(before);
  const slack =
    Math.abs(longer) < 0.5
      ? ''
      : `, ${Math.abs(longer).toFixed(0)} mm ${longer < 0 ? 'slacker' : 'tighter'} than it was`;
  const clamps = (way.clamps ?? []).length === 0 ? '' : '; its clamps are set anew';
  const words = `${moveWords(lineA, lineB, moves)}; the hose follows${slack}${clamps}`;
  return held(both, { way: wayWithBodies(way, bodies), bodies, moved: true, words });
}

function portMoves(a: LinesWorld, lineA: Line, b: LinesWorld, lineB: Line): readonly [PortMove, PortMove] | null {
  const [fromA, toA, fromB, toB] = [
    a.bay.ports.get(lineA.from),
    a.bay.ports.get(lineA.to),
    b.bay.ports.get(lineB.from),
    b.bay.ports.get(lineB.to),
  ];
  if (fromA === undefined || toA === undefined || fromB === undefined || toB === undefined) return null;
  return [movedPort(fromA, fromB), movedPort(toA, toB)];
}

function moveWords(had: Line, { from, to }: Line, moves: readonly [PortMove, PortMove]): string {
  const words = [[0, had.from, from, moves[0]] as const, [1, had.to, to, moves[1]] as const]
    .filter(([, , , move]) => !move.stays)
    .map(([n, before, ref, { shiftMm, turnDeg }]) => {
      if (before !== ref)
        return n === 0
          ? `it now comes from ${ref}, it came from ${before}`
          : `it now goes to ${ref}, it went to ${before}`;
      const turned = turnDeg < 0.5 ? '' : `turned ${turnDeg.toFixed(0)}°`;
      const shifted = shiftMm < 0.5 ? '' : `moved ${shiftMm.toFixed(0)} mm`;
      return `${ref} ${[shifted, turned].filter((w) => w !== '').join(' and ') || 'moved a hair'}`;
    });
  return words.join(', ');
}

function cannotFollow(line: Line, way: Way | TakenWay, moves: readonly [PortMove, PortMove]): string | null {
  if (moves.some((move) => move.shiftMm > MOST_SHIFT_MM || move.turnDeg > MOST_TURN_DEG)) return '';
  const rigid = way.pieces.some((piece) => piece.hose === undefined);
  if (rigid && !movesAlike(moves[0], moves[1])) return '; tube does not follow';
  if (line.through.length > 0) return '; what it passes through stays where it is';
  const need = dutyNeeds(line.duty);
  return need.mustFall || need.mustRise || line.rises === true || line.fall !== undefined
    ? '; it must fall or rise all the way, so its way is worked out again'
    : null;
}

/** What stops a hose from following its ports; null where it does. */
function hoseFollows(
  way: Way | TakenWay,
  before: readonly Body[],
  after: readonly Body[],
  shelf: Catalogue,
): string | null {
  const [piece] = way.pieces;
  const longer = hoseLength(after) - hoseLength(before);
  const cutMm = piece?.cutLengthMm ?? hoseLength(before);
  const [less, more] = piece?.allowanceMm ?? [0, 0];
  // A hose cut to c serves where c1 is wanted if c lies from c1 + less to c1 + more.
  if (longer > -less + 1e-9) return `it wants ${(cutMm + longer).toFixed(0)} mm, cut to ${cutMm}`;
  if (-longer > more + 1e-9) return `it wants ${(cutMm + longer).toFixed(0)} mm and hangs slack, cut to ${cutMm}`;
  const hose = after.find((body) => body.part === 'hose');
  const radiusMm = hose === undefined ? Number.POSITIVE_INFINITY : tightestBend(hose.path).radiusMm;
  const leastMm = piece?.minBendRadiusMm ?? 0;
  if (radiusMm < leastMm * BEND_GRACE && radiusMm < (piece?.tightestBendMm ?? 0) * BEND_GRACE)
    return `it would bend to ${radiusMm.toFixed(0)} mm, the hose allows ${leastMm}`;
  const [was, is] = [turnBetweenEnds(before), turnBetweenEnds(after)];
  if (was === null || is === null || turnsOnHose(way, shelf)) return null;
  const off = Math.abs(((is - was + 540) % 360) - 180);
  return off > ELBOWS_DEG
    ? `its two elbows would have to stand ${is.toFixed(0)}° to each other, they stand at ${was.toFixed(0)}° (±${ELBOWS_DEG}°)`
    : null;
}

interface Laid {
  readonly way: Way | TakenWay;
  readonly bodies: readonly Body[];
  readonly moved: boolean;
  readonly words: string;
}

/** Gaps in the second car; those that were no better in the first do not count against it. */
function held({ a, lineA, way: had, b, lineB, seen }: Case, { way, bodies, moved, words }: Laid): KeptLine | NotKept {
  const now = gapsBroken(moved ? b.bay : seen(), lineB, way, bodies);
  const was = now.length === 0 ? [] : gapsBroken(only(a.bay, now), lineA, had, bodiesOfWay(had));
  const worse = now.filter(
    (gap) =>
      !was.some((old) => old.part === gap.part && gap.gapMm > old.gapMm - 0.5 && gap.keepOffMm <= old.keepOffMm + 0.5),
  );
  if (worse.length === 0) return { line: lineA.id, way, bodies, why: words, moved };
  return { line: lineA.id, why: worse.map((gap) => gapWords(gap)) };
}

/** The space of the first car with only the parts that are in question. */
const only = (bay: Bay, gaps: readonly BrokenGap[]): Bay => ({
  ...bay,
  parts: bay.parts.filter((part) => gaps.some((gap) => gap.part === part.id)),
});

const gapWords = ({ part, gapMm, keepOffMm }: BrokenGap): string =>
  keepOffMm === 0
    ? `where it lies it may touch ${part} at worst (${gapMm.toFixed(0)} mm)`
    : `where it lies it passes ${part} at ${gapMm.toFixed(0)} mm; wants ${keepOffMm.toFixed(0)}`;

/** Another kept line that this one would lie against. */
function lineHit(bodies: readonly Body[], others: readonly KeptLine[], keepOffMm: number): string | null {
  for (const other of others) {
    const { gapMm } = pathsGap(bodies, other.bodies, keepOffMm);
    if (gapMm < keepOffMm - 0.05)
      return `it would lie ${gapMm.toFixed(0)} mm from ${other.line}; lines want ${keepOffMm}`;
  }
  return null;
}
