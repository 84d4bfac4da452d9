import { type Bay, gapFaults, gapsToParts } from '#bay';
import { type Line, splitPortRef, type TakenWay } from '#car';
import { type Body, distance, dot, unit, type Vec } from '#geometry';
import { describeEnd, type End, mates } from '#standards';
import { hoseFitness } from './make-up/hose-fitness.ts';
import type { Way, WayEnd, WayFail, WayNote, WayPiece } from './way.ts';
import { BEND_GRACE, drainFails, fitnessFail, keepOffFail, writtenGap } from './ways/judged-way.ts';
import { gapNotes, hoseNotes, roundedPlace, slackNote, SPARE_PERCENT } from './ways/way-notes.ts';
import { bodiesOfWay, takenInBay } from './ways/taken-in-bay.ts';
import { conditionsOf, type LinesWorld } from './world.ts';

/**
 * A way that was decided on earlier, judged on the car as it stands now: nothing is planned and nothing of the way changes. Its ends
 * must still sit on their ports and mate with them, its hose still stand what the line asks, and every gap still hold. Lines that come
 * too near each other are told by the plan, not here.
 */
export function standingWay(world: LinesWorld, line: Line, taken: Way | TakenWay): Way {
  const bodies = bodiesOfWay(taken);
  const seats = seatFails(world, line, taken, bodies);
  const bay = withoutPartsItLeft(world.bay, line, seats);
  const rows = bodies.length === 0 ? [] : gapsToParts(takenInBay(world.bay, line, taken, bodies), bay);
  const faults = gapFaults(rows);
  const findings = hosesOf(world, taken).flatMap((hose) => hoseFitness(hose, conditionsOf(line)));
  const fails: WayFail[] = [
    ...seats.flat(),
    ...faults.filter((f) => f.when === 'nominal').map(({ row, region }) => keepOffFail(row.part, region)),
    ...bendFails(world, taken),
    ...findings.filter((f) => f.level === 'stop').map(fitnessFail),
    ...(bodies.length === 0 ? [] : drainFails(line, bodies, world)),
  ];
  return {
    rank: 1,
    feasible: fails.length === 0,
    cost: numberOr(taken['cost'], 0),
    ends: [writtenEnd(taken.ends[0], line.from), writtenEnd(taken.ends[1], line.to)],
    joints: listOf<WayEnd>(taken['joints']),
    pieces: taken.pieces.map(writtenPiece),
    clamps: listOf(taken.clamps),
    bodies: taken.bodies as Way['bodies'],
    hangSpreadMm: numberOr(taken['hangSpreadMm'], 0),
    gaps: rows.map(writtenGap),
    fails,
    notes: [...gapNotes(faults, rows), ...hoseNotes(findings), ...slackNotes(taken)],
    reasons: listOf<string>(taken['reasons']),
  };
}

/** An end off its port by no more than this sits on it; a port turned by no more than this still faces it [mm, deg]. */
const SEATED_MM = 0.5;
const SEATED_DEG = 0.5;
const RAD = Math.PI / 180;

/** What is wrong with how it sits on its first port, and on its last. */
type Seats = readonly [readonly WayFail[], readonly WayFail[]];

function seatFails(world: LinesWorld, line: Line, taken: Way | TakenWay, bodies: readonly Body[]): Seats {
  const first = bodies[0]?.path;
  const last = bodies.at(-1)?.path;
  if (first === undefined || last === undefined)
    return [[{ limit: 'reach', text: 'the way taken has no shape: it was written down without one' }], []];
  const n = last.length;
  const start = { at: point(first, 0), out: point(first, 3) };
  const end = { at: point(last, n - 3), out: point(last, n - 6) };
  return [
    endFails(world, line.from, start, firstEnd(world, taken.ends[0]?.makeUp, taken.pieces[0]?.hose)),
    endFails(world, line.to, end, firstEnd(world, taken.ends[1]?.makeUp, taken.pieces.at(-1)?.hose)),
  ];
}

/** An end that a part has moved away from, or into, has no gap to it that means anything: that it must be worked out anew says it all. */
function withoutPartsItLeft(bay: Bay, { from, to }: Line, seats: Seats): Bay {
  const left = [from, to]
    .filter((_, n) => seats[n]!.some(({ limit }) => limit === 'reach'))
    .map((ref) => splitPortRef(ref).part);
  return left.length === 0 ? bay : { ...bay, parts: bay.parts.filter(({ id }) => !left.includes(id)) };
}

const point = (path: Float64Array, i: number): Vec => [path[i]!, path[i + 1]!, path[i + 2]!];

