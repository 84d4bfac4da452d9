import type { Car, Shape } from '#car';
import { add, norm, scale, sub, type Vec } from '#geometry';
import type { Lengths, Parsed } from '#units';
import { emptyPlace, placeDraft, type PlaceDraft, placeOfDraft } from './port-draft.ts';
import { tapeMm, type TapeUnit } from './tape-text.ts';
import { keptText } from './kept-text.ts';

export type SolidKind = 'box' | 'cylinder' | 'tube';
/** What of the solid the tape went to. */
export type Anchor = 'middle' | 'underside' | 'front' | 'corner';
/** The way a round one lies. */
export type Lie = 'upright' | 'along' | 'across' | 'askew';

/** A plain solid as it is typed: its dimensions, and where some point of it is. */
export interface SolidDraft {
  readonly kind: SolidKind;
  /** Box: along the car, across, height. */
  readonly size: readonly [string, string, string];
  /** Outside, of a cylinder or a tube. */
  readonly diameter: string;
  readonly length: string;
  readonly lie: Lie;
  readonly anchor: Anchor;
  readonly place: PlaceDraft;
  /** Tube, and a cylinder that lies askew: points of its middle line from the datum: rearward, right, up. */
  readonly points: readonly (readonly [string, string, string])[];
}

export const emptySolid: SolidDraft = {
  kind: 'box',
  size: ['', '', ''],
  diameter: '',
  length: '',
  lie: 'upright',
  anchor: 'underside',
  place: emptyPlace,
  points: [
    ['', '', ''],
    ['', '', ''],
  ],
};

/** From the point that was measured to the middle of the solid, in halves of its size: X rearward, Y right, Z up. */
const toMiddle: Readonly<Record<Anchor, Vec>> = {
  middle: [0, 0, 0],
  underside: [0, 0, 1],
  front: [1, 0, 0],
  corner: [1, 1, 1],
};

const LARGEST_MM = 20_000;

function dimension(text: string, unit: TapeUnit): Parsed<number> {
  const read = tapeMm(text, unit);
  if (read.ok && (read.value <= 0 || read.value > LARGEST_MM))
    return {
      ok: false,
      fault: `"${text}" is no dimension; above 0, at most ${LARGEST_MM / 1000} m is allowed`,
      ways: [],
    };
  return read;
}

/** The field's own reading, for a form that shows it. */
export const readDimension =
  (unit: TapeUnit) =>
  (text: string): Parsed<number> =>
    dimension(text, unit);

/**
 * The solid that a form says, in car axes; undefined as long as something in it cannot be read.
 *
 *     middle = measured point + anchor_i * size_i / 2
 */
export function shapeOfDraft(
  car: Car,
  draft: SolidDraft,
  unit: TapeUnit,
): { readonly shape: Shape; readonly knownToMm: number } | undefined {
  if (draft.kind === 'tube') return tubeOf(draft, unit);
  if (draft.kind === 'cylinder' && draft.lie === 'askew') return askewOf(draft, unit);
  const size = extent(draft, unit);
  const place = placeOfDraft(car, draft.place, unit);
  if (size === undefined || place === undefined) return undefined;
  const half = scale(size, 0.5);
  const lean = toMiddle[draft.anchor];
  const middle = add(place.atMm, [lean[0] * half[0], lean[1] * half[1], lean[2] * half[2]]);
  const { knownToMm } = place;
  if (draft.kind === 'box')
    return {
      shape: { box: { minMm: triple(add(middle, scale(half, -1))), maxMm: triple(add(middle, half)) } },
      knownToMm,
    };
  const along = lies[draft.lie === 'askew' ? 'upright' : draft.lie];
  const run: Vec = [along[0] * half[0], along[1] * half[1], along[2] * half[2]];
  const radiusMm = hundredth((draft.lie === 'upright' ? size[0] : size[2]) / 2);
  return {
    shape: { cylinder: { fromMm: triple(add(middle, scale(run, -1))), toMm: triple(add(middle, run)), radiusMm } },
    knownToMm,
  };
}

const lies: Readonly<Record<Exclude<Lie, 'askew'>, Vec>> = { upright: [0, 0, 1], along: [1, 0, 0], across: [0, 1, 0] };

function extent(draft: SolidDraft, unit: TapeUnit): Vec | undefined {
  if (draft.kind === 'box') {
    const [x, y, z] = draft.size.map((text) => dimension(text, unit));
    return x?.ok && y?.ok && z?.ok ? [x.value, y.value, z.value] : undefined;
  }
  const [d, long] = [dimension(draft.diameter, unit), dimension(draft.length, unit)];
  if (!d.ok || !long.ok) return undefined;
  const wide = d.value;
  return draft.lie === 'upright'
    ? [wide, wide, long.value]
    : draft.lie === 'along'
      ? [long.value, wide, wide]
      : [wide, long.value, wide];
}

