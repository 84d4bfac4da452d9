import {
  type Outline,
  type OutlineCorner,
  type Point2,
  reversedOutline,
  roundOutline,
  straightOutline,
} from '#geometry';
import { type FlatShape, flatShape } from './flat-shape.ts';
import { chance, type Light, type Lying, renderPhoto, type Shot } from './render-photo.ts';

/** A made-up photo with all that is true of it. */
export interface BenchPhoto {
  readonly image: { width: number; height: number; data: Uint8Array };
  readonly outline: Outline;
  readonly openings: readonly Outline[];
  /** As the command takes it. */
  readonly reference: string;
  readonly referenceThicknessMm: number;
  readonly thicknessMm: number;
  readonly tiltDeg: number;
  readonly focal35Mm?: number;
  readonly shot: Shot;
}

export interface SceneWish {
  readonly seed: number;
  readonly longPx: number;
  readonly tiltDeg?: number;
  readonly bend?: number;
  readonly reference?: 'square' | 'frame' | 'rule' | 'sheet';
  /** Size of the reference against the usual one. */
  readonly referenceShare?: number;
  readonly exposure?: number;
  readonly cardLike?: 'card' | 'bench';
  readonly second?: boolean;
  /** The card pushed out of the picture by this much [mm]. */
  readonly pushedMm?: number;
  readonly exif?: boolean;
}

const turnedPoint = ([x, y]: Point2, turn: number, to: Point2): Point2 => [
  to[0] + x * Math.cos(turn) - y * Math.sin(turn),
  to[1] + x * Math.sin(turn) + y * Math.cos(turn),
];
const placed = (outline: Outline, turn: number, to: Point2): Outline =>
  outline.map((corner) => ({ ...corner, at: turnedPoint(corner.at, turn, to) }));

/** A panel template 600 mm long or so: straight sides, a chamfer, a rounded corner, a hollow arc, a tab; openings. */
function template(next: () => number): { outline: Outline; openings: Outline[] } {
  const w = 560 + 60 * next();
  const h = 300 + 90 * next();
  const r = 25 + 50 * next();
  const cut = 40 + 60 * next();
  const hollow = 60 + 60 * next();
  const at = 140 + 120 * next();
  const quarter = Math.tan(Math.PI / 8);
  const corners: OutlineCorner[] = [
    { at: [0, 0] },
    { at: [at, 0], bulge: -0.3 - 0.5 * next() },
    { at: [at + hollow, 0] },
    { at: [w - r, 0], bulge: quarter },
    { at: [w, r] },
    { at: [w - 20 * next(), h - cut] },
    { at: [w - cut, h], ...(next() < 0.4 ? { bulge: 0.12 } : {}) },
    { at: [w * 0.55, h + 25 * next()] },
    { at: [w * 0.5, h - 30 * next()] },
    { at: [30 * next(), h - 10] },
  ];
  const openings: Outline[] = [reversedOutline(roundOutline([w * 0.7, h * 0.55], 22 + 25 * next()))];
  if (next() < 0.6) {
    const [a, b, x, y] = [70 + 60 * next(), 40 + 30 * next(), w * 0.15, h * 0.45];
    openings.push(
      straightOutline([
        [x, y],
        [x, y + b],
        [x + a, y + b],
        [x + a, y],
      ]),
    );
  }
  return { outline: corners, openings };
}

const grain = (next: () => number) => {
  const waves = Array.from({ length: 7 }, () => [
    0.01 + 0.12 * next(),
    2 * Math.PI * next(),
    2 * Math.PI * next(),
    0.4 + 0.6 * next(),
  ]);
  return (x: number, y: number): number => {
    let sum = 0;
    for (const [k, a, phase, size] of waves)
      sum += size! * Math.sin(k! * (x * Math.cos(a!) + y * Math.sin(a!)) + phase!);
    return sum / 7;
  };
};

const BENCHES: readonly Light[] = [
  [0.18, 0.19, 0.2],
  [0.33, 0.34, 0.35],
  [0.12, 0.16, 0.13],
  [0.2, 0.24, 0.3],
];
const CARDS: readonly Light[] = [
  [0.46, 0.31, 0.17],
  [0.52, 0.38, 0.22],
  [0.8, 0.79, 0.75],
  [0.4, 0.26, 0.14],
];
/** The light of a near-black or a bright yellow reference. */
const REFERENCES: readonly Light[] = [
  [0.8, 0.55, 0.04],
  [0.75, 0.12, 0.06],
  [0.03, 0.18, 0.5],
];

interface Laid {
  readonly lying: Lying;
  readonly words: string;
}

/** A reference is not quite what is written on it: within +-0.5 mm in 95 of 100 (one spread 0.25 mm). */
const SIZE_SPREAD_MM = 0.25;

