import type { Car, Port } from '#car';
import type { Parsed } from '#units';
import { type EndDraft, endDraft, endFrom } from './port-ends.ts';
import { type FacingDraft, facing, facingDraft, facingOf } from './facing.ts';
import { placeFromTape, type Side, tapeStart, type TapeStep } from './tape-place.ts';
import { tapeMm, type TapeUnit } from './tape-text.ts';
import { keptText, usualText } from './kept-text.ts';

/** Where something is, as it is typed: from what, which way, how far, three times. */
export interface PlaceDraft {
  readonly from: string;
  readonly sides: readonly [Side, Side, Side];
  readonly far: readonly [string, string, string];
  readonly known: string;
  /** It goes along when what the tape was held to is moved or measured again. */
  readonly goesAlong: boolean;
}

/** A port as it is typed. */
export interface PortDraft {
  readonly place: PlaceDraft;
  readonly facing: FacingDraft;
  readonly end: EndDraft;
}

export const emptyPlace: PlaceDraft = {
  from: 'datum',
  sides: ['plus', 'plus', 'plus'],
  far: ['', '', ''],
  // In the unit that is worked in when it is looked at.
  get known() {
    return usualText(5);
  },
  goesAlong: false,
};

export const emptyPort = (way: FacingDraft['mostly']): PortDraft => ({
  place: emptyPlace,
  facing: facingOf(way),
  end: { type: 'orb', size: '' },
});

/** Known worse than this it is no measurement [mm]. */
const MOST_KNOWN_MM = 1000;
/** How well something is known is said to a hundredth [mm]. */
export const KNOWN_STEP_MM = 0.01;

const rounded = (mm: number): number => Math.round(mm / KNOWN_STEP_MM) / Math.round(1 / KNOWN_STEP_MM);

export function knownMm(text: string, unit: TapeUnit): Parsed<number> {
  const read = tapeMm(text, unit);
  if (read.ok && (read.value < 0 || read.value > MOST_KNOWN_MM))
    return { ok: false, fault: `"${text}" is no tolerance; 0 to ${MOST_KNOWN_MM} mm are allowed`, ways: [] };
  return read.ok ? { ok: true, value: rounded(read.value) } : read;
}

/** The place that a form says; undefined as long as something in it cannot be read. */
export function placeOfDraft(
  car: Car,
  draft: PlaceDraft,
  unit: TapeUnit,
): { readonly atMm: [number, number, number]; readonly knownToMm: number } | undefined {
  const start = tapeStart(car, draft.from);
  const known = knownMm(draft.known, unit);
  if (start === undefined || !known.ok) return undefined;
  const steps: TapeStep[] = [];
  for (const [i, side] of draft.sides.entries()) {
    const read = side === 'middle' ? { ok: true as const, value: 0 } : tapeMm(draft.far[i] ?? '', unit);
    if (!read.ok) return undefined;
    steps.push({ side, mm: read.value });
  }
  return placeFromTape(start, steps as [TapeStep, TapeStep, TapeStep], known.value);
}

/** The port that a form says; undefined as long as something in it cannot be read. */
export function portOfDraft(car: Car, id: string, draft: PortDraft, unit: TapeUnit): Port | undefined {
  const place = placeOfDraft(car, draft.place, unit);
  const faces = facing(draft.facing);
  const end = endFrom(draft.end, unit);
  if (place === undefined || !faces.ok || !end.ok) return undefined;
  const follows = leaderOf(draft.place);
  return {
    id,
    atMm: place.atMm,
    faces: faces.value,
    end: end.value,
    knownToMm: place.knownToMm,
    ...(follows === undefined ? {} : { follows }),
  };
}

/** What a place goes along with, as the car file names it. */
export const leaderOf = ({ from, goesAlong }: PlaceDraft): string | undefined =>
  goesAlong && from !== 'datum' ? from.split(' ')[1] : undefined;

/** The name that the tape knows a leader by. */
export const startOf = (follows: string): string => `${follows.includes('.') ? 'port' : 'part'} ${follows}`;

/** A place as it was taped from what it goes along with; from the datum where that has gone. */
export function placeFrom(car: Car, follows: string, atMm: readonly number[], knownToMm: number): PlaceDraft {
  const start = tapeStart(car, startOf(follows));
  if (start === undefined) return placeDraft(atMm, knownToMm);
  const tenth = (mm: number): string => keptText(mm, 0.1);
  const sides = ([0, 1, 2] as const).map((i): Side => (atMm[i]! < start.minMm[i] ? 'minus' : 'plus'));
  const far = ([0, 1, 2] as const).map((i) =>
    tenth(sides[i] === 'minus' ? start.minMm[i] - atMm[i]! : atMm[i]! - start.maxMm[i]),
  );
  // The tape alone: how well its start is known is added again.
  const tapeKnown = Math.sqrt(Math.max(0, knownToMm ** 2 - start.knownToMm ** 2));
  return {
    from: startOf(follows),
    sides: sides as unknown as PlaceDraft['sides'],
    far: far as unknown as PlaceDraft['far'],
    known: tenth(tapeKnown),
    goesAlong: true,
  };
}
/** A place in car axes as the form shows it, from the datum. */
export function placeDraft(atMm: readonly number[], knownToMm: number): PlaceDraft {
  const tenth = (mm: number): string => keptText(Math.abs(mm), 0.1);
  const side = (mm: number): Side => (mm < 0 ? 'minus' : 'plus');
  return {
    from: 'datum',
    sides: [side(atMm[0]!), side(atMm[1]!), side(atMm[2]!)],
    far: [tenth(atMm[0]!), tenth(atMm[1]!), tenth(atMm[2]!)],
    known: keptText(knownToMm, 0.1),
    goesAlong: false,
  };
}

export const portDraft = (car: Car, port: Port, knownToMm: number): PortDraft => ({
  place:
    port.follows === undefined ? placeDraft(port.atMm, knownToMm) : placeFrom(car, port.follows, port.atMm, knownToMm),
  facing: facingDraft(port.faces),
  end: endDraft(port.end),
});
