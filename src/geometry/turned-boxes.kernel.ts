import { BLOCK_SLOTS_AT, BLOCK_WORDS, HALVES_AT, LINKS_AT, type MeshBvh, NO_CHILD, NODE_WORDS } from './bvh-layout.ts';

/**
 * The nodes of a tree once more for the compiled search, their boxes turned to lie along the surface. Round the closest point of a
 * far query the boxes that cannot be told from nearest reach out as far as their thickness lets them: along the axes that is their
 * width, turned it is the roughness of the surface.
 *
 * A turned node is two cache lines: the first as in the tree, in units and axes of its own, a link >= 0 the word offset of a turned
 * node; the second sixteen float32: what x, y and z (from the tree's origin, mm) each add to the place in units (three and nothing),
 * then where the origin lies in units, and the unit squared [mm^2].
 */
export const TURNED_WORDS = 32;
const PLACE_AT = 16;
/** Nodes of more triangles than this keep to the axes: they are few, and seldom flat. */
const MOST_TRIANGLES = 512;
/** Units from the middle of a node to its sides: what int16 holds, less room for rounding. */
const UNITS = 32000;
/** Of the tree's unit: far finer than float32 tells places, and coarse enough that no square of a distance leaves it. */
const LEAST_UNIT = 1e-3;
/** Where the boxes of missing children go: a corner, so that they come last. */
const CORNER = 32767;
/** A box a twentieth of a unit larger: far more than rounding in its making takes. */
const LET_OUT = 0.05;
/** Steps of the power iteration; what the normal lacks makes boxes a little thicker, no more. */
const STEPS = 8;
/** xx, yy, zz, xy, xz, yz: each triangle's normal times itself, times its area. */
const TENSOR = 6;

type Tree = Pick<
  MeshBvh,
  'origin' | 'unitMm' | 'middles' | 'halves' | 'links' | 'blockSlots' | 'corners' | 'cornersLow'
>;

/** Fills `out`, TURNED_WORDS for each node of the tree. */
export function fillTurned(tree: Tree, out: Int32Array): void {
  const { links } = tree;
  const nodes = links.length / NODE_WORDS;
  const tensors = new Float64Array(nodes * TENSOR);
  const firsts = new Uint32Array(nodes);
  const ends = new Uint32Array(nodes);
  const turn = makeTurner(tree, out);
  const from = new Uint32Array(4);
  const to = new Uint32Array(4);
  // Children have higher offsets than their node, so backwards every child is done before its node.
  for (let node = nodes - 1; node >= 0; node--) {
    let first = 0xffffffff;
    let end = 0;
    for (let k = 0; k < 4; k++) {
      const link = links[node * NODE_WORDS + LINKS_AT + k]!;
      from[k] = to[k] = 0;
      if (link === NO_CHILD) continue;
      if (link >= 0) {
        const child = link / NODE_WORDS;
        from[k] = firsts[child]!;
        to[k] = ends[child]!;
        for (let i = 0; i < TENSOR; i++) tensors[node * TENSOR + i]! += tensors[child * TENSOR + i]!;
      } else {
        const packed = tree.blockSlots[~link * BLOCK_WORDS + BLOCK_SLOTS_AT]!;
        from[k] = packed >>> 2;
        to[k] = from[k]! + (packed & 3) + 1;
        addNormals(tree.corners, from[k]!, to[k]!, tensors, node * TENSOR);
      }
      first = Math.min(first, from[k]!);
      end = Math.max(end, to[k]!);
    }
    firsts[node] = first;
    ends[node] = end;
    turn(node, from, to, end - first <= MOST_TRIANGLES ? normalOf(tensors, node * TENSOR) : null);
  }
}

function addNormals(corners: Float32Array, from: number, to: number, out: Float64Array, at: number): void {
  for (let o = from * 9; o < to * 9; o += 9) {
    const ux = corners[o + 3]! - corners[o]!;
    const uy = corners[o + 4]! - corners[o + 1]!;
    const uz = corners[o + 5]! - corners[o + 2]!;
    const vx = corners[o + 6]! - corners[o]!;
    const vy = corners[o + 7]! - corners[o + 1]!;
    const vz = corners[o + 8]! - corners[o + 2]!;
    const x = uy * vz - uz * vy;
    const y = uz * vx - ux * vz;
    const z = ux * vy - uy * vx;
    const twiceArea = Math.sqrt(x * x + y * y + z * z);
    if (!(twiceArea > 0)) continue;
    out[at]! += (x * x) / twiceArea;
    out[at + 1]! += (y * y) / twiceArea;
    out[at + 2]! += (z * z) / twiceArea;
    out[at + 3]! += (x * y) / twiceArea;
    out[at + 4]! += (x * z) / twiceArea;
    out[at + 5]! += (y * z) / twiceArea;
  }
}

