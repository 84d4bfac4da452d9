import type { Edit, Lever } from '#car';
import type { Parsed } from '#units';
import { angleDeg } from '../tape/facing.ts';
import { readField } from '../flow/row-draft.ts';
import type { RowField } from '../flow/row-plan.ts';
import type { TapeUnit } from '../tape/tape-text.ts';
import { keptText } from '../tape/kept-text.ts';

/** Where a lever turns, is held and pulls, as it is typed: three lengths each. */
export interface LeverDraft {
  readonly pivot: string;
  readonly handle: string;
  /** By arm. */
  readonly arms: Readonly<Record<string, string>>;
  readonly low: string;
  readonly high: string;
  /** What it was is kept beside it. */
  readonly keepsWas: boolean;
}

const words = (at: readonly number[] | undefined): string => (at ?? []).map((mm) => keptText(mm, 0.01)).join('; ');

/** A place as the form shows it. */
export const placeWords = (at: readonly number[]): string => at.map((mm) => keptText(mm, 0.01)).join('; ');

export const leverDraft = (lever: Lever): LeverDraft => ({
  pivot: words(lever.pivotMm),
  handle: words(lever.handle?.atMm),
  arms: Object.fromEntries(lever.arms.map(({ id, atMm }) => [id, words(atMm)])),
  low: `${lever.turnDeg[0]}`,
  high: `${lever.turnDeg[1]}`,
  keepsWas: lever.was === undefined,
});

export const placeField = (label: string): Extract<RowField, { kind: 'lengths' }> => ({
  kind: 'lengths',
  at: label,
  label,
  count: 3,
  isNeeded: true,
});

type Place = [number, number, number];

export const readPlace = (label: string, text: string, unit: TapeUnit): Parsed<Place> =>
  readField(placeField(label), text, false, unit) as Parsed<Place>;

/** How far a lever can be said to swing either way [deg]. */
const MOST_DEG = 350;

export function readSwing(text: string, sign: -1 | 1): Parsed<number> {
  const plain = text.replace('−', '-').trim();
  const read = angleDeg(plain.replace(/^-/u, ''));
  if (!read.ok) return read;
  const value = (plain.startsWith('-') ? -1 : 1) * (Math.round(read.value * 1e4) / 1e4) + 0;
  if (value * sign < 0 || Math.abs(value) > MOST_DEG)
    return {
      ok: false,
      fault: `"${text}" is no end of it; ${sign < 0 ? '-350 to 0' : '0 to 350'} deg is allowed`,
      ways: [],
    };
  return { ok: true, value };
}

/** The lever that a form says; what is not touched stays to its last digit. */
export function leverFrom(lever: Lever, draft: LeverDraft, unit: TapeUnit): Parsed<Lever> {
  const before = leverDraft(lever);
  const pivot = readPlace('Pivot', draft.pivot, unit);
  if (!pivot.ok) return pivot;
  const handle = lever.handle === undefined ? undefined : readPlace('Handle', draft.handle, unit);
  if (handle?.ok === false) return handle;
  const arms: Lever['arms'] = [];
  for (const arm of lever.arms) {
    const read = readPlace(`Arm ${arm.id}`, draft.arms[arm.id] ?? '', unit);
    if (!read.ok) return read;
    arms.push(draft.arms[arm.id] === before.arms[arm.id] ? arm : { ...arm, atMm: read.value });
  }
  const [low, high] = [readSwing(draft.low, -1), readSwing(draft.high, 1)];
  if (!low.ok) return low;
  if (!high.ok) return high;
  return {
    ok: true,
    value: {
      ...lever,
      pivotMm: draft.pivot === before.pivot ? lever.pivotMm : pivot.value,
      ...(handle === undefined
        ? {}
        : { handle: draft.handle === before.handle ? lever.handle! : { ...lever.handle, atMm: handle.value } }),
      arms,
      turnDeg: [low.value, high.value],
    },
  };
}

const FIELDS = ['pivotMm', 'handle', 'arms', 'turnDeg', 'cables'] as const;

/** One step; how it was goes along where it is to be kept. */
export function leverEdits(was: Lever, now: Lever, keepsWas: boolean): readonly Edit[] {
  const changed = FIELDS.filter((field) => JSON.stringify(was[field]) !== JSON.stringify(now[field]));
  if (changed.length === 0) return [];
  const before = Object.fromEntries(changed.map((field) => [field, was[field]]));
  const set = (field: keyof Lever, value: unknown): Edit => ({ do: 'set-lever', lever: was.id, field, value }) as Edit;
  return [
    {
      do: 'several',
      edits: [...changed.map((field) => set(field, now[field])), ...(keepsWas ? [set('was', before)] : [])],
    },
  ];
}
