import { BLOCK_SLOTS_AT, BLOCK_WORDS, HALVES_AT, LINKS_AT, type MeshBvh, NO_CHILD } from './bvh-layout.ts';
import { cornerOf } from './mesh-closest.kernel.ts';
import { cross, dot, sub, type Vec } from './vec.ts';

/** Lets a ray that runs along a shared edge hit one of the two triangles rather than slip between. */
const EDGE = 1e-12;

/** How far along the unit direction the ray first meets a triangle, from either side; Infinity where not within `maxMm` [mm]. */
export function firstSlotHit(bvh: MeshBvh, origin: Vec, along: Vec, maxMm: number): number {
  const { links } = bvh;
  let best = maxMm;
  let found = Infinity;
  const local = sub(origin, bvh.origin);
  const stack: number[] = [0];
  const enter: number[] = [0];
  while (stack.length > 0) {
    const link = stack.pop()!;
    if (enter.pop()! > best) continue;
    if (link < 0) {
      const packed = bvh.blockSlots[~link * BLOCK_WORDS + BLOCK_SLOTS_AT]!;
      const first = packed >>> 2;
      for (let slot = first; slot <= first + (packed & 3); slot++) {
        const t = hitOfTriangle(bvh, slot, origin, along);
        if (t <= best) found = best = t;
      }
      continue;
    }
    const children: [number, number][] = [];
    for (let k = 0; k < 4; k++) {
      if (links[link + LINKS_AT + k] === NO_CHILD) continue;
      const t = entersBox(bvh, link * 2 + k, local, along);
      if (t <= best) children.push([t, links[link + LINKS_AT + k]!]);
    }
    children.sort((a, b) => b[0] - a[0]);
    for (const [t, child] of children) {
      enter.push(t);
      stack.push(child);
    }
  }
  return found;
}

/** Where the ray enters child box k, 0 from inside, Infinity past it. */
function entersBox(bvh: MeshBvh, k: number, origin: Vec, along: Vec): number {
  let enters = 0;
  let leaves = Infinity;
  for (let axis = 0; axis < 3; axis++) {
    const half = bvh.halves[k + HALVES_AT + axis * 4]! * bvh.unitMm;
    const off = bvh.middles[k + axis * 4]! * bvh.unitMm - origin[axis]!;
    const d = along[axis]!;
    if (d === 0) {
      if (Math.abs(off) > half) return Infinity;
      continue;
    }
    const t = off / d;
    const by = Math.abs(half / d);
    if (t - by > enters) enters = t - by;
    if (t + by < leaves) leaves = t + by;
  }
  // Rounding may shrink a flat box to nothing: a hair of room keeps it.
  return enters <= leaves * (1 + 1e-12) + 1e-12 ? enters : Infinity;
}

function hitOfTriangle(bvh: MeshBvh, slot: number, origin: Vec, along: Vec): number {
  const a = cornerOf(bvh, slot, 0);
  const u = sub(cornerOf(bvh, slot, 1), a);
  const v = sub(cornerOf(bvh, slot, 2), a);
  const h = cross(along, v);
  const det = dot(u, h);
  if (det === 0) return Infinity;
  const s = sub(origin, a);
  const fu = dot(s, h) / det;
  if (fu < -EDGE || fu > 1 + EDGE) return Infinity;
  const q = cross(s, u);
  const fv = dot(along, q) / det;
  if (fv < -EDGE || fu + fv > 1 + EDGE) return Infinity;
  const t = dot(v, q) / det;
  return t >= 0 ? t : Infinity;
}
