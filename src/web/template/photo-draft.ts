import type { Point2 } from '#geometry';
import type { PhotoReference } from '#intake';
import type { Parsed } from '#units';
import type { PhotoAsked } from '../server/calls.ts';
import { tapeMm, type TapeUnit } from '../tape/tape-text.ts';
import { usualText } from '../tape/kept-text.ts';

export type ReferenceKind = PhotoReference['kind'];

/** What is said of a photo, as it is typed. */
export interface PhotoDraft {
  readonly kind: ReferenceKind;
  /** Its sizes in the order of its kind; those that may be empty last. */
  readonly sizes: readonly [string, string, string, string];
  readonly above: string;
  readonly known: string;
  readonly card: string;
  /** Pointed at in the photo [px]. */
  readonly corners: readonly Point2[];
  readonly on: Point2 | null;
}

export const emptyPhoto: PhotoDraft = {
  kind: 'square',
  sizes: ['', '', '', ''],
  above: '2 mm',
  // In the unit that is worked in when it is looked at.
  get known() {
    return usualText(0.5);
  },
  card: '4 mm',
  corners: [],
  on: null,
};

/** What a reference is called, its sizes, how many of them it must have, and its corners in the order in which they are pointed at. */
export const references: Readonly<
  Record<
    ReferenceKind,
    {
      readonly words: string;
      readonly sizes: readonly string[];
      readonly least: number;
      readonly corners: readonly string[];
      readonly note: string;
    }
  >
> = {
  square: {
    words: 'a carpenter’s square',
    sizes: [
      'One arm, outer edge',
      'Other arm, outer edge',
      'Width of the first arm, if known',
      'Width of the other, if known',
    ],
    least: 2,
    corners: [
      'its outer corner',
      'the outer tip of the first arm',
      'its inner corner',
      'the outer tip of the other arm',
    ],
    note: 'Along two sides of the template, each arm at least 60 % as long as the template is that way.',
  },
  frame: {
    words: 'an open frame',
    sizes: ['Outside, one way', 'Outside, the other way', 'Width of its bars, if known'],
    least: 2,
    corners: ['one outer corner', 'the next, round it', 'the third', 'the last'],
    note: 'Laid round the template: it spans it both ways, best of all.',
  },
  sheet: {
    words: 'a sheet or board',
    sizes: ['One way', 'The other way'],
    least: 2,
    corners: ['one corner', 'the next, round it', 'the third', 'the last'],
    note: 'At least 60 % as long as the template both ways.',
  },
  rule: {
    words: 'a rule',
    sizes: ['Length', 'Width'],
    least: 2,
    corners: ['one corner', 'the next, round it', 'the third', 'the last'],
    note: 'It spans one way only: expect a refusal unless the template is small.',
  },
};

const no = (fault: string): Parsed<never> => ({ ok: false, fault, ways: [] });
const MOST_MM = 60;
const MOST_SIZE_MM = 5000;

/** A size of the reference; what may be empty is undefined then. */
export function sizeMm(kind: ReferenceKind, i: number, text: string, unit: TapeUnit): Parsed<number | undefined> {
  if (text.trim() === '' && i >= references[kind].least) return { ok: true, value: undefined };
  const read = tapeMm(text, unit);
  if (read.ok && (read.value < 1 || read.value > MOST_SIZE_MM))
    return no(`"${text}" is no size of it; 1 to ${MOST_SIZE_MM} mm is allowed`);
  return read;
}

/** A thickness or how well something is known. */
export function thinMm(text: string, unit: TapeUnit): Parsed<number> {
  const read = tapeMm(text, unit);
  if (read.ok && (read.value < 0 || read.value > MOST_MM)) return no(`"${text}": 0 to ${MOST_MM} mm is allowed`);
  return read;
}

const hundredth = (mm: number): number => Math.round(mm * 100) / 100;

/** What is asked of the server; one line where something is missing. */
export function photoAsked(draft: PhotoDraft, unit: TapeUnit): Parsed<PhotoAsked> {
  const { kind } = draft;
  const labels = references[kind].sizes;
  const sizes: number[] = [];
  for (const [i, label] of labels.entries()) {
    const read = sizeMm(kind, i, draft.sizes[i]!, unit);
    if (!read.ok) return { ...read, fault: `${label}: ${read.fault}` };
    if (read.value === undefined) break;
    sizes.push(hundredth(read.value));
  }
  // Of a square both widths count or none.
  const said = kind === 'square' && sizes.length === 3 ? sizes.slice(0, 2) : sizes;
  const thin = {
    above: 'Face of the reference above the bench',
    known: 'Sizes of the reference known to',
    card: 'Cardboard',
  };
  const read = { above: 0, known: 0, card: 0 };
  for (const [field, label] of Object.entries(thin) as [keyof typeof thin, string][]) {
    const one = thinMm(draft[field], unit);
    if (!one.ok) return { ...one, fault: `${label}: ${one.fault}` };
    read[field] = hundredth(one.value);
  }
  const px = ([x, y]: Point2): string => `${x.toFixed(1)},${y.toFixed(1)}`;
  return {
    ok: true,
    value: {
      reference: `${kind}:${said.join('x')}`,
      referenceThicknessMm: read.above,
      referenceKnownMm: read.known,
      thicknessMm: read.card,
      ...(draft.corners.length === 4 ? { cornersPx: draft.corners.map(px).join(' ') } : {}),
      ...(draft.on === null ? {} : { onPx: px(draft.on) }),
    },
  };
}