function referenceShape(
  kind: 'square' | 'frame' | 'rule' | 'sheet',
  share: number,
  next: () => number,
): { outline: Outline; openings: Outline[]; words: string; at: Point2 } {
  const s = (mm: number): number => Math.round(mm * share);
  // the sum of twelve even draws is near enough to a bell
  const made = (mm: number): number =>
    mm + SIZE_SPREAD_MM * (Array.from({ length: 12 }, next).reduce((p, q) => p + q, 0) - 6);
  if (kind === 'square') {
    const [writtenA, writtenB] = [s(620), s(420)];
    const [a, b, wa, wb] = [made(writtenA), made(writtenB), 45, 40];
    return {
      outline: straightOutline([
        [0, 0],
        [a, 0],
        [a, wa],
        [wb, wa],
        [wb, b],
        [0, b],
      ]),
      openings: [],
      words: `square:${writtenA}x${writtenB}x${wa}x${wb}`,
      at: [-85, -95],
    };
  }
  if (kind === 'frame') {
    const [writtenW, writtenH, bar] = [s(760), s(560), 25];
    const [w, h] = [made(writtenW), made(writtenH)];
    return {
      outline: straightOutline([
        [0, 0],
        [w, 0],
        [w, h],
        [0, h],
      ]),
      openings: [
        straightOutline([
          [bar, bar],
          [bar, h - bar],
          [w - bar, h - bar],
          [w - bar, bar],
        ]),
      ],
      words: `frame:${writtenW}x${writtenH}x${bar}`,
      at: [-75, -85],
    };
  }
  const [writtenL, writtenW] = kind === 'rule' ? [s(620), 40] : [s(420), s(297)];
  const [l, w] = [made(writtenL), made(writtenW)];
  return {
    outline: straightOutline([
      [0, 0],
      [l, 0],
      [l, w],
      [0, w],
    ]),
    openings: [],
    words: `${kind}:${writtenL}x${writtenW}`,
    at: kind === 'rule' ? [-10, -75] : [60, -330],
  };
}

function laidReference(
  kind: 'square' | 'frame' | 'rule' | 'sheet',
  share: number,
  thicknessMm: number,
  colour: Light,
  next: () => number,
): Laid {
  const found = referenceShape(kind, share, next);
  const turn = 0.06 * (next() - 0.5);
  const turned = flatShape(
    placed(found.outline, turn, found.at),
    found.openings.map((one) => placed(one, turn, found.at)),
  );
  return {
    words: found.words,
    lying: {
      shape: turned,
      thicknessMm,
      face: (x, y) => {
        // strokes every 10 mm along the rim, as rules and squares have
        const isStroke = kind !== 'frame' && turned.at(x, y) > -5 && (((x + y) % 10) + 10) % 10 < 0.7;
        return isStroke ? [0.05, 0.05, 0.05] : colour;
      },
      side: [colour[0] * 0.5, colour[1] * 0.5, colour[2] * 0.5],
    },
  };
}

/** A bench with a template, a reference, a lamp and a camera, by a seed. */
export function benchPhoto(wish: SceneWish): BenchPhoto {
  const next = chance(7919 * (wish.seed + 1));
  for (let i = 0; i < 5; i++) next();
  const { outline, openings } = template(next);
  const turn = 0.1 * (next() - 0.5);
  const out: Point2 = [wish.pushedMm ?? 0, 0];
  const placedOutline = placed(outline, turn, out);
  const placedOpenings = openings.map((one) => placed(one, turn, out));
  const thicknessMm = 4;
  const benchLight = BENCHES[Math.floor(next() * BENCHES.length)]!;
  const cardLight = wish.cardLike === 'bench' ? benchLight : CARDS[Math.floor(next() * CARDS.length)]!;
  const cardGrain = grain(next);
  const benchGrain = grain(next);
  const card: Lying = {
    shape: flatShape(placedOutline, placedOpenings),
    thicknessMm,
    face: (x, y) => {
      const s = 1 + 0.06 * cardGrain(x, y);
      return [cardLight[0] * s, cardLight[1] * s, cardLight[2] * s];
    },
    side: [cardLight[0] * 0.6, cardLight[1] * 0.58, cardLight[2] * 0.56],
  };
  const kind = wish.reference ?? (['square', 'square', 'frame', 'frame'] as const)[Math.floor(next() * 4)]!;
  const referenceThicknessMm = kind === 'square' ? 2 : kind === 'rule' ? 1 : 0;
  const reference = laidReference(
    kind,
    wish.referenceShare ?? 1,
    referenceThicknessMm,
    REFERENCES[Math.floor(next() * REFERENCES.length)]!,
    next,
  );
  const things: Lying[] = [card, reference.lying];
  if (wish.second === true) {
    const shape = flatShape(
      placed(
        straightOutline([
          [0, 0],
          [420, 0],
          [420, 250],
          [0, 250],
        ]),
        0.03,
        [80, 450],
      ),
      [],
    );
    things.push({ ...card, shape });
  }
  const tiltDeg = wish.tiltDeg ?? 5 + 30 * next();
  const shot: Shot = {
    ...camera(wish, tiltDeg, things, next),
    blurPx: 0.6 + 0.6 * next(),
    noise: 0.006 + 0.012 * next(),
    bench: (x, y) => {
      const s = 1 + 0.18 * benchGrain(x, y);
      return [benchLight[0] * s, benchLight[1] * s, benchLight[2] * s];
    },
    things,
    lamp: [2.4 * (next() - 0.5), 2.4 * (next() - 0.5), 1],
    shade: 0.45 + 0.3 * next(),
    ...someoneInTheLight(next),
    exposure: wish.exposure ?? 0.9 + 0.2 * next(),
    seed: wish.seed,
  };
  return {
    image: renderPhoto(shot),
    outline: placedOutline,
    openings: placedOpenings,
    reference: reference.words,
    referenceThicknessMm,
    thicknessMm,
    tiltDeg,
    ...(wish.exif === true ? { focal35Mm: (shot.focalPx / Math.hypot(shot.widthPx, shot.heightPx)) * 43.27 } : {}),
    shot,
  };
}

