import { stefanBoltzmann } from '../laws/radiation.ts';
import { factorBanded, substituteBanded } from './banded.kernel.ts';
import type { FilmTable, NetHeat, ThermalNet } from './thermal-net.ts';

const ICE_K = 273.15;

/** What is worked with while a network is solved: made once for each network. */
export class NetState {
  readonly net: ThermalNet;
  /** Sum of what a node's radiation leaves by [m2], and of what comes in, as K E [m2 K4]. */
  readonly #leaves: Float64Array;
  readonly #comes: Float64Array;
  readonly residual: Float64Array;
  /** Fourth powers of the absolute temperatures, as `radiate` left them [K4]. */
  readonly #fourth: Float64Array;
  readonly #matrices: readonly Float64Array[];
  /** Of each block what its nodes move by of themselves, and for a degree of each border node. */
  readonly #steps: readonly Float64Array[];
  readonly #reaches: readonly Float64Array[];
  /** 1: a node that stays. */
  readonly #held: Uint8Array;
  /** Links from a block to the first one, and the nodes there that they end at. */
  readonly #bridges: readonly Int32Array[];
  readonly #borders: readonly (readonly number[])[];
  readonly #blockOf: Int32Array;
  /** Pairs whose two groups lie in one block that is solved whole. */
  readonly #inside: readonly (readonly number[])[];
  readonly #linksOf: readonly Int32Array[];
  readonly #flowsOf: readonly Int32Array[];
  readonly #filmsOf: readonly Int32Array[];

  constructor(net: ThermalNet) {
    this.net = net;
    this.#leaves = Float64Array.from(net.outsideK);
    this.#comes = new Float64Array(net.nodes);
    this.residual = new Float64Array(net.nodes);
    this.#fourth = new Float64Array(net.nodes);
    this.#blockOf = new Int32Array(net.nodes);
    net.blocks.forEach(({ from, to }, b) => this.#blockOf.fill(b, from, to));
    for (const { k, nodesA, weightsA, nodesB, weightsB } of net.pairs) {
      for (let i = 0; i < nodesA.length; i++) this.#leaves[nodesA[i]!]! += k * weightsA[i]!;
      for (let i = 0; i < nodesB.length; i++) this.#leaves[nodesB[i]!]! += k * weightsB[i]!;
    }
    this.#inside = net.blocks.map(({ from, to, half }) =>
      half < to - from - 1
        ? []
        : net.pairs.flatMap(({ nodesA, nodesB }, p) =>
            nodesA.every((i) => i >= from && i < to) && nodesB.every((i) => i >= from && i < to) ? [p] : [],
          ),
    );
    this.#linksOf = net.blocks.map((_, b) => this.#touching(b, net.linkA, net.linkB));
    this.#filmsOf = net.blocks.map((_, b) => this.#touching(b, net.filmNode, net.filmNode));
    this.#flowsOf = net.blocks.map((_, b) => this.#touching(b, net.flowTo, net.flowTo));
    const blockOf = this.#blockOf;
    const isBridge = (l: number): boolean => (blockOf[net.linkA[l]!] === 0) !== (blockOf[net.linkB[l]!] === 0);
    this.#bridges = net.blocks.map((_, b) => (b === 0 ? new Int32Array(0) : this.#linksOf[b]!.filter(isBridge)));
    this.#borders = net.blocks.map(({ from, to }, b) => [
      ...new Set(Array.from(this.#bridges[b]!, (l) => this.#bridgeEnds(l, from, to)[1])),
    ]);
    this.#matrices = net.blocks.map(({ from, to, half }) => new Float64Array((to - from) * (2 * half + 1)));
    this.#steps = net.blocks.map(({ from, to }) => new Float64Array(to - from));
    this.#reaches = net.blocks.map(({ from, to }, b) => new Float64Array((to - from) * this.#borders[b]!.length));
    this.#held = new Uint8Array(net.nodes);
  }

  #touching(block: number, a: Int32Array, b: Int32Array): Int32Array {
    const found: number[] = [];
    for (let l = 0; l < a.length; l++)
      if (this.#blockOf[a[l]!] === block || this.#blockOf[b[l]!] === block) found.push(l);
    return Int32Array.from(found);
  }

