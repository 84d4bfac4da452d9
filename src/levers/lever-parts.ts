import { type Car, keepOffs, type Lever, type Mover, type Part, TAPE_KNOWN_TO_MM } from '#car';
import { distance, type Vec } from '#geometry';
import { cablePath } from './cable-path.ts';
import { limits } from './limits.ts';

/** What the levers of a car are as parts and movers, so that whatever keeps off parts keeps off them. */
export interface LeverParts {
  /** One for each lever with a shape, with its id; it moves with the mover of the same id. */
  readonly parts: readonly Part[];
  readonly movers: readonly Mover[];
  /** One for each cable, named "lever-cable": it stands still. */
  readonly cableParts: readonly Part[];
  /** Those of them that were measured as they lie. */
  readonly laidCables: readonly Part[];
}

/** Levers as moving parts of the car, at rest, each with its swing; their cables as fixed ones. */
export function leverParts(car: Pick<Car, 'levers'>): LeverParts {
  const levers = car.levers ?? [];
  const shaped = levers.filter((lever) => (lever.shapes ?? []).length > 0);
  const cables = levers.flatMap((lever) =>
    (lever.cables ?? []).map((cable) => ({ cable, part: cablePart(lever, cable) })),
  );
  return {
    parts: shaped.map(leverPart),
    movers: shaped.map(leverMover),
    cableParts: cables.map(({ part }) => part),
    laidCables: cables.flatMap(({ cable, part }) => (cable.laid === true ? [part] : [])),
  };
}

const leverPart = (lever: Lever): Part => ({
  id: lever.id,
  name: lever.name ?? lever.id,
  class: 'moving',
  knownToMm: lever.knownToMm ?? TAPE_KNOWN_TO_MM,
  movesWith: lever.id,
  ...(lever.clearMm === undefined ? {} : { keepOffMm: lever.clearMm }),
  shapes: (lever.shapes ?? []).map((tube) => ({ tube })),
  ports: [],
});

const leverMover = ({ id, name, pivotMm, axis, turnDeg }: Lever): Mover => ({
  id,
  name: `Swing of ${name ?? id}`,
  pivotMm,
  axis,
  turnDeg,
});

/** A bend of the conduit is drawn by chords no longer than this [mm]: at 200 mm radius they stand 0.5 off. */
const CHORD_MM = 28;

function cablePart(lever: Lever, cable: NonNullable<Lever['cables']>[number]): Part {
  const { pointsMm } = cablePath(cable.pathMm, cable.leastRadiusMm ?? limits.cableRadiusMm.value);
  const points = thinned(pointsMm).map((at): [number, number, number] => [at[0], at[1], at[2]]);
  return {
    id: `${lever.id}-${cable.id}`,
    name: cable.name ?? cable.id,
    class: 'fixed',
    knownToMm: lever.knownToMm ?? TAPE_KNOWN_TO_MM,
    shapes: [{ tube: { pointsMm: points, radiusMm: cable.odMm / 2 } }],
    finish: 'rubber',
    ...(cable.standsC === undefined ? {} : { standsC: cable.standsC }),
    ports: [],
  };
}

/** Every point but those that follow the one before closely. */
function thinned(points: readonly Vec[]): readonly Vec[] {
  const out: Vec[] = [points[0]!];
  let along = 0;
  for (let i = 1; i < points.length; i++) {
    along += distance(points[i - 1]!, points[i]!);
    const next = points[i + 1];
    if (next === undefined || along >= CHORD_MM || distance(points[i]!, next) > CHORD_MM) {
      out.push(points[i]!);
      along = 0;
    }
  }
  return out;
}

/** Gap wanted round the swing of a lever [mm]. */
export const leverClearMm = (car: Pick<Car, 'keepOffMm'>, lever: Lever): number =>
  lever.clearMm ?? keepOffs(car).moving;
