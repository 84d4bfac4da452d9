import { type Bay, type BayPart, bay, poses, solidsSeenFrom } from '#bay';
import { type Car, keepOffs, type Lever, partKeepOffMm, TAPE_KNOWN_TO_MM } from '#car';
import type { TriangleMesh } from '#geometry';
import {
  cableGapFindings,
  cableGaps,
  type CableGap,
  type LeverAnswer,
  leverAnswer,
  leverClearMm,
  leverParts,
  type Obstacle,
  sweepFindings,
  type SweepGap,
  sweepGaps,
} from '#levers';
import { type BodiesByLine, bodiesByLine } from './bodies-by-line.ts';
import { cableLineFindings, cableLineGaps } from './cable-lines.ts';

/** A lever with what stands round its swing and its cables. */
export interface LeverInCar extends LeverAnswer {
  readonly sweep: readonly SweepGap[];
  readonly cableGaps: readonly CableGap[];
}

/** What a lever of the car does, what it comes near to, and what is open about it; cables are held against lines as they lie. */
export function leverOf(
  car: Car,
  meshes: ReadonlyMap<string, TriangleMesh>,
  lever: Lever,
  bodies: BodiesByLine = bodiesByLine(car),
): LeverInCar {
  return inBay(bay(car, meshes), car, lever, bodies);
}

/** Every lever of the car. */
export function leversOf(
  car: Car,
  meshes: ReadonlyMap<string, TriangleMesh>,
  bodies: BodiesByLine = bodiesByLine(car),
): readonly LeverInCar[] {
  const levers = car.levers ?? [];
  if (levers.length === 0) return [];
  const space = bay(car, meshes);
  return levers.map((lever) => inBay(space, car, lever, bodies));
}

function inBay(space: Bay, car: Car, lever: Lever, bodies: BodiesByLine): LeverInCar {
  const answer = leverAnswer(car, lever);
  const others = space.parts.filter((part) => !isOwn(car, lever, part));
  const laid = new Set(leverParts(car).laidCables.map(({ id }) => id));
  const round = others.map((part) => obstacle(space, part, Math.max(leverClearMm(car, lever), hotMm(car, part))));
  // What goes through a panel is cut into it: a slot for the lever, a hole for its cable.
  const panels = new Set(car.panels?.map(({ id }) => id));
  const isCut = (row: SweepGap | CableGap): boolean => panels.has(row.part) && row.gapMm < 0;
  const sweep = sweepGaps(lever, round).filter((row) => !isCut(row));
  const known = lever.knownToMm ?? TAPE_KNOWN_TO_MM;
  const cables = [...new Map(answer.outputs.flatMap((row) => row.cables).map((row) => [row.cable, row])).values()];
  const near = cables.map((cable) => {
    const own = lever.cables?.find(({ id }) => id === cable.cable);
    const crossed = new Set(own?.crossing?.map(({ part }) => part));
    const things = others
      // Cables are tied to each other.
      .filter(({ id }) => !crossed.has(id) && !laid.has(id))
      .map((part) =>
        obstacle(
          space,
          part,
          own?.keepOffMm !== undefined && part.class === 'hot' ? own.keepOffMm : cableMm(car, part),
        ),
      );
    const gaps = cableGaps(cable, known, things).filter((row) => !isCut(row));
    return { cable, things, gaps, lines: own?.laid === true ? [] : cableLineGaps(car, cable, known, bodies) };
  });
  return {
    ...answer,
    sweep,
    cableGaps: near.flatMap(({ gaps, lines }) => [...gaps, ...lines]),
    findings: [
      ...answer.findings,
      ...sweepFindings(lever, sweep),
      ...near.flatMap(({ cable, things, gaps, lines }) => [
        ...cableGapFindings(lever, cable, gaps, things),
        ...cableLineFindings(lever, cable, lines),
      ]),
    ],
  };
}

/** The lever itself, the cylinder it pushes, what its rods and cables move. */
function isOwn(car: Car, lever: Lever, part: BayPart): boolean {
  const ends = [...(lever.rods ?? []), ...(lever.cables ?? [])].map(({ to }) => to.mover ?? to.lever);
  const cables = (lever.cables ?? []).map(({ id }) => `${lever.id}-${id}`);
  const own = [lever.id, ...cables, ...(lever.cylinders ?? []).map((row) => row.part), ...ends];
  // Another lever on the same pivot, such as the same stick across its gate, is the same piece.
  const same = car.levers?.filter((row) => row.pivotMm.every((x, i) => x === lever.pivotMm[i])).map(({ id }) => id);
  return (
    own.includes(part.id) || (part.moverId !== null && ends.includes(part.moverId)) || same?.includes(part.id) === true
  );
}

/** Cables keep off as water lines do: the duty only matters for fuel and brakes. */
const cableMm = (car: Car, { part }: BayPart): number => partKeepOffMm(car, part, 'water');
const hotMm = (car: Car, part: BayPart): number => (part.class === 'hot' ? keepOffs(car).hotShielded : 0);

function obstacle(space: Bay, part: BayPart, wantMm: number): Obstacle {
  const mover = part.moverId === null ? undefined : space.movers.get(part.moverId);
  const shielded = keepOffs(space.car).hotShielded;
  return {
    id: part.id,
    name: part.name,
    class: part.class,
    knownToMm: part.knownToMm,
    poses: mover === undefined ? [part.solids] : poses(mover).map((pose) => solidsSeenFrom(part, null, pose)),
    wantMm,
    ...(part.class === 'hot' && part.part.shielded !== true && shielded < wantMm ? { shieldedMm: shielded } : {}),
  };
}