/** In two of five, a straight shadow over a part of bench, template and reference. */
function someoneInTheLight(next: () => number): Pick<Shot, 'shadow'> {
  const [isThere, way, off, soft] = [next() < 0.4, 2 * Math.PI * next(), next(), next()];
  const [a, b] = [Math.cos(way), Math.sin(way)];
  return isThere ? { shadow: { a, b, c: 300 * a + 180 * b + 250 * off, softMm: 4 + 30 * soft } } : {};
}

type Pose = Pick<
  Shot,
  'widthPx' | 'heightPx' | 'right' | 'down' | 'forward' | 'eye' | 'focalPx' | 'offPx' | 'bend' | 'law'
>;

/** The camera stands so that everything fills the picture with a rim of bench round it. */
function camera(wish: SceneWish, tiltDeg: number, things: readonly { shape: FlatShape }[], next: () => number): Pose {
  const [widthPx, heightPx] = [wish.longPx, Math.round(wish.longPx * 0.75)];
  const framed = wish.pushedMm === undefined ? things : things.slice(1);
  const boxes = framed.map(({ shape }) => shape);
  const [minX, maxX] = [Math.min(...boxes.map((b) => b.minX)), Math.max(...boxes.map((b) => b.maxX))];
  const [minY, maxY] = [Math.min(...boxes.map((b) => b.minY)), Math.max(...boxes.map((b) => b.maxY))];
  const middle = [(minX + maxX) / 2, (minY + maxY) / 2];
  const tilt = (tiltDeg * Math.PI) / 180;
  const way = 2 * Math.PI * next();
  const roll = 0.3 * (next() - 0.5);
  const focalPx = (widthPx / 36) * (24 + 14 * next());
  const bend = wish.bend ?? 0.2 * (next() - 0.5);
  // away from the bench's middle, leaning over by the tilt
  const back = [Math.sin(tilt) * Math.cos(way), Math.sin(tilt) * Math.sin(way), Math.cos(tilt)] as const;
  const forward = back.map((v) => -v) as [number, number, number];
  const side = cross(forward, [Math.sin(roll), Math.cos(roll), 0]);
  const right = unit(side);
  const down = cross(forward, right);
  const offPx: [number, number] = [0.006 * widthPx * (next() - 0.5), 0.006 * widthPx * (next() - 0.5)];
  const law = next() < 0.5 ? 'polynomial' : 'division';
  const corners = boxes.flatMap((b) => [
    [b.minX, b.minY],
    [b.maxX, b.minY],
    [b.minX, b.maxY],
    [b.maxX, b.maxY],
  ]);
  // step back until every corner is well inside the picture
  let distance = 400;
  for (; distance < 5000; distance *= 1.02) {
    const eye = [middle[0]! + distance * back[0], middle[1]! + distance * back[1], distance * back[2]];
    const fits = corners.every(([x, y]) => {
      const v = [x! - eye[0]!, y! - eye[1]!, -eye[2]!];
      const z = dot(v, forward);
      const [u, w] = [(focalPx * dot(v, right)) / z, (focalPx * dot(v, down)) / z];
      const q = (u * u + w * w) / (widthPx * widthPx + heightPx * heightPx) / 0.25;
      const bent = 1 + bend * q;
      return z > 0 && Math.abs(u * bent) < 0.44 * widthPx && Math.abs(w * bent) < 0.44 * heightPx;
    });
    if (fits) break;
  }
  const eye: [number, number, number] = [
    middle[0]! + distance * back[0],
    middle[1]! + distance * back[1],
    distance * back[2],
  ];
  return { widthPx, heightPx, right, down, forward, eye, focalPx, offPx, bend, law };
}

const dot = (a: readonly number[], b: readonly number[]): number => a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!;
const cross = (a: readonly number[], b: readonly number[]): [number, number, number] => [
  a[1]! * b[2]! - a[2]! * b[1]!,
  a[2]! * b[0]! - a[0]! * b[2]!,
  a[0]! * b[1]! - a[1]! * b[0]!,
];
const unit = (a: readonly number[]): [number, number, number] => {
  const length = Math.hypot(...a);
  return [a[0]! / length, a[1]! / length, a[2]! / length];
};
