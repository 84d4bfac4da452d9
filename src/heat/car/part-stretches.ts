import type { BayPart } from '#bay';
import type { Car } from '#car';
import { addScaled, capsule, distance, joined, type Solid, sub, type Vec } from '#geometry';
import { leverParts } from '#levers';
import { controlCableLimit } from '#standards';

/** A piece of a long part whose heat is worked out by itself. */
export interface PartStretch {
  /** Its solids and bounds are the stretch's; its id is told apart by the stretch, `part` is the whole part. */
  readonly part: BayPart;
  /** Its middle, along the part from its first point [mm]. */
  readonly alongMm: number;
  readonly atMm: Vec;
  readonly fromMm: Vec;
  readonly toMm: Vec;
  readonly odMm: number;
  /** What it is of the length of the whole [-]. */
  readonly share: number;
}

/** Length of a stretch [mm]; a part has no more than so many, longer ones then. */
const STRETCH_MM = 50;
const MOST_STRETCHES = 40;

/**
 * A loom, cable or rod in stretches: a part of tubes that says what it stands, and whose temperature is worked out, is as hot along its
 * length as each place of it gets. Null: any other part, which counts as one temperature.
 */
export function partStretches(part: BayPart): readonly PartStretch[] | null {
  const { part: stated, solids } = part;
  const isGiven = stated.surfaceC !== undefined || stated.keptAt !== undefined || stated.surfaceByCase !== undefined;
  if (stated.standsC === undefined || isGiven || stated.cover !== undefined || stated.ports.length > 0) return null;
  const bars = solids.flatMap(({ form }) => (form.kind === 'capsule' ? [form] : []));
  const whole = bars.reduce((sum, { a, b }) => sum + distance(a, b), 0);
  if (bars.length < solids.length || whole <= STRETCH_MM) return null;
  const most = Math.max(STRETCH_MM, whole / MOST_STRETCHES);
  const found: PartStretch[] = [];
  let along = 0;
  for (const { a, b, radiusMm } of bars) {
    const length = distance(a, b);
    const count = Math.max(1, Math.ceil(length / most - 1e-9));
    const piece = length / count;
    for (let k = 0; k < count && length > 0; k++) {
      const at = (share: number): Vec => addScaled(a, sub(b, a), share);
      const solid: Solid = capsule(at(k / count), at((k + 1) / count), radiusMm);
      found.push({
        part: {
          ...part,
          id: `${part.id}~${found.length + 1}`,
          solids: [solid],
          bounds: joined(solid.bounds, solid.bounds),
        },
        alongMm: along + piece * (k + 0.5),
        atMm: at((k + 0.5) / count),
        fromMm: at(k / count),
        toMm: at((k + 1) / count),
        odMm: 2 * radiusMm,
        share: piece / whole,
      });
    }
    along += length;
  }
  return found;
}

/** The cables of the car's levers as parts: what they stand as their rows say, else as push-pull cables are known to. */
export const cableBayParts = (car: Pick<Car, 'levers'>): readonly BayPart[] =>
  leverParts(car).cableParts.map((stated): BayPart => {
    const solids = (stated.shapes[0]?.tube?.pointsMm ?? []).flatMap((to, i, points) =>
      i === 0 ? [] : [capsule(points[i - 1]! as Vec, to as Vec, stated.shapes[0]!.tube!.radiusMm)],
    );
    return {
      id: stated.id,
      name: stated.name ?? stated.id,
      class: stated.class,
      solids,
      moverId: null,
      knownToMm: stated.knownToMm ?? 0,
      bounds: solids.length === 0 ? null : solids.map(({ bounds }) => bounds).reduce(joined),
      crossable: [],
      joinedTo: [],
      part: { ...stated, standsC: stated.standsC ?? controlCableLimit.mostC },
    };
  });