  /** Works out anew what comes to every node by radiation. */
  radiate(c: Float64Array): void {
    const { net } = this;
    const fourth = this.#fourth;
    const outside = (net.outsideC + ICE_K) ** 4;
    for (let i = 0; i < net.nodes; i++) {
      const kelvin = c[i]! + ICE_K;
      const squared = kelvin * kelvin;
      fourth[i] = squared * squared;
      this.#comes[i] = net.outsideK[i]! * outside;
    }
    for (const { k, nodesA, weightsA, nodesB, weightsB } of net.pairs) {
      const a = weightedSum(fourth, nodesA, weightsA) * k;
      const b = weightedSum(fourth, nodesB, weightsB) * k;
      for (let i = 0; i < nodesA.length; i++) this.#comes[nodesA[i]!]! += b * weightsA[i]!;
      for (let i = 0; i < nodesB.length; i++) this.#comes[nodesB[i]!]! += a * weightsB[i]!;
    }
  }

  /** Heat that each node gets on balance [W], stored heat left out; `radiate` goes before. */
  balance(c: Float64Array): Float64Array {
    const { net, residual } = this;
    const fourth = this.#fourth;
    for (let i = 0; i < net.nodes; i++)
      residual[i] = net.source[i]! + stefanBoltzmann * (this.#comes[i]! - this.#leaves[i]! * fourth[i]!);
    for (let l = 0; l < net.filmNode.length; l++) {
      const i = net.filmNode[l]!;
      residual[i] = residual[i]! - net.filmArea[l]! * filmHeat(net.films[net.film[l]!]!, c[i]!);
    }
    for (let l = 0; l < net.linkA.length; l++) {
      const [a, b] = [net.linkA[l]!, net.linkB[l]!];
      const heat = net.linkG[l]! * (c[a]! - c[b]!);
      residual[a]! -= heat;
      residual[b]! += heat;
    }
    for (let l = 0; l < net.flowTo.length; l++)
      residual[net.flowTo[l]!]! += net.flowWPerK[l]! * (c[net.flowFrom[l]!]! - c[net.flowTo[l]!]!);
    return residual;
  }

  /**
   * One Newton step of every block, radiation between blocks as it stands. Conduction from any block to the first is counted whole: each
   * other block is solved together with what it does for a degree of the first block's nodes that it touches, and the first block with
   * that. In time: `perS` = 1/(gamma dt) and `base` the temperatures that the step starts from; steady: perS = 0. `balance` goes before.
   *
   * @param isFresh - works the slopes out anew; otherwise those of the last time serve again
   * @returns the greatest change [K]
   */
  advance(c: Float64Array, perS: number, base: Float64Array, isFresh = true): number {
    const { net } = this;
    const [first] = net.blocks;
    if (first === undefined) return 0;
    if (isFresh) this.#slopes(c, perS);
    const step = this.#steps[0]!;
    for (let i = first.from; i < first.to; i++) step[i - first.from] = this.#rest(i, c, perS, base);
    for (let b = 1; b < net.blocks.length; b++) {
      const { from, to, half } = net.blocks[b]!;
      const x = this.#steps[b]!;
      for (let i = from; i < to; i++) x[i - from] = this.#held[i] === 1 ? 0 : this.#rest(i, c, perS, base);
      substituteBanded(this.#matrices[b]!, x, to - from, half, 1);
      for (const l of this.#bridges[b]!) {
        const [inner, outer] = this.#bridgeEnds(l, from, to);
        step[outer] = step[outer]! + net.linkG[l]! * x[inner - from]!;
      }
    }
    for (let i = first.from; i < first.to; i++) if (this.#held[i] === 1) step[i - first.from] = 0;
    substituteBanded(this.#matrices[0]!, step, first.to - first.from, first.half, 1);
    let most = 0;
    for (let b = 0; b < net.blocks.length; b++) most = Math.max(most, this.#move(b, c, step));
    return most;
  }

  /** Heat that a node is still given, what it stores in time taken off. */
  #rest(i: number, c: Float64Array, perS: number, base: Float64Array): number {
    return this.residual[i]! - perS * this.net.capacity[i]! * (c[i]! - base[i]!);
  }

  /** Every block's matrix, factored; what each block does for a degree of its border; the first one with that. */
  #slopes(c: Float64Array, perS: number): void {
    const { net } = this;
    const first = net.blocks[0]!;
    const matrix = this.#matrices[0]!;
    this.#assemble(0, c, perS, matrix);
    const width = 2 * first.half + 1;
    for (let b = 1; b < net.blocks.length; b++) {
      const { from, to, half } = net.blocks[b]!;
      const border = this.#borders[b]!;
      const columns = border.length;
      const own = this.#matrices[b]!;
      this.#assemble(b, c, perS, own);
      this.#hold(b, own);
      factorBanded(own, to - from, half);
      if (columns === 0) continue;
      const reach = this.#reaches[b]!.fill(0);
      for (const l of this.#bridges[b]!) {
        const [inner, outer] = this.#bridgeEnds(l, from, to);
        const at = (inner - from) * columns + border.indexOf(outer);
        if (this.#held[inner] === 0) reach[at] = reach[at]! + net.linkG[l]!;
      }
      substituteBanded(own, reach, to - from, half, columns);
      for (const l of this.#bridges[b]!) {
        const [inner, outer] = this.#bridgeEnds(l, from, to);
        border.forEach((node, k) => {
          const at = outer * width + first.half + (node - outer);
          matrix[at] = matrix[at]! - net.linkG[l]! * reach[(inner - from) * columns + k]!;
        });
      }
    }
    this.#hold(0, matrix);
    factorBanded(matrix, first.to - first.from, first.half);
  }

  #bridgeEnds(l: number, from: number, to: number): readonly [inner: number, outer: number] {
    const [a, b] = [this.net.linkA[l]!, this.net.linkB[l]!];
    return a >= from && a < to ? [a, b] : [b, a];
  }

  #move(b: number, c: Float64Array, first: Float64Array): number {
    const { from, to } = this.net.blocks[b]!;
    const border = this.#borders[b]!;
    const [x, reach] = [this.#steps[b]!, this.#reaches[b]!];
    let most = 0;
    for (let i = from; i < to; i++) {
      let step = x[i - from]!;
      for (let k = 0; k < border.length; k++) step += reach[(i - from) * border.length + k]! * first[border[k]!]!;
      const change = Math.max(-MOST_STEP_K, Math.min(MOST_STEP_K, step));
      c[i] = Math.max(LEAST_C, c[i]! + change);
      most = Math.max(most, Math.abs(change));
    }
    return most;
  }

  #assemble(block: number, c: Float64Array, perS: number, matrix: Float64Array): void {
    const { net } = this;
    const { from, to, half } = net.blocks[block]!;
    const width = 2 * half + 1;
    matrix.fill(0);
    for (let i = from; i < to; i++) {
      const kelvin = c[i]! + ICE_K;
      matrix[(i - from) * width + half] =
        4 * stefanBoltzmann * this.#leaves[i]! * kelvin * kelvin * kelvin + perS * net.capacity[i]!;
    }
    for (const l of this.#filmsOf[block]!) {
      const i = net.filmNode[l]!;
      const at = (i - from) * width + half;
      matrix[at] = matrix[at]! + net.filmArea[l]! * filmSlope(net.films[net.film[l]!]!, c[i]!);
    }
    this.#conducts(block, matrix);
    this.#radiatesInside(block, c, matrix);
  }

  /** Nodes that are given, or held by nothing at all, stay. */
  #hold(block: number, matrix: Float64Array): void {
    const { from, to, half } = this.net.blocks[block]!;
    const width = 2 * half + 1;
    for (let i = from; i < to; i++) {
      const row = i - from;
      const isFree = this.net.fixed[i] === 0 && matrix[row * width + half]! > 0;
      this.#held[i] = isFree ? 0 : 1;
      if (isFree) continue;
      matrix.fill(0, row * width, (row + 1) * width);
      matrix[row * width + half] = 1;
    }
  }

  #conducts(block: number, matrix: Float64Array): void {
    const { net } = this;
    const { from, to, half } = net.blocks[block]!;
    const width = 2 * half + 1;
    const put = (i: number, j: number, g: number): void => {
      if (i < from || i >= to) return;
      const at = (i - from) * width + half;
      matrix[at] = matrix[at]! + g;
      if (j >= from && j < to) matrix[at + (j - i)] = matrix[at + (j - i)]! - g;
    };
    for (const l of this.#linksOf[block]!) {
      put(net.linkA[l]!, net.linkB[l]!, net.linkG[l]!);
      put(net.linkB[l]!, net.linkA[l]!, net.linkG[l]!);
    }
    for (const l of this.#flowsOf[block]!) put(net.flowTo[l]!, net.flowFrom[l]!, net.flowWPerK[l]!);
  }

  #radiatesInside(block: number, c: Float64Array, matrix: Float64Array): void {
    const { from, half } = this.net.blocks[block]!;
    const width = 2 * half + 1;
    for (const p of this.#inside[block]!) {
      const { k, nodesA, weightsA, nodesB, weightsB } = this.net.pairs[p]!;
      for (let i = 0; i < nodesA.length; i++) {
        const a = nodesA[i]!;
        const slopeA = 4 * stefanBoltzmann * k * weightsA[i]! * (c[a]! + ICE_K) ** 3;
        for (let j = 0; j < nodesB.length; j++) {
          const b = nodesB[j]!;
          const atAB = (a - from) * width + half + (b - a);
          const atBA = (b - from) * width + half + (a - b);
          matrix[atAB] = matrix[atAB]! - 4 * stefanBoltzmann * k * weightsA[i]! * weightsB[j]! * (c[b]! + ICE_K) ** 3;
          matrix[atBA] = matrix[atBA]! - slopeA * weightsB[j]!;
        }
      }
    }
  }