/** A cylinder between two points. */
function askewOf(draft: SolidDraft, unit: TapeUnit): { readonly shape: Shape; readonly knownToMm: number } | undefined {
  const read = tubeOf({ ...draft, points: draft.points.slice(0, 2) }, unit);
  const { pointsMm: [fromMm, toMm] = [], radiusMm = 0 } = read?.shape.tube ?? {};
  if (read === undefined || fromMm === undefined || toMm === undefined) return undefined;
  return { shape: { cylinder: { fromMm, toMm, radiusMm } }, knownToMm: read.knownToMm };
}

/**
 * A solid that is there as it would be typed, in the axes its numbers are in: a turn or shift that it has comes after them. Undefined for a
 * scan, which is placed, not drawn.
 */
export function solidDraft(shape: Shape, knownToMm: number): SolidDraft | undefined {
  // Places are kept to a tenth, sizes to a hundredth.
  const mm = (value: number): string => keptText(value, 0.01);
  const point = (at: Vec): [string, string, string] => [mm(at[0]), mm(at[1]), mm(at[2])];
  const { box, cylinder, tube } = shape;
  if (box !== undefined) {
    const size = box.maxMm.map((max, i) => mm(max - box.minMm[i]!)) as unknown as SolidDraft['size'];
    return { ...emptySolid, kind: 'box', size, anchor: 'corner', place: placeDraft(box.minMm, knownToMm) };
  }
  const known = { ...emptyPlace, known: mm(knownToMm) };
  if (tube !== undefined)
    return {
      ...emptySolid,
      kind: 'tube',
      diameter: mm(2 * tube.radiusMm),
      points: tube.pointsMm.map(point),
      place: known,
    };
  if (cylinder === undefined) return undefined;
  const diameter = mm(2 * cylinder.radiusMm);
  const run = sub(cylinder.toMm, cylinder.fromMm);
  const lie = (['along', 'across', 'upright'] as const).find((_, i) =>
    run.every((d, k) => (k === i ? d > 0 : d === 0)),
  );
  if (lie === undefined)
    return {
      ...emptySolid,
      kind: 'cylinder',
      diameter,
      lie: 'askew',
      points: [point(cylinder.fromMm), point(cylinder.toMm)],
      place: known,
    };
  const middle = scale(add(cylinder.fromMm, cylinder.toMm), 0.5);
  const place = placeDraft(middle, knownToMm);
  return { ...emptySolid, kind: 'cylinder', diameter, length: mm(norm(run)), lie, anchor: 'middle', place };
}

function tubeOf(draft: SolidDraft, unit: TapeUnit): { readonly shape: Shape; readonly knownToMm: number } | undefined {
  const d = dimension(draft.diameter, unit);
  const known = tapeMm(draft.place.known, unit);
  const pointsMm: [number, number, number][] = [];
  for (const texts of draft.points) {
    const [x, y, z] = texts.map((text) => tapeMm(text, unit));
    if (!x?.ok || !y?.ok || !z?.ok) return undefined;
    pointsMm.push([x.value, y.value, z.value]);
  }
  if (!d.ok || !known.ok || pointsMm.length < 2) return undefined;
  return {
    shape: { tube: { pointsMm: pointsMm.map(triple), radiusMm: hundredth(d.value / 2) } },
    knownToMm: known.value,
  };
}

const hundredth = (mm: number): number => Math.round(mm * 100) / 100;
const triple = (v: Vec): [number, number, number] => {
  const tenth = (mm: number): number => Math.round(mm * 10) / 10 + 0;
  return [tenth(v[0]), tenth(v[1]), tenth(v[2])];
};

/** Where its middle is, in words: it tells apart two solids of one size. */
export function shapePlace({ box, cylinder, tube, mesh, turnDeg, atMm }: Shape, lengths: Lengths): string {
  // A solid that is turned after its numbers is told by its size; its numbers are not its place.
  if (mesh !== undefined || turnDeg !== undefined) return '';
  const [from, to] = [
    box?.minMm ?? cylinder?.fromMm ?? tube?.pointsMm[0],
    box?.maxMm ?? cylinder?.toMm ?? tube?.pointsMm.at(-1),
  ];
  if (from === undefined || to === undefined) return '';
  const middle = add(scale(add(from, to), 0.5), atMm ?? [0, 0, 0]);
  return `at ${lengths.spot(middle)}`;
}

/** A solid in words: "box 160 × 100 × 120 mm". */
export function shapeWords(shape: Shape, { fine }: Lengths): string {
  if (shape.box !== undefined) {
    const { minMm, maxMm } = shape.box;
    return `box ${maxMm
      .map((max, i) => fine(max - minMm[i]!))
      .join(' × ')
      .replaceAll(/ (?:mm|in) ×/gu, ' ×')}`;
  }
  if (shape.cylinder !== undefined) {
    const { fromMm, toMm, radiusMm } = shape.cylinder;
    return `cylinder, ${fine(2 * radiusMm)} across, ${fine(Math.hypot(...toMm.map((v, i) => v - fromMm[i]!)))} long`;
  }
  if (shape.tube !== undefined)
    return `tube, ${fine(2 * shape.tube.radiusMm)} across, ${shape.tube.pointsMm.length} points`;
  return `scan ${shape.mesh?.file ?? ''}`;
}
