import { isOwnPart, keepOff } from '#bay';
import type { Line } from '#car';
import { type Bounds, type Solid, type Vec, distanceToBounds, grown, joined } from '#geometry';
import type { LinesWorld } from '../world.ts';
import { type SpanEnd, straightOut } from './span.ts';

/** Cells of the open space, and of the places where it is not plain [mm]. */
const COARSE_MM = 24;
const PARTS = 4;
const FINE_MM = COARSE_MM / PARTS;
const HALF_DIAGONAL = Math.sqrt(3) / 2;
/** Open space kept round everything [mm]. */
const ROUND_MM = 3 * COARSE_MM;
/** Cells looked at from either side before it is left open [count]. */
const MOST_CELLS = 400_000;

interface CutOffQuestion {
  readonly items: readonly {
    readonly part: string;
    readonly solid: Solid;
    readonly keepOffMm: number;
    /** It carries one of the two ports, or is joined to what does. */
    readonly own: boolean;
  }[];
  readonly a: SpanEnd;
  readonly b: SpanEnd;
  readonly radiusMm: number;
  /** The slimmest of hose and fittings, which is what stands beside a port [mm]. */
  readonly slimMm: number;
  /** Adapter, hose end and first straight at either end, at the longest [mm]: keep-offs are relaxed there. */
  readonly nearMm: readonly [number, number];
}

/**
 * Is it certain that no hose at all leads from A to B past the parts as they stand? Cells count as open wherever a hose may pass
 * anywhere in them; beside the ports keep-offs do not count but solids do: what is cut off so is cut off. The flood starts at
 * both ends, the smaller side first.
 */
export function isCutOff(world: LinesWorld, line: Line, a: SpanEnd, b: SpanEnd, odMm: number): boolean {
  const near = (end: SpanEnd): number =>
    Math.max(end.nearMm, ...end.makeUps.map((m) => m.lengthMm + straightOut(odMm)));
  const items = world.bay.parts.flatMap((part) => {
    const keepOffMm = keepOff(world.bay, part, line).mm;
    const own = isOwnPart(part, a.partId ?? undefined) || isOwnPart(part, b.partId ?? undefined);
    return part.solids.map((solid) => ({ part: part.id, solid, keepOffMm, own }));
  });
  const ods = [a, b].flatMap((end) => end.makeUps.flatMap((m) => m.stages.map((stage) => stage.odMm)));
  const slimMm = Math.min(odMm, ...ods) / 2;
  const question = { items, a, b, radiusMm: odMm / 2, slimMm, nearMm: [near(a), near(b)] as const };
  const cells = new Cells(question);
  const sides = [new Flood(cells, a.at), new Flood(cells, b.at)] as const;
  for (;;) {
    const [p, q] = sides[0].frontier.length <= sides[1].frontier.length ? sides : [sides[1], sides[0]];
    for (const cell of p.step()) if (q.seen.has(cell)) return false;
    if (p.frontier.length === 0) return true;
    if (p.seen.size > MOST_CELLS) return false;
  }
}

/** One side's reach, ring by ring. */
class Flood {
  readonly seen = new Set<number>();
  frontier: number[] = [];
  private readonly cells: Cells;

  constructor(cells: Cells, at: Vec) {
    this.cells = cells;
    // The port's face lies on its part: it begins in its cell whatever stands there.
    for (const cell of cells.around(at)) {
      this.seen.add(cell);
      this.frontier.push(cell);
    }
  }

  step(): number[] {
    const next: number[] = [];
    for (const cell of this.frontier)
      for (const other of this.cells.beside(cell)) {
        if (this.seen.has(other)) continue;
        this.seen.add(other);
        next.push(other);
      }
    this.frontier = next;
    return next;
  }
}

const OPEN = 2;
const MIXED = 1;
const SHUT = 0;

/** The space in fine cells by number; a coarse cell that is plainly open is named by its first fine cell. */
class Cells {
  private readonly question: CutOffQuestion;
  private readonly min: Vec;
  private readonly counts: readonly [number, number, number];
  private readonly coarse = new Map<number, number>();
  private readonly fine = new Map<number, boolean>();