  /** How much more heat a node gives for each K that it is warmer, all else as it stands [W/K]. */
  slope(node: number, c: Float64Array): number {
    const { net } = this;
    let sum = 4 * stefanBoltzmann * this.#leaves[node]! * (c[node]! + ICE_K) ** 3;
    for (const l of this.#filmsOf[this.#blockOf[node]!]!)
      if (net.filmNode[l] === node) sum += net.filmArea[l]! * filmSlope(net.films[net.film[l]!]!, c[node]!);
    for (const l of this.#linksOf[this.#blockOf[node]!]!)
      if (net.linkA[l] === node || net.linkB[l] === node) sum += net.linkG[l]!;
    return sum;
  }

  /** Where heat comes from and goes to at these temperatures; `radiate` and `balance` go before. */
  heat(c: Float64Array): NetHeat {
    const { net, residual } = this;
    let [inW, outW] = [0, 0];
    const toFilmsW = new Float64Array(net.films.length);
    let toOutsideW = 0;
    const count = (gives: number): void => {
      if (gives > 0) inW += gives;
      else outW -= gives;
    };
    for (let i = 0; i < net.nodes; i++) {
      toOutsideW += stefanBoltzmann * net.outsideK[i]! * (this.#fourth[i]! - (net.outsideC + ICE_K) ** 4);
      count(net.source[i]!);
      // A given node gives what it loses on balance, what flow takes out of it left to the flow.
      if (net.fixed[i] === 1) count(-residual[i]!);
    }
    for (let l = 0; l < net.filmNode.length; l++) {
      const film = net.film[l]!;
      toFilmsW[film] = toFilmsW[film]! + net.filmArea[l]! * filmHeat(net.films[film]!, c[net.filmNode[l]!]!);
    }
    for (const heat of toFilmsW) count(-heat);
    count(-toOutsideW);
    for (let l = 0; l < net.flowTo.length; l++) {
      // What flow brings to a node from a node that it does not leave cooler: the head of each line gives, its end takes.
      count(net.flowWPerK[l]! * (c[net.flowFrom[l]!]! - c[net.flowTo[l]!]!));
    }
    return { inW, outW, toFilmsW, toOutsideW };
  }
}

/** No step of a node is larger [K]: from a cold start to a glowing part in some ten. */
const MOST_STEP_K = 200;
const LEAST_C = -150;

function weightedSum(values: Float64Array, nodes: Int32Array, weights: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < nodes.length; i++) sum += weights[i]! * values[nodes[i]!]!;
  return sum;
}

/** Heat that a square metre at `c` gives to the air [W/m2]; beyond the table's ends straight on. */
export function filmHeat({ airC, stepK, below, heat }: FilmTable, c: number): number {
  const along = (c - airC) / stepK + below;
  const k = Math.max(0, Math.min(heat.length - 2, Math.floor(along)));
  return heat[k]! + (along - k) * (heat[k + 1]! - heat[k]!);
}

export function filmSlope({ airC, stepK, below, heat }: FilmTable, c: number): number {
  const k = Math.max(0, Math.min(heat.length - 2, Math.floor((c - airC) / stepK + below)));
  return (heat[k + 1]! - heat[k]!) / stepK;
}
