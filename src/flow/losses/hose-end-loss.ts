import { threeConstantFittings } from './fitting-coefficients.ts';
import { suddenContraction, suddenExpansion } from './bore-steps.ts';
import { boreAreaM2, linearQuadraticLaw } from './linear-quadratic.ts';
import { laminarFrictionFactor } from './friction-factor.ts';
import type { Flowing, Loss } from './loss.ts';
import { needFluid, needPositive, needWithin } from '../flow-error.ts';

/** A hose end or an adapter as the fluid sees it: a narrower bore with an angle, between two wider ones. */
export interface HoseEnd {
  readonly where: string;
  /** The bore at its first end (the hose, or the line before). */
  readonly firstBoreM: number;
  /** Its own narrowest bore. */
  readonly boreM: number;
  /** The bore at its second end (the port, or the line behind). */
  readonly secondBoreM: number;
  /** How far it bends: 0 straight, 45, 90, up to 180. */
  readonly angleDeg: number;
  /** Along its own bore [m]; absent: three bores. */
  readonly lengthM?: number;
}

/** A cast or mitred end against a long mandrel-bent one, and bores only roughly known: common practice, no source. */
const endTimes = [0.5, 2] as const;
/** K of a step in bore at rest is this over Re: of the order of 30 in handbooks, from memory. */
const stepSlow = 30;
const mPerIn = 0.0254;
/** The least size the three constants were fitted to; below it they are held. */
const leastNominalIn = 0.5;
const usualLengthBores = 3;
/** Centreline radius of a usual bent end, in bores: common practice, no source. */
const arcBores = 1.5;

const elbow = (id: string) => threeConstantFittings.find((row) => row.id === id)!;
const elbow90 = elbow('elbow-90-flanged');
const elbow180 = elbow('elbow-180-flanged');
const mitre45 = elbow('mitre-45');

/** Slow and fast constants of an end's own angle, straight lines between 0, 45, 90 and 180 degrees. */
function angleConstants(angleDeg: number, boreM: number): { readonly slow: number; readonly fast: number } {
  const size = Math.max(leastNominalIn, boreM / mPerIn) ** 0.3;
  const rows = [
    { at: 0, slow: 0, fast: 0 },
    ...[mitre45, elbow90, elbow180].map((row, i) => ({
      at: [45, 90, 180][i]!,
      slow: row.k1,
      fast: row.ki * (1 + row.kd / size),
    })),
  ];
  const next = Math.max(
    1,
    rows.findIndex((row) => row.at >= angleDeg),
  );
  const a = rows[next - 1]!;
  const b = rows[next]!;
  const share = (angleDeg - a.at) / (b.at - a.at);
  return { slow: a.slow + share * (b.slow - a.slow), fast: a.fast + share * (b.fast - a.fast) };
}

/** K of passing from one bore to another, on the velocity in the narrower of the two, and the narrower bore. */
function step(fromM: number, toM: number): number {
  return fromM > toM ? suddenContraction(toM / fromM) : suddenExpansion(fromM / toM);
}

/**
 * A hose end or adapter: into its bore, round its angle, out of its bore. Uncertain by a factor two; a measured part
 * (`measuredLoss`) takes its place.
 */
export function hoseEndLoss(end: HoseEnd): Loss {
  const { where, boreM, angleDeg } = end;
  for (const [what, bore] of [
    ['bore', boreM],
    ['bore at the first end', end.firstBoreM],
    ['bore at the second end', end.secondBoreM],
  ] as const)
    needPositive(`${where}, ${what}`, bore, 'm');
  needWithin(`${where}, angle`, angleDeg, 0, 180, 'deg');
  const lengthM = end.lengthM ?? usualLengthBores * boreM;
  needPositive(`${where}, length`, lengthM, 'm');
  const constants = endConstants(end, lengthM);
  return {
    where,
    under: (fluid) => hoseEndLaw(where, constants, fluid),
    times: endTimes,
    source: 'darby-1999',
    known: 'practice',
  };
}

/** What of an end's law hangs on its shape alone: times viscosity, and times density either way. */
interface EndConstants {
  readonly perViscosity: number;
  readonly forward: number;
  readonly backward: number;
}

const headPerDensity = (boreM: number): number => 1 / (2 * boreAreaM2(boreM) ** 2);
const slowPerViscosity = (boreM: number): number => 1 / (2 * boreM * boreAreaM2(boreM));

function endConstants(end: HoseEnd, lengthM: number): EndConstants {
  const { boreM } = end;
  const angle = angleConstants(end.angleDeg, boreM);
  const steps = [end.firstBoreM, end.secondBoreM].map((outer) => {
    const bore = Math.min(outer, boreM);
    const changes = outer === boreM ? 0 : 1;
    return {
      slow: changes * stepSlow * slowPerViscosity(bore),
      inward: step(outer, boreM) * headPerDensity(bore),
      outward: step(boreM, outer) * headPerDensity(bore),
    };
  });
  // The three constants of a bend hold the friction of its own arc; the neck and socket beside it have theirs.
  const straightBores = Math.max(0, lengthM / boreM - arcBores * ((end.angleDeg * Math.PI) / 180));
  const friction = laminarFrictionFactor(1) * straightBores;
  const quick = (angle.fast + straightFast * straightBores) * headPerDensity(boreM);
  const [first, second] = steps as [(typeof steps)[0], (typeof steps)[0]];
  return {
    perViscosity: first.slow + second.slow + (angle.slow + friction) * slowPerViscosity(boreM),
    forward: first.inward + second.outward + quick,
    backward: second.inward + first.outward + quick,
  };
}

function hoseEndLaw(where: string, { perViscosity, forward, backward }: EndConstants, fluid: Flowing) {
  needFluid(where, fluid);
  const { densityKgM3, viscosityPaS } = fluid;
  return linearQuadraticLaw(where, perViscosity * viscosityPaS, forward * densityKgM3, backward * densityKgM3);
}

/** Darcy friction factor of a short machined bore in turbulent flow: 0.02 to 0.03, common practice. */
const straightFast = 0.025;