function endFails(
  world: LinesWorld,
  ref: string,
  { at, out }: { readonly at: Vec; readonly out: Vec },
  own: End | null,
): WayFail[] {
  const port = world.bay.ports.get(ref);
  if (port === undefined) return [{ limit: 'reach', text: `its port ${ref} is gone` }];
  const offMm = distance(at, port.at);
  const turned = Math.acos(Math.max(-1, Math.min(1, dot(directionTo(at, out), port.faces)))) / RAD;
  const fails: WayFail[] = [];
  if (offMm > SEATED_MM)
    fails.push({
      limit: 'reach',
      valueMm: Number(offMm.toFixed(1)),
      limitMm: 0,
      atMm: roundedPlace(port.at),
      text: `was worked out for ${ref} where it was: the port now lies ${offMm.toFixed(0)} mm from its end`,
    });
  else if (turned > SEATED_DEG)
    fails.push({
      limit: 'reach',
      value: Number(turned.toFixed(1)),
      limitValue: 0,
      unit: 'deg',
      atMm: roundedPlace(port.at),
      text: `was worked out for ${ref} as it faced: the port is now turned by ${turned.toFixed(0)}°`,
    });
  if (own !== null && !mates(port.end, own).ok)
    fails.push({
      limit: 'mating',
      atMm: roundedPlace(port.at),
      text: `ends in a ${describeEnd(own)}, which does not go on ${ref}: it is a ${describeEnd(port.end)}`,
    });
  return fails;
}

function directionTo(from: Vec, to: Vec): Vec {
  return distance(from, to) < 1e-9 ? [0, 0, 0] : unit([to[0] - from[0], to[1] - from[1], to[2] - from[2]]);
}

/** The end that goes on the port: of the first part of the make-up that the catalogue knows; null where it does not. */
function firstEnd(world: LinesWorld, makeUp: readonly unknown[] | undefined, hoseId: string | undefined): End | null {
  const [id] = makeUp ?? [];
  if (typeof id !== 'string') return null;
  const adapter = world.shelf.adapters.find((row) => row.id === id);
  if (adapter !== undefined) return adapter.a;
  const hose = hoseId === undefined ? undefined : world.shelf.findHose(hoseId);
  return hose === undefined ? null : (world.shelf.hoseEndsFor(hose).find((row) => row.id === id)?.to ?? null);
}

const hosesOf = (world: LinesWorld, taken: Way | TakenWay) =>
  [...new Set(taken.pieces.flatMap((piece) => piece.hose ?? []))].flatMap((id) => world.shelf.findHose(id) ?? []);

function bendFails(world: LinesWorld, taken: Way | TakenWay): WayFail[] {
  return taken.pieces.flatMap(({ hose: id, tightestBendMm }): WayFail[] => {
    const hose = id === undefined ? undefined : world.shelf.findHose(id);
    if (hose === undefined || typeof tightestBendMm !== 'number') return [];
    if (tightestBendMm >= hose.minBendRadiusMm * BEND_GRACE) return [];
    return [
      {
        limit: 'bend',
        valueMm: tightestBendMm,
        limitMm: hose.minBendRadiusMm,
        text: `bends to ${tightestBendMm} mm; ${hose.name} allows ${hose.minBendRadiusMm} mm`,
      },
    ];
  });
}

const slackNotes = (taken: Way | TakenWay): WayNote[] =>
  taken.pieces.flatMap((piece) => {
    const spare = piece['slackPercent'];
    return typeof spare === 'number' && spare < SPARE_PERCENT - 0.1 ? [slackNote(spare)] : [];
  });

const numberOr = (value: unknown, other: number): number =>
  typeof value === 'number' && Number.isFinite(value) ? value : other;
const listOf = <T>(value: unknown): readonly T[] => (Array.isArray(value) ? (value as T[]) : []);

/** What was decided of an end; a car file written by hand may say less of it than the planner does. */
/** How a taken way lies and what it is made up of, without judging it. */
export const laidWay = (line: Line, { ends, bodies }: Way | TakenWay): Pick<Way, 'ends' | 'bodies'> => ({
  ends: [writtenEnd(ends[0], line.from), writtenEnd(ends[1], line.to)],
  bodies: bodies as Way['bodies'],
});

function writtenEnd(end: TakenWay['ends'][number] | WayEnd | undefined, port: string): WayEnd {
  const said = (end ?? {}) as Partial<WayEnd>;
  return {
    parts: [],
    words: '',
    clockHow: '',
    tightening: [],
    angleDeg: 0,
    ...said,
    port: said.port ?? port,
    makeUp: listOf<string>(said.makeUp),
    clockDeg: said.clockDeg ?? null,
  };
}

function writtenPiece(piece: TakenWay['pieces'][number] | WayPiece): WayPiece {
  const said = piece as Partial<WayPiece>;
  return {
    ...said,
    cutLengthMm: said.cutLengthMm ?? 0,
    allowanceMm: said.allowanceMm ?? [0, 0],
    odMm: said.odMm ?? 0,
    minBendRadiusMm: said.minBendRadiusMm ?? 0,
    tightestBendMm: said.tightestBendMm ?? 0,
    endToEndDeg: said.endToEndDeg ?? null,
  };
}
