import { LIMITS } from './limits.ts';
import type { TriangleMesh } from '#geometry';

/** A mesh as built, with what was left out of it. */
export interface BuiltMesh {
  readonly mesh: TriangleMesh;
  /** Triangles left out because two of their corners are the same point. */
  readonly droppedDegenerate: number;
  /** What the reader left out or noticed. */
  readonly remarks: readonly string[];
}

/**
 * Takes vertices and triangles as a reader meets them, and joins vertices that are exactly equal (after scaling to
 * millimetres), so that an STL, where each triangle brings its own three points, comes out connected.
 * Memory grows with what arrives, never with what a file declares.
 */
export class MeshBuilder {
  /** What a reader wants said about the file, in plain sentences. */
  readonly remarks: string[] = [];
  readonly #scale: number;
  #positions = new Float64Array(3 * 1024);
  #vertices = 0;
  #corners = new Uint32Array(3 * 1024);
  #triangles = 0;
  #dropped = 0;
  /** Open addressing, vertex number + 1; 0 is a free place. */
  #table = new Uint32Array(4096);
  readonly #bits = new Float64Array(3);
  readonly #words = new Uint32Array(this.#bits.buffer);

  constructor(mmPerUnit: number) {
    this.#scale = mmPerUnit;
  }

  get triangleCount(): number {
    return this.#triangles;
  }

  get vertexCount(): number {
    return this.#vertices;
  }

  /** The vertex's number, or -1 when a coordinate is not finite or farther than `LIMITS.coordinateMm` out. */
  vertex(x: number, y: number, z: number): number {
    const far = LIMITS.coordinateMm;
    // "+ 0" turns -0 into 0, so that both make the same vertex
    const px = x * this.#scale + 0;
    const py = y * this.#scale + 0;
    const pz = z * this.#scale + 0;
    if (!(px >= -far && px <= far && py >= -far && py <= far && pz >= -far && pz <= far)) return -1;
    const mask = this.#table.length - 1;
    let place = this.#hash(px, py, pz) & mask;
    for (;;) {
      const found = this.#table[place]!;
      if (found === 0) break;
      const at = (found - 1) * 3;
      const p = this.#positions;
      if (p[at] === px && p[at + 1] === py && p[at + 2] === pz) return found - 1;
      place = (place + 1) & mask;
    }
    return this.#append(px, py, pz, place);
  }

  /** Adds one triangle by vertex numbers from `vertex`; one with two equal corners is counted and left out. */
  triangle(a: number, b: number, c: number): void {
    if (a === b || b === c || c === a) {
      this.#dropped++;
      return;
    }
    const at = this.#triangles * 3;
    if (at + 3 > this.#corners.length) {
      const wider = new Uint32Array(this.#corners.length * 2);
      wider.set(this.#corners);
      this.#corners = wider;
    }
    this.#corners[at] = a;
    this.#corners[at + 1] = b;
    this.#corners[at + 2] = c;
    this.#triangles++;
  }

  /** The position of a vertex already added [mm]. */
  position(vertex: number): [number, number, number] {
    const at = vertex * 3;
    return [this.#positions[at]!, this.#positions[at + 1]!, this.#positions[at + 2]!];
  }

  /** The mesh, without vertices that no triangle uses. The builder is empty afterwards. */
  finish(): BuiltMesh {
    this.#table = new Uint32Array(0);
    const indices = this.#corners.slice(0, this.#triangles * 3);
    this.#corners = new Uint32Array(0);
    const renamed = new Uint32Array(this.#vertices);
    let used = 0;
    for (let i = 0; i < indices.length; i++) {
      const v = indices[i]!;
      if (renamed[v] === 0) renamed[v] = ++used;
      indices[i] = renamed[v]! - 1;
    }
    const positions = new Float64Array(used * 3);
    for (let v = 0; v < this.#vertices; v++) {
      const to = renamed[v]!;
      if (to === 0) continue;
      positions[to * 3 - 3] = this.#positions[v * 3]!;
      positions[to * 3 - 2] = this.#positions[v * 3 + 1]!;
      positions[to * 3 - 1] = this.#positions[v * 3 + 2]!;
    }
    this.#positions = new Float64Array(0);
    return { mesh: { positions, indices }, droppedDegenerate: this.#dropped, remarks: this.remarks };
  }

  #append(px: number, py: number, pz: number, place: number): number {
    const at = this.#vertices * 3;
    if (at + 3 > this.#positions.length) {
      const wider = new Float64Array(this.#positions.length * 2);
      wider.set(this.#positions);
      this.#positions = wider;
    }
    this.#positions[at] = px;
    this.#positions[at + 1] = py;
    this.#positions[at + 2] = pz;
    this.#vertices++;
    this.#table[place] = this.#vertices;
    if (this.#vertices * 2 > this.#table.length) this.#widenTable();
    return this.#vertices - 1;
  }

  #widenTable(): void {
    const table = new Uint32Array(this.#table.length * 2);
    const mask = table.length - 1;
    const p = this.#positions;
    for (let v = 0; v < this.#vertices; v++) {
      let place = this.#hash(p[v * 3]!, p[v * 3 + 1]!, p[v * 3 + 2]!) & mask;
      while (table[place] !== 0) place = (place + 1) & mask;
      table[place] = v + 1;
    }
    this.#table = table;
  }

  /** Mixes the six 32-bit words of the three numbers; every word passes the multiplier so that even grids spread. */
  #hash(x: number, y: number, z: number): number {
    this.#bits[0] = x;
    this.#bits[1] = y;
    this.#bits[2] = z;
    let h = 0x9e3779b9;
    for (let i = 0; i < 6; i++) {
      h = Math.imul(h ^ this.#words[i]!, 0x85ebca6b);
      h ^= h >>> 15;
    }
    h = Math.imul(h, 0xc2b2ae35);
    return (h ^ (h >>> 16)) >>> 0;
  }
}
