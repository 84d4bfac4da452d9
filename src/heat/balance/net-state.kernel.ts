import { stefanBoltzmann } from '../laws/radiation.ts';
import { factorBanded, substituteBanded } from './banded.kernel.ts';
import { type NetShape, netShape } from './net-shape.ts';
import type { FilmTable, NetHeat, ThermalNet } from './thermal-net.ts';

const ICE_K = 273.15;

/** Room for the matrices of a network, made where it is solved. */
interface Solving {
  readonly matrices: readonly Float64Array[];
  /** Of each block what its nodes move by of themselves, and for a degree of each border node. */
  readonly steps: readonly Float64Array[];
  readonly reaches: readonly Float64Array[];
  /** 1: a node that stays. */
  readonly held: Uint8Array;
}

/** What is worked with while a network is solved: made once for each network. */
export class NetState {
  readonly net: ThermalNet;
  readonly shape: NetShape;
  /** What comes to each node by radiation, as K E [m2 K4]. */
  readonly #comes: Float64Array;
  readonly residual: Float64Array;
  /** Fourth powers of the absolute temperatures, as `radiate` left them [K4]. */
  readonly #fourth: Float64Array;
  #room: Solving | undefined;

  /** @param like - the shape of a network that may be drawn alike: then it serves again */
  constructor(net: ThermalNet, like?: NetShape) {
    this.net = net;
    this.shape = netShape(net, like);
    this.#comes = new Float64Array(net.nodes);
    this.residual = new Float64Array(net.nodes);
    this.#fourth = new Float64Array(net.nodes);
  }

  get #solving(): Solving {
    const { blocks, nodes } = this.net;
    this.#room ??= {
      matrices: blocks.map(({ from, to, half }) => new Float64Array((to - from) * (2 * half + 1))),
      steps: blocks.map(({ from, to }) => new Float64Array(to - from)),
      reaches: blocks.map(({ from, to }, b) => new Float64Array((to - from) * this.shape.borders[b]!.length)),
      held: new Uint8Array(nodes),
    };
    return this.#room;
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
    const { k, starts, nodes, weights } = this.shape.pairs;
    const comes = this.#comes;
    for (let p = 0; p < k.length; p++) {
      const [a0, b0, end] = [starts[2 * p]!, starts[2 * p + 1]!, starts[2 * p + 2]!];
      let [a, b] = [0, 0];
      for (let i = a0; i < b0; i++) a += weights[i]! * fourth[nodes[i]!]!;
      for (let i = b0; i < end; i++) b += weights[i]! * fourth[nodes[i]!]!;
      a *= k[p]!;
      b *= k[p]!;
      for (let i = a0; i < b0; i++) comes[nodes[i]!]! += b * weights[i]!;
      for (let i = b0; i < end; i++) comes[nodes[i]!]! += a * weights[i]!;
    }
  }

  /** Heat that each node gets on balance [W], stored heat left out; `radiate` goes before. */
  balance(c: Float64Array): Float64Array {
    const { net, residual } = this;
    const fourth = this.#fourth;
    for (let i = 0; i < net.nodes; i++)
      residual[i] = net.source[i]! + stefanBoltzmann * (this.#comes[i]! - this.shape.leaves[i]! * fourth[i]!);
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
    const { steps, held, matrices } = this.#solving;
    const step = steps[0]!;
    for (let i = first.from; i < first.to; i++) step[i - first.from] = this.#rest(i, c, perS, base);
    for (let b = 1; b < net.blocks.length; b++) {
      const { from, to, half } = net.blocks[b]!;
      const x = steps[b]!;
      for (let i = from; i < to; i++) x[i - from] = held[i] === 1 ? 0 : this.#rest(i, c, perS, base);
      substituteBanded(matrices[b]!, x, to - from, half, 1);
      for (const l of this.shape.bridges[b]!) {
        const [inner, outer] = this.#bridgeEnds(l, from, to);
        step[outer] = step[outer]! + net.linkG[l]! * x[inner - from]!;
      }
    }
    for (let i = first.from; i < first.to; i++) if (held[i] === 1) step[i - first.from] = 0;
    substituteBanded(matrices[0]!, step, first.to - first.from, first.half, 1);
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
    const matrix = this.#solving.matrices[0]!;
    this.#assemble(0, c, perS, matrix);
    const width = 2 * first.half + 1;
    for (let b = 1; b < net.blocks.length; b++) {
      const { from, to, half } = net.blocks[b]!;
      const border = this.shape.borders[b]!;
      const columns = border.length;
      const own = this.#solving.matrices[b]!;
      this.#assemble(b, c, perS, own);
      this.#hold(b, own);
      factorBanded(own, to - from, half);
      if (columns === 0) continue;
      const reach = this.#solving.reaches[b]!.fill(0);
      for (const l of this.shape.bridges[b]!) {
        const [inner, outer] = this.#bridgeEnds(l, from, to);
        const at = (inner - from) * columns + border.indexOf(outer);
        if (this.#solving.held[inner] === 0) reach[at] = reach[at]! + net.linkG[l]!;
      }
      substituteBanded(own, reach, to - from, half, columns);
      for (const l of this.shape.bridges[b]!) {
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
    const border = this.shape.borders[b]!;
    const { steps, reaches, held } = this.#solving;
    const [x, reach] = [steps[b]!, reaches[b]!];
    let most = 0;
    for (let i = from; i < to; i++) {
      if (held[i] === 1) continue;
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
        4 * stefanBoltzmann * this.shape.leaves[i]! * kelvin * kelvin * kelvin + perS * net.capacity[i]!;
    }
    for (const l of this.shape.filmsOf[block]!) {
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
    const { held } = this.#solving;
    for (let i = from; i < to; i++) {
      const row = i - from;
      const isFree = this.net.fixed[i] === 0 && matrix[row * width + half]! > 0;
      held[i] = isFree ? 0 : 1;
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
    for (const l of this.shape.linksOf[block]!) {
      put(net.linkA[l]!, net.linkB[l]!, net.linkG[l]!);
      put(net.linkB[l]!, net.linkA[l]!, net.linkG[l]!);
    }
    for (const l of this.shape.flowsOf[block]!) put(net.flowTo[l]!, net.flowFrom[l]!, net.flowWPerK[l]!);
  }

  #radiatesInside(block: number, c: Float64Array, matrix: Float64Array): void {
    const { from, half } = this.net.blocks[block]!;
    const width = 2 * half + 1;
    for (const p of this.shape.inside[block]!) {
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
    const { net, shape } = this;
    let sum = 4 * stefanBoltzmann * shape.leaves[node]! * (c[node]! + ICE_K) ** 3;
    const { filmsOfNode: films, linksOfNode: links } = shape;
    for (let n = films.starts[node]!; n < films.starts[node + 1]!; n++) {
      const l = films.items[n]!;
      sum += net.filmArea[l]! * filmSlope(net.films[net.film[l]!]!, c[node]!);
    }
    for (let n = links.starts[node]!; n < links.starts[node + 1]!; n++) sum += net.linkG[links.items[n]!]!;
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
