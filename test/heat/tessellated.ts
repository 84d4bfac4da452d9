import { add, addScaled, cross, norm, perpendicular, scale, type Solid, sub, type Vec } from '#geometry';

/** Triangles of solids for libraries that know nothing else: bars of `sides` sides, balls of as many by half as many. */
export function tessellated(solids: readonly Solid[], sides: number): Float32Array {
  const out: number[] = [];
  for (const { form } of solids) {
    if (form.kind === 'mesh') putMesh(out, form);
    else if (form.kind === 'box') putBox(out, form);
    else putRound(out, form, sides);
  }
  return Float32Array.from(out);
}

type Form<K extends Solid['form']['kind']> = Extract<Solid['form'], { kind: K }>;

function putMesh(out: number[], { prepared, motion }: Form<'mesh'>): void {
  const { corners } = prepared.bvh;
  for (let at = 0; at < corners.length; at += 3)
    for (const [i, row] of motion.rows.entries())
      out.push(row[0] * corners[at]! + row[1] * corners[at + 1]! + row[2] * corners[at + 2]! + motion.shift[i]!);
}

function putQuad(out: number[], a: Vec, b: Vec, c: Vec, d: Vec): void {
  out.push(...a, ...b, ...c, ...a, ...c, ...d);
}

function putBox(out: number[], { centre, axes, half }: Form<'box'>): void {
  for (const i of [0, 1, 2] as const) {
    const [j, k] = [(i + 1) % 3, (i + 2) % 3] as [0 | 1 | 2, 0 | 1 | 2];
    for (const way of [1, -1]) {
      const middle = addScaled(centre, axes[i], way * half[i]);
      const [u, v] = [scale(axes[j], way * half[j]), scale(axes[k], half[k])];
      putQuad(out, sub(sub(middle, u), v), sub(add(middle, u), v), add(add(middle, u), v), add(sub(middle, u), v));
    }
  }
}

/** Rings from one end to the other, of growing and shrinking radius where the ends are round. */
function putRound(out: number[], { kind, a, b, radiusMm }: Form<'cylinder' | 'capsule'>, sides: number): void {
  const run = sub(b, a);
  const axis: Vec = norm(run) > 0 ? scale(run, 1 / norm(run)) : [0, 0, 1];
  const e = perpendicular(axis);
  const f = cross(axis, e);
  const rings: { at: Vec; r: number }[] = [];
  const steps = Math.max(2, sides >> 2);
  if (kind === 'cylinder') rings.push({ at: a, r: 0 }, { at: a, r: radiusMm }, { at: b, r: radiusMm }, { at: b, r: 0 });
  else {
    for (let k = 0; k <= 2 * steps; k++) {
      const turn = (Math.PI * (k - steps)) / (2 * steps);
      const from = k <= steps ? a : b;
      rings.push({ at: addScaled(from, axis, radiusMm * Math.sin(turn)), r: radiusMm * Math.cos(turn) });
      if (k === steps) rings.push({ at: b, r: radiusMm });
    }
  }
  const corner = ({ at, r }: { at: Vec; r: number }, k: number): Vec => {
    const turn = (2 * Math.PI * k) / sides;
    return addScaled(addScaled(at, e, r * Math.cos(turn)), f, r * Math.sin(turn));
  };
  for (let ring = 1; ring < rings.length; ring++) {
    for (let k = 0; k < sides; k++) {
      const [p, q] = [rings[ring - 1]!, rings[ring]!];
      if (p.r > 1e-6) out.push(...corner(p, k), ...corner(p, k + 1), ...corner(q, k + 1));
      if (q.r > 1e-6) out.push(...corner(p, k), ...corner(q, k + 1), ...corner(q, k));
    }
  }
}
