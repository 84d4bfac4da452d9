import { type FrictionRule, frictionForce, type FrictionForce } from './friction-force.kernel.ts';
import { singleBendFactor } from './smooth-bend.ts';

/** One bend of a bore, in bores and radians. */
export interface BendInBores {
  readonly angleRad: number;
  readonly radiusOverBore: number;
}

/** Where the two turbulent laws of a coil hand over: Re (D/2R)^2 = 91 in the source; eased in over twice and half of it [-]. */
const handOver = 91;
const easeFrom = Math.log(handOver / 2);
const easeOver = Math.log(4);
/** Numbers per bend in the packed table. */
const stride = 8;

/**
 * The whole of a bore with its bends as one force F(Re): the drop is F mu^2/(2 rho D^2). A straight gives f Re^2 L/D. A bend
 * is the greater of the laminar law of a curved tube and of straight friction plus the excess of a smooth bend, eased by
 * powers of eight, so that the whole rises and has a slope everywhere, and is Poiseuille's law when slow.
 */
export function boreForce(
  rule: FrictionRule,
  relativeRoughness: number,
  lengthOverBore: number,
  bends: readonly BendInBores[],
): FrictionForce {
  const friction = frictionForce(rule, relativeRoughness);
  const bent = bends.reduce((sum, bend) => sum + bend.angleRad * bend.radiusOverBore, 0);
  const straight = Math.max(0, lengthOverBore - bent);
  const table = packedBends(bends);
  const part = new Float64Array(2);
  if (bends.length === 0)
    return (re, out) => {
      friction(re, out);
      out[0]! *= straight;
      out[1]! *= straight;
    };
  return (re, out) => {
    friction(re, part);
    const g = part[0]!;
    const gRise = part[1]! * re;
    out[0] = g * straight;
    out[1] = gRise * straight;
    bendForces(table, re, g, gRise, out);
    out[1]! /= re;
  };
}

/** Per bend: length, ln(sqrt(D/2R)), a 0.029 sqrt(D/2R), (a - 1) 0.3164, the K of a bend per length, twice the second. */
function packedBends(bends: readonly BendInBores[]): Float64Array {
  const table = new Float64Array(bends.length * stride);
  bends.forEach((bend, i) => {
    const length = bend.angleRad * bend.radiusOverBore;
    const angleDeg = (bend.angleRad * 180) / Math.PI;
    const a = singleBendFactor(angleDeg, bend.radiusOverBore);
    const root = Math.sqrt(0.5 / bend.radiusOverBore);
    const at = i * stride;
    table[at] = length;
    table[at + 1] = Math.log(root);
    table[at + 2] = 0.029 * a * root;
    table[at + 3] = 0.3164 * (a - 1);
    table[at + 4] = (0.00431 * a * angleDeg * bend.radiusOverBore ** 0.84) / length;
    table[at + 5] = 4 * Math.log(root);
  });
  return table;
}

/** Adds the bends to out[0] (force) and out[1] (Re times its slope). */
function bendForces(table: Float64Array, re: number, g: number, gRise: number, out: Float64Array): void {
  const poiseuille = 64 * re;
  if (re < 1e-100) {
    // At rest: the logarithm of zero is not asked for; the bends are below the last bit here.
    for (let at = 0; at < table.length; at += stride) {
      out[0]! += poiseuille * table[at]!;
      out[1]! += poiseuille * table[at]!;
    }
    return;
  }
  const lnRe = Math.log(re);
  const reSquared = re * re;
  const blasius = 1 / Math.sqrt(Math.sqrt(re));
  const bendPower = Math.exp(-0.17 * lnRe);
  for (let at = 0; at < table.length; at += stride) {
    const length = table[at]!;
    const lnDean = lnRe + table[at + 1]!;
    let ratio = 1;
    let ratioRise = 0;
    if (lnDean > 0) {
      const l = lnDean / Math.LN10;
      ratio = 1 + 0.033 * l * l * l * l;
      ratioRise = (0.132 * l * l * l) / (Math.LN10 * ratio);
    }
    const root = table[at + 2]! * reSquared;
    const wake = table[at + 3]! * blasius * reSquared;
    let excess = root + wake;
    let rise = 2 * root + 1.75 * wake;
    const where = (lnRe + table[at + 5]! - easeFrom) / easeOver;
    if (where > 0) {
      const whole = table[at + 4]! * bendPower * reSquared;
      const smooth = 0.3164 * blasius * reSquared;
      const fast = whole - smooth;
      const fastRise = 1.83 * whole - 1.75 * smooth;
      if (where >= 1) {
        excess = fast;
        rise = fastRise;
      } else {
        const weight = where * where * (3 - 2 * where);
        const apart = Math.log(fast / excess);
        const slope = (1 - weight) * (rise / excess) + weight * (fastRise / fast);
        const turn = ((6 * where * (1 - where)) / easeOver) * apart;
        excess = Math.exp(Math.log(excess) + weight * apart);
        rise = excess * (slope + turn);
      }
    }
    const u = (g + excess) / poiseuille;
    const uRise = (gRise + rise) / (g + excess) - 1;
    const r2 = ratio * ratio;
    const r8 = r2 * r2 * r2 * r2;
    const u2 = u * u;
    const u8 = u2 * u2 * u2 * u2;
    const inside = r8 + u8 - 1;
    const force = poiseuille * length * Math.sqrt(Math.sqrt(Math.sqrt(inside)));
    out[0]! += force;
    out[1]! += force * (1 + (r8 * ratioRise + u8 * uRise) / inside);
  }
}
