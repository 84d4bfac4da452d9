import type { Car, Edit, Mover } from '#car';
import { scale } from '#geometry';
import type { Parsed } from '#units';
import { angleDeg, type PlainWay, ways } from './facing.ts';
import { newId } from './new-id.ts';
import { emptyPlace, type PlaceDraft, placeOfDraft } from './port-draft.ts';
import { tapeMm, type TapeUnit } from './tape-text.ts';

/** Something that carries parts about, as it is typed. */
export interface MoverDraft {
  readonly name: string;
  readonly kind: 'swings' | 'slides';
  readonly pivot: PlaceDraft;
  /** The axis it swings about, or the way it slides. */
  readonly along: PlainWay;
  /** Degrees, or a distance, either way from where it is drawn. */
  readonly less: string;
  readonly more: string;
}

export const emptyMover: MoverDraft = {
  name: '',
  kind: 'swings',
  pivot: emptyPlace,
  along: 'rearward',
  less: '1',
  more: '1',
};

const MOST_DEG = 180;
const MOST_MM = 2000;

/** How far it goes one way, from where it is drawn. */
export function reach(kind: MoverDraft['kind'], text: string, unit: TapeUnit): Parsed<number> {
  const read = kind === 'swings' ? angleDeg(text) : tapeMm(text, unit);
  if (!read.ok) return read;
  const most = kind === 'swings' ? MOST_DEG : MOST_MM;
  if (read.value < 0 || read.value > most)
    return {
      ok: false,
      fault: `"${text}" is too far; 0 to ${most} ${kind === 'swings' ? 'degrees' : 'mm'} are allowed`,
      ways: [],
    };
  return { ok: true, value: Math.round(read.value * 100) / 100 };
}

/** The edit that puts a mover on the car. */
export function moverEdits(
  car: Car,
  draft: MoverDraft,
  unit: TapeUnit,
): Parsed<{ readonly id: string; readonly edits: readonly Edit[] }> {
  const no = (fault: string) => ({ ok: false, fault, ways: [] }) as const;
  if (draft.name.trim() === '') return no('it has no name yet');
  const [less, more] = [reach(draft.kind, draft.less, unit), reach(draft.kind, draft.more, unit)];
  if (!less.ok) return less;
  if (!more.ok) return more;
  if (less.value + more.value === 0) return no('it does not move; one way or the other must be above 0');
  const id = newId(
    draft.name,
    car.movers.map((mover) => mover.id),
    'mover',
  );
  const way = ways[draft.along];
  const shift = (mm: number): [number, number, number] => {
    const [x, y, z] = scale(way, mm);
    return [x + 0, y + 0, z + 0];
  };
  const name = draft.name.trim();
  if (draft.kind === 'slides') {
    const mover: Mover = { id, name, slideMm: [shift(-less.value), shift(more.value)] };
    return { ok: true, value: { id, edits: [{ do: 'add-mover', mover }] } };
  }
  const pivot = placeOfDraft(car, draft.pivot, unit);
  if (pivot === undefined) return no('a distance to its axis is missing or cannot be read; it is marked');
  const mover: Mover = { id, name, pivotMm: pivot.atMm, axis: [...way], turnDeg: [-less.value, more.value] };
  return { ok: true, value: { id, edits: [{ do: 'add-mover', mover }] } };
}

/** A mover in words: "swings 1° and 1° about an axis", "slides". */
export function moverWords(mover: Mover): string {
  const swing = mover.turnDeg === undefined ? [] : [`swings ${mover.turnDeg[0]}° to ${mover.turnDeg[1]}°`];
  const slide =
    mover.slideMm === undefined
      ? []
      : [`slides from ${mover.slideMm[0].join(', ')} to ${mover.slideMm[1].join(', ')} mm`];
  return [...swing, ...slide].join('; ');
}