  constructor(question: CutOffQuestion) {
    this.question = question;
    const point = (at: Vec): Bounds => ({ min: at, max: at });
    const all = question.items.map((item) => grown(item.solid.bounds, item.keepOffMm));
    const bounds = grown([point(question.a.at), point(question.b.at), ...all].reduce(joined), ROUND_MM);
    this.min = bounds.min;
    const count = (k: 0 | 1 | 2): number => Math.ceil((bounds.max[k] - bounds.min[k]) / COARSE_MM) * PARTS;
    this.counts = [count(0), count(1), count(2)];
  }

  private id(i: number, j: number, k: number): number {
    return i + this.counts[0] * (j + this.counts[1] * k);
  }

  private place(cell: number): [number, number, number] {
    const [nx, ny] = this.counts;
    return [cell % nx, Math.floor(cell / nx) % ny, Math.floor(cell / (nx * ny))];
  }

  /** The cells round a port: whatever is open there, and its own. */
  around(at: Vec): number[] {
    const [i, j, k] = [0, 1, 2].map((n) => Math.floor((at[n]! - this.min[n]!) / FINE_MM)) as [number, number, number];
    return [this.named(i, j, k) ?? this.id(i, j, k)];
  }

  /** The name of the cell that holds a fine place; null where no hose can be. */
  private named(i: number, j: number, k: number): number | null {
    const [ci, cj, ck] = [i - (i % PARTS), j - (j % PARTS), k - (k % PARTS)];
    const id = this.id(ci, cj, ck);
    let state = this.coarse.get(id);
    if (state === undefined) {
      const slack = this.slackAt(ci, cj, ck, COARSE_MM);
      const whole = HALF_DIAGONAL * COARSE_MM;
      state = slack >= whole ? OPEN : slack < -whole ? SHUT : MIXED;
      this.coarse.set(id, state);
    }
    if (state !== MIXED) return state === OPEN ? id : null;
    const own = this.id(i, j, k);
    let isOpen = this.fine.get(own);
    if (isOpen === undefined) {
      isOpen = this.slackAt(i, j, k, FINE_MM) >= -HALF_DIAGONAL * FINE_MM;
      this.fine.set(own, isOpen);
    }
    return isOpen ? own : null;
  }

  private slackAt(i: number, j: number, k: number, cellMm: number): number {
    const [x, y, z] = [
      this.min[0] + i * FINE_MM + cellMm / 2,
      this.min[1] + j * FINE_MM + cellMm / 2,
      this.min[2] + k * FINE_MM + cellMm / 2,
    ];
    const { items, a, b, nearMm, radiusMm, slimMm } = this.question;
    const beside = [a, b].some(
      (end, n) => Math.hypot(x - end.at[0], y - end.at[1], z - end.at[2]) < nearMm[n]! + cellMm,
    );
    let least = FAR_MM;
    for (const item of items) {
      if (beside && item.own) continue;
      const keepOffMm = beside ? Math.min(item.keepOffMm, 0) + slimMm : item.keepOffMm + radiusMm;
      if (distanceToBounds(item.solid.bounds, x, y, z) >= least + keepOffMm) continue;
      least = Math.min(least, item.solid.distanceWithin(x, y, z, least + keepOffMm) - keepOffMm);
    }
    return least;
  }

  /** The cells that share a face with this one. */
  beside(cell: number): number[] {
    const [i, j, k] = this.place(cell);
    const size = i % PARTS === 0 && j % PARTS === 0 && k % PARTS === 0 && this.coarse.get(cell) === OPEN ? PARTS : 1;
    const out = new Set<number>();
    const look = (x: number, y: number, z: number): void => {
      if (x < 0 || y < 0 || z < 0 || x >= this.counts[0] || y >= this.counts[1] || z >= this.counts[2]) return;
      const name = this.named(x, y, z);
      if (name !== null) out.add(name);
    };
    for (let u = 0; u < size; u++)
      for (let v = 0; v < size; v++) {
        look(i - 1, j + u, k + v);
        look(i + size, j + u, k + v);
        look(i + u, j - 1, k + v);
        look(i + u, j + size, k + v);
        look(i + u, j + v, k - 1);
        look(i + u, j + v, k + size);
      }
    return [...out];
  }
}

/** Beyond this nothing matters here [mm]. */
const FAR_MM = 60;