const normal = new Float64Array(3);

/** The direction most normals have, as a unit vector, or null where there is no telling. Good until the next call. */
function normalOf(t: Float64Array, at: number): Float64Array | null {
  const [xx, yy, zz] = [t[at]!, t[at + 1]!, t[at + 2]!];
  const [xy, xz, yz] = [t[at + 3]!, t[at + 4]!, t[at + 5]!];
  // The longest row to begin with: it cannot be square to the longest axis.
  let [x, y, z] = xx >= yy && xx >= zz ? [xx, xy, xz] : yy >= zz ? [xy, yy, yz] : [xz, yz, zz];
  for (let step = 0; step < STEPS; step++) {
    const length = Math.sqrt(x * x + y * y + z * z);
    if (!(length > 0)) return null;
    x /= length;
    y /= length;
    z /= length;
    const nx: number = xx * x + xy * y + xz * z;
    const ny: number = xy * x + yy * y + yz * z;
    z = xz * x + yz * y + zz * z;
    x = nx;
    y = ny;
  }
  const length = Math.sqrt(x * x + y * y + z * z);
  if (!(length > 0) || !Number.isFinite(length)) return null;
  normal[0] = x / length;
  normal[1] = y / length;
  normal[2] = z / length;
  return normal;
}

/** Writes nodes: turned with one axis along `along` where that makes the boxes of its children smaller, else as in the tree. */
function makeTurner(tree: Tree, out: Int32Array) {
  const { origin, unitMm, middles, halves, links, corners, cornersLow } = tree;
  const shortsOf = new Int16Array(out.buffer, out.byteOffset, out.length * 2);
  const floats = new Float32Array(out.buffer, out.byteOffset, out.length);
  const r = new Float64Array(9);
  /** Least and most along the three axes of each child [mm from the tree's origin]. */
  const boxes = new Float64Array(24);
  const whole = new Float64Array(6);

  const asInTree = (node: number): void => {
    const at = node * TURNED_WORDS;
    for (let i = 0; i < HALVES_AT; i++) {
      shortsOf[at * 2 + i] = middles[node * NODE_WORDS * 2 + i]!;
      shortsOf[at * 2 + HALVES_AT + i] = halves[node * NODE_WORDS * 2 + HALVES_AT + i]!;
    }
    for (let axis = 0; axis < 3; axis++) floats[at + PLACE_AT + axis * 5] = 1 / unitMm;
    floats[at + PLACE_AT + 15] = unitMm * unitMm;
  };
  /** Half the surface of the children's boxes in the tree [mm^2]. */
  const areaInTree = (node: number): number => {
    let sum = 0;
    for (let k = 0; k < 4; k++) {
      const o = node * NODE_WORDS * 2 + HALVES_AT + k;
      if (links[node * NODE_WORDS + LINKS_AT + k] === NO_CHILD) continue;
      const [a, b, c] = [halves[o]!, halves[o + 4]!, halves[o + 8]!];
      sum += a * b + b * c + c * a;
    }
    return sum * 4 * unitMm * unitMm;
  };
  /** Axes along the normal, then along the side of the tree's axis most square to it. */
  const setAxes = (n: Float64Array): void => {
    const [x, y, z] = [n[0]!, n[1]!, n[2]!];
    const [ax, ay, az] = [Math.abs(x), Math.abs(y), Math.abs(z)];
    const i = ax <= ay && ax <= az ? 0 : ay <= az ? 1 : 2;
    const along = n[i]!;
    const per = 1 / Math.sqrt(1 - along * along);
    for (let k = 0; k < 3; k++) r[3 + k] = ((k === i ? 1 : 0) - along * n[k]!) * per;
    r[0] = x;
    r[1] = y;
    r[2] = z;
    r[6] = y * r[5]! - z * r[4]!;
    r[7] = z * r[3]! - x * r[5]!;
    r[8] = x * r[4]! - y * r[3]!;
  };
  /** The box of slots [from, to) along the axes in `r`, to boxes[b ... b + 6). */
  const boxOf = (from: number, to: number, b: number): void => {
    const [r0, r1, r2, r3, r4, r5, r6, r7, r8] = r as unknown as number[] as [
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    const [ox, oy, oz] = origin;
    const hasLow = cornersLow.length > 0;
    let [u0, v0, w0, u1, v1, w1] = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
    for (let o = from * 9; o < to * 9; o += 3) {
      let x = corners[o]! - ox;
      let y = corners[o + 1]! - oy;
      let z = corners[o + 2]! - oz;
      if (hasLow) {
        x += cornersLow[o]!;
        y += cornersLow[o + 1]!;
        z += cornersLow[o + 2]!;
      }
      const u = r0 * x + r1 * y + r2 * z;
      const v = r3 * x + r4 * y + r5 * z;
      const w = r6 * x + r7 * y + r8 * z;
      if (u < u0) u0 = u;
      if (u > u1) u1 = u;
      if (v < v0) v0 = v;
      if (v > v1) v1 = v;
      if (w < w0) w0 = w;
      if (w > w1) w1 = w;
    }
    boxes[b] = u0;
    boxes[b + 1] = v0;
    boxes[b + 2] = w0;
    boxes[b + 3] = u1;
    boxes[b + 4] = v1;
    boxes[b + 5] = w1;
  };
  /** Works out the boxes of the children along the axes in `r`; returns half their surface [mm^2]. */
  const measure = (from: Uint32Array, to: Uint32Array): number => {
    let sum = 0;
    whole.fill(Infinity, 0, 3);
    whole.fill(-Infinity, 3);
    for (let k = 0; k < 4; k++) {
      if (from[k] === to[k]) continue;
      const b = k * 6;
      boxOf(from[k]!, to[k]!, b);
      const [x, y, z] = [boxes[b + 3]! - boxes[b]!, boxes[b + 4]! - boxes[b + 1]!, boxes[b + 5]! - boxes[b + 2]!];
      sum += x * y + y * z + z * x;
      for (let i = 0; i < 3; i++) {
        if (boxes[b + i]! < whole[i]!) whole[i] = boxes[b + i]!;
        if (boxes[b + 3 + i]! > whole[3 + i]!) whole[3 + i] = boxes[b + 3 + i]!;
      }
    }
    return sum;
  };
  const turned = (node: number, from: Uint32Array, to: Uint32Array): void => {
    const at = node * TURNED_WORDS;
    const half = Math.max(whole[3]! - whole[0]!, whole[4]! - whole[1]!, whole[5]! - whole[2]!) / 2;
    const unit = Math.max(half / UNITS, unitMm * LEAST_UNIT);
    for (let axis = 0; axis < 3; axis++) {
      const middle = (whole[axis]! + whole[3 + axis]!) / 2;
      for (let i = 0; i < 3; i++) floats[at + PLACE_AT + i * 4 + axis] = r[axis * 3 + i]! / unit;
      floats[at + PLACE_AT + 12 + axis] = -middle / unit;
      for (let k = 0; k < 4; k++) {
        if (from[k] === to[k]) continue;
        const low = (boxes[k * 6 + axis]! - middle) / unit;
        const high = (boxes[k * 6 + 3 + axis]! - middle) / unit;
        const centre = Math.round((low + high) / 2);
        shortsOf[at * 2 + axis * 4 + k] = centre;
        shortsOf[at * 2 + HALVES_AT + axis * 4 + k] = Math.ceil(Math.max(high - centre, centre - low) + LET_OUT);
      }
    }
    floats[at + PLACE_AT + 15] = unit * unit;
  };

  return (node: number, from: Uint32Array, to: Uint32Array, along: Float64Array | null): void => {
    if (along !== null) {
      setAxes(along);
      if (measure(from, to) < areaInTree(node)) turned(node, from, to);
      else asInTree(node);
    } else {
      asInTree(node);
    }
    for (let k = 0; k < 4; k++) {
      const link = links[node * NODE_WORDS + LINKS_AT + k]!;
      if (link === NO_CHILD) for (let i = k; i < HALVES_AT; i += 4) shortsOf[node * TURNED_WORDS * 2 + i] = CORNER;
      out[node * TURNED_WORDS + LINKS_AT + k] = link > 0 ? link * (TURNED_WORDS / NODE_WORDS) : link;
    }
  };
}
