import { addScaled, cross, distance, dot, norm, scale, sub, unit, type Vec } from '#geometry';
import { shown, type Fault } from '../fault.ts';
import type { Origin } from '../schema/car.ts';
import { TAPE_KNOWN_TO_MM } from '../usual-tolerance.ts';
import type { SolvedOrigin } from './solved-origin.ts';
import { EXACT_MM } from './solved-origin.ts';

/** Nearer together than this, two points do not give a direction worth measuring along [mm]. */
const LEAST_LENGTH_MM = 50;
/** A direction nearer to the edge than about 6 degrees cannot be made square to it [-]. */
const LEAST_SQUARE = 0.1;

/** A straightedge laid across two known points: along it, out to its side, and down from it. */
export function solveEdge(origin: Origin, place: string): SolvedOrigin | Fault {
  const [a, b] = origin.points as [Origin['points'][number], Origin['points'][number]];
  const lengthMm = distance(a.atMm, b.atMm);
  if (lengthMm < LEAST_LENGTH_MM)
    return {
      place: `${place}.points`,
      stands: `two points ${lengthMm.toFixed(1)} mm apart`,
      allowed: `two points at least ${LEAST_LENGTH_MM} mm apart`,
    };
  const along = unit(sub(b.atMm, a.atMm));
  const wanted = unit(origin.down ?? [0, 0, -1]);
  const square = addScaled(wanted, along, -dot(wanted, along));
  if (norm(square) < LEAST_SQUARE)
    return {
      place: `${place}.down`,
      stands: shown(origin.down ?? [0, 0, -1]),
      allowed: 'a direction across the straightedge, not along it',
    };
  const down = unit(square);
  const side = cross(along, down);
  const out = outward(side, origin.out);
  if (out === undefined)
    return { place: `${place}.out`, stands: shown(origin.out), allowed: 'a direction to the side of the straightedge' };
  const known = [a, b].map((point) => Math.max(EXACT_MM, point.knownToMm ?? TAPE_KNOWN_TO_MM)) as [number, number];
  return {
    id: origin.id,
    kind: 'straightedge',
    edge: { start: a.atMm, along, out, down },
    variance: (atMm) => {
      const share = dot(sub(atMm, a.atMm), along) / lengthMm;
      return ((1 - share) * known[0]) ** 2 + (share * known[1]) ** 2;
    },
    report: {
      origin: origin.id,
      kind: 'straightedge',
      readings: [a, b].map((point, i) => ({ name: point.name, residualMm: 0, knownToMm: known[i]!, disagrees: false })),
      rmsMm: 0,
      remarks: [],
    },
  };
}

/** Which of the two sides counts as out: the one the builder names, else the one nearest to rearward, right or up. */
function outward(side: Vec, named: Vec | undefined): Vec | undefined {
  if (named !== undefined) {
    const share = dot(side, unit(named));
    return Math.abs(share) < LEAST_SQUARE ? undefined : scale(side, Math.sign(share));
  }
  const greatest = side.reduce((best, value) => (Math.abs(value) > Math.abs(best) + 1e-9 ? value : best), 0);
  return scale(side, greatest < 0 ? -1 : 1);
}
