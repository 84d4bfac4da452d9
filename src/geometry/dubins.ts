/**
 * Shortest planar ways of bounded curvature between two headed points, by plain circle geometry: each way is three
 * pieces, turn-straight-turn or turn-turn-turn, and the shortest of all is among six words (Dubins 1957).
 */
export type Word = 'LSL' | 'RSR' | 'LSR' | 'RSL' | 'RLR' | 'LRL';

/** A headed point of the plane: x, y [mm], heading [rad] from +x towards +y. */
export interface Heading {
  readonly x: number;
  readonly y: number;
  readonly headingRad: number;
}

export interface PlanarWay {
  readonly word: Word;
  /** Turned, run or turned, and turned angle/length of the three pieces: turns in radians >= 0, the straight in mm. */
  readonly pieces: readonly [number, number, number];
  readonly lengthMm: number;
}

const TURN = 2 * Math.PI;
/** An angle in [0, 2 pi), with a hair under a full turn counted as none. */
function wrapped(angle: number): number {
  const a = angle - TURN * Math.floor(angle / TURN);
  return a > TURN - 1e-10 ? 0 : a;
}

const side = (letter: string): number => (letter === 'L' ? 1 : -1);

function centre(p: Heading, s: number, radius: number): readonly [number, number] {
  return [p.x - s * radius * Math.sin(p.headingRad), p.y + s * radius * Math.cos(p.headingRad)];
}

/** The way of one word, or null where there is none. */
export function planarWay(from: Heading, to: Heading, radiusMm: number, word: Word): PlanarWay | null {
  const s1 = side(word[0]!);
  const s3 = side(word[2]!);
  const [ax, ay] = centre(from, s1, radiusMm);
  const [bx, by] = centre(to, s3, radiusMm);
  const d = Math.hypot(bx - ax, by - ay);
  const line = Math.atan2(by - ay, bx - ax);
  if (word[1] === 'S') {
    // The tangent runs along the centre line (same side) or crosses it at asin(2R/d).
    const crossing = s1 !== s3;
    if (crossing && d < 2 * radiusMm) return null;
    const heading = crossing ? line + s1 * Math.asin((2 * radiusMm) / d) : d > 1e-12 ? line : from.headingRad;
    const run = crossing ? Math.sqrt(d * d - 4 * radiusMm * radiusMm) : d;
    const first = wrapped(s1 * (heading - from.headingRad));
    const last = wrapped(s3 * (to.headingRad - heading));
    return { word, pieces: [first, run, last], lengthMm: radiusMm * (first + last) + run };
  }
  if (d > 4 * radiusMm) return null;
  // The middle circle touches both: its centre is 2R from each. Of the two places, the one that leaves the middle
  // turn greater than pi (the other is never the shortest).
  let best: PlanarWay | null = null;
  for (const hand of [1, -1]) {
    const lean = line + hand * Math.acos(Math.min(1, d / (4 * radiusMm)));
    const mx = ax + 2 * radiusMm * Math.cos(lean);
    const my = ay + 2 * radiusMm * Math.sin(lean);
    // Heading where circles touch: square to the line of centres, by the first circle's sense.
    const headingOne = lean + (s1 * Math.PI) / 2;
    const touch = Math.atan2(by - my, bx - mx);
    const headingTwo = touch - (s1 * Math.PI) / 2;
    const first = wrapped(s1 * (headingOne - from.headingRad));
    const middle = wrapped(-s1 * (headingTwo - headingOne));
    const last = wrapped(s1 * (to.headingRad - headingTwo));
    const way: PlanarWay = { word, pieces: [first, middle, last], lengthMm: radiusMm * (first + middle + last) };
    if (middle > Math.PI - 1e-9 && (!best || way.lengthMm < best.lengthMm)) best = way;
  }
  return best;
}

const WORDS: readonly Word[] = ['LSL', 'RSR', 'LSR', 'RSL', 'RLR', 'LRL'];

/** All ways there are, shortest first; ties in the order of the words. */
export function planarWays(from: Heading, to: Heading, radiusMm: number): readonly PlanarWay[] {
  const ways = WORDS.map((word) => planarWay(from, to, radiusMm, word)).filter((w) => w !== null);
  return ways.sort((a, b) => a.lengthMm - b.lengthMm || WORDS.indexOf(a.word) - WORDS.indexOf(b.word));
}

/** Points of a way no further than `stepMm` apart along it: x, y, 0 triples, ends included. */
export function planarWayPoints(from: Heading, way: PlanarWay, radiusMm: number, stepMm: number): Float64Array {
  const out: number[] = [from.x, from.y, 0];
  let { x, y, headingRad } = from;
  for (let k = 0; k < 3; k++) {
    const letter = way.word[k]!;
    const length = letter === 'S' ? way.pieces[k]! : way.pieces[k]! * radiusMm;
    if (length <= 0) continue;
    const count = Math.ceil(length / stepMm);
    const startX = x;
    const startY = y;
    const start = headingRad;
    for (let i = 1; i <= count; i++) {
      const run = (length * i) / count;
      if (letter === 'S') {
        x = startX + run * Math.cos(start);
        y = startY + run * Math.sin(start);
      } else {
        const s = side(letter);
        headingRad = start + (s * run) / radiusMm;
        x = startX + s * radiusMm * (Math.sin(headingRad) - Math.sin(start));
        y = startY - s * radiusMm * (Math.cos(headingRad) - Math.cos(start));
      }
      out.push(x, y, 0);
    }
  }
  return Float64Array.from(out);
}
