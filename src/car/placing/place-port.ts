import { dot, type Vec } from '#geometry';
import type { Fault } from '../fault.ts';
import type { Origin, Reading } from '../schema/car.ts';
import { TAPE_KNOWN_TO_MM } from '../usual-tolerance.ts';
import type { PointFit, Sighting } from './fit-point.ts';
import { fitPoint, sightingMiss } from './fit-point.ts';
import { sift } from './sift.ts';
import type { ReadingMiss, SolvedOrigin } from './solved-origin.ts';
import { EXACT_MM } from './solved-origin.ts';

/** How a measured point came out. */
export interface PointReport {
  /** The port as "part.port". */
  readonly port: string;
  readonly atMm: Vec;
  readonly knownToMm: number;
  readonly readings: readonly ReadingMiss[];
  /** Root mean square of the residuals that took part [mm]. */
  readonly rmsMm: number;
  readonly remarks: readonly string[];
}

export interface KnownOrigins {
  readonly solved: ReadonlyMap<string, SolvedOrigin>;
  readonly marks: ReadonlyMap<string, Origin['points'][number]>;
}

/** A point is not placed by readings that leave it looser than this [mm]. */
const LOOSEST_MM = 250;
const AXES = { xMm: [1, 0, 0], yMm: [0, 1, 0], zMm: [0, 0, 1] } as const satisfies Record<string, Vec>;

/** A point in car axes from its readings, by least squares, with what does not agree. */
export function placePort(
  port: string,
  readings: readonly Reading[],
  origins: KnownOrigins,
  place: string,
): PointReport | Fault {
  const usable: readonly { readonly reading: Reading; readonly i: number }[] = readings.map((reading, i) => ({
    reading,
    i,
  }));
  const sightingsOf = (some: readonly { readonly reading: Reading; readonly i: number }[], near?: Vec) =>
    some.flatMap(({ reading, i }) => sightings(reading, i, origins, near));
  if (sightingsOf(usable).length < 3) return loose(sightingsOf(usable), place);
  const rough = fitPoint(sightingsOf(usable));
  if (rough.other !== undefined) return loose(sightingsOf(usable), place);
  const fitOf = (some: typeof usable): PointFit | undefined => {
    const sighted = sightingsOf(some, rough.atMm);
    if (sighted.length < 3) return undefined;
    const fit = fitPoint(sighted, [rough.atMm]);
    return fit.knownToMm < LOOSEST_MM ? fit : undefined;
  };
  const sifted = sift(usable, fitOf, (item, fit) =>
    Math.max(
      ...sightingsOf([item], fit.atMm).map(
        (s) => Math.abs(sightingMiss(s, fit.atMm)) / Math.hypot(s.knownToMm, fit.knownToMm),
      ),
    ),
  );
  if (sifted === undefined) return loose(sightingsOf(usable), place);
  const { fit, apart, quarrel } = sifted;
  const misses = usable.map((item): ReadingMiss => {
    const own = sightingsOf([item], fit.atMm);
    return {
      name: nameOf(item.reading, item.i),
      residualMm: Math.hypot(...own.map((s) => sightingMiss(s, fit.atMm))),
      knownToMm: Math.max(EXACT_MM, item.reading.knownToMm ?? TAPE_KNOWN_TO_MM),
      disagrees: apart.includes(item),
    };
  });
  const took = misses.filter((miss) => !miss.disagrees);
  const rmsMm = Math.sqrt(took.reduce((sum, miss) => sum + miss.residualMm ** 2, 0) / took.length);
  const remarks = misses
    .filter((miss) => miss.disagrees)
    .map(
      (miss) =>
        `${port}: ${miss.name} is ${miss.residualMm.toFixed(0)} mm from where the other readings put the point (known to ${miss.knownToMm} mm): measure it again; it is left out`,
    );
  if (quarrel)
    remarks.push(
      `${port}: the readings do not agree (${rmsMm.toFixed(0)} mm rms), and there are too few to tell which is wrong: measure again, or from one more point`,
    );
  return { port, atMm: fit.atMm, knownToMm: fit.knownToMm, readings: misses, rmsMm, remarks };
}

function loose(all: readonly Sighting[], place: string): Fault {
  if (all.length < 3)
    return {
      place,
      stands: `readings that give ${all.length} number${all.length === 1 ? '' : 's'}`,
      allowed: 'at least three, in three different directions',
    };
  const fit = fitPoint(all);
  const at = (p: Vec) => `[${p.map((v) => v.toFixed(0)).join(', ')}]`;
  if (fit.other !== undefined) {
    return {
      place,
      stands: `readings that fit two places, ${at(fit.atMm)} and ${at(fit.other)}`,
      allowed: 'one more reading that tells them apart; a rough zMm with "knownToMm": 100 will do',
    };
  }
  const way = fit.loosest.map((v) => (Math.abs(v) < 0.05 ? 0 : v).toFixed(1)).join(', ');
  return {
    place,
    stands: `readings that leave the point loose along [${way}]`,
    allowed: 'readings in three different directions; one more along that way',
  };
}

function nameOf(reading: Reading, i: number): string {
  const what = Object.keys(reading)
    .filter((key) => key.endsWith('Mm') && key !== 'knownToMm')
    .join(', ');
  return `reading ${i + 1} (${what}${reading.from === undefined ? '' : ` from ${reading.from}`})`;
}

/** What a reading says about the point. How well the origin carries there depends on where that is, once it is roughly known. */
function sightings(reading: Reading, index: number, origins: KnownOrigins, near: Vec | undefined): Sighting[] {
  const own = Math.max(EXACT_MM, reading.knownToMm ?? TAPE_KNOWN_TO_MM);
  if (reading.distanceMm !== undefined) {
    const mark = origins.marks.get(reading.from ?? '');
    return mark === undefined
      ? []
      : [
          {
            reading: index,
            centre: mark.atMm,
            valueMm: reading.distanceMm,
            knownToMm: Math.hypot(own, mark.knownToMm ?? TAPE_KNOWN_TO_MM),
          },
        ];
  }
  const out: Sighting[] = [];
  const sight = (along: Vec, valueMm: number, variance: number) =>
    out.push({ reading: index, along, valueMm, knownToMm: Math.sqrt(own ** 2 + variance) });
  for (const key of ['xMm', 'yMm', 'zMm'] as const) if (reading[key] !== undefined) sight(AXES[key], reading[key], 0);
  const origin = origins.solved.get(reading.from ?? '');
  if (origin === undefined) return out;
  const variance = (along: Vec) => (near === undefined ? 0 : origin.variance(near, along));
  if (origin.frame !== undefined && reading.readMm !== undefined) {
    const { rows, shift } = origin.frame;
    reading.readMm.forEach((value, j) => {
      const axis: Vec = [rows[0][j]!, rows[1][j]!, rows[2][j]!];
      sight(axis, value + dot(axis, shift), variance(axis));
    });
  }
  if (origin.edge !== undefined) {
    const { start, along, out: side, down } = origin.edge;
    for (const [axis, value] of [
      [along, reading.alongMm],
      [side, reading.outMm],
      [down, reading.downMm],
    ] as const) {
      if (value !== undefined) sight(axis, value + dot(axis, start), variance(axis));
    }
  }
  if (origin.level !== undefined && reading.downMm !== undefined)
    sight(origin.level.up, origin.level.offsetMm - reading.downMm, variance(origin.level.up));
  return out;
}
