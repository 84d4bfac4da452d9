import { type Car, type Edit, type Mover, TAPE_KNOWN_TO_MM } from '#car';
import { add, norm, scale, sub, type Vec } from '#geometry';
import type { Lengths, Parsed } from '#units';
import { angleDeg, type PlainWay, ways } from './facing.ts';
import { newId } from './new-id.ts';
import { emptyPlace, placeDraft, type PlaceDraft, placeOfDraft } from './port-draft.ts';
import { tapeMm, type TapeUnit } from './tape-text.ts';
import { keptText } from './kept-text.ts';

/** Something that carries parts about, as it is typed. */
export interface MoverDraft {
  readonly name: string;
  readonly kind: 'swings' | 'slides';
  readonly pivot: PlaceDraft;
  /** The axis it swings about, or the way it slides; `own`: as it is, which is none of the plain ones. */
  readonly along: PlainWay | 'own';
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

/** A mover that is there as it would be typed. What also slides keeps its slide while its swing is changed. */
export function moverDraft(mover: Mover): MoverDraft {
  const name = mover.name ?? mover.id;
  if (mover.turnDeg !== undefined) {
    const [low, high] = mover.turnDeg;
    const pivot = placeDraft(mover.pivotMm ?? [0, 0, 0], TAPE_KNOWN_TO_MM);
    const along = plainWay(mover.axis ?? [1, 0, 0]) ?? 'own';
    return { name, kind: 'swings', pivot, along, less: `${-low}`, more: `${high}` };
  }
  const [back, on] = mover.slideMm ?? [
    [0, 0, 0],
    [0, 0, 0],
  ];
  const way = plainWay(norm(on) > 0 ? on : scale(back, -1));
  const isOpposite = way !== undefined && norm(add(back, scale(ways[way], norm(back)))) < 1e-6;
  const along = isOpposite ? way : 'own';
  return {
    name,
    kind: 'slides',
    pivot: emptyPlace,
    along,
    less: keptText(norm(back), 0.01),
    more: keptText(norm(on), 0.01),
  };
}

/** The plain way that a direction points, if it does. */
const plainWay = (direction: Vec): PlainWay | undefined =>
  (Object.keys(ways) as PlainWay[]).find((way) => norm(sub(scale(ways[way], norm(direction)), direction)) < 1e-6);

/** The edits of a mover: a new one, or what of one that is there the form changed. */
export function moverEdits(
  car: Car,
  draft: MoverDraft,
  unit: TapeUnit,
  of: string | null = null,
): Parsed<{ readonly id: string; readonly edits: readonly Edit[] }> {
  const no = (fault: string) => ({ ok: false, fault, ways: [] }) as const;
  if (draft.name.trim() === '') return no('it has no name yet');
  const [less, more] = [reach(draft.kind, draft.less, unit), reach(draft.kind, draft.more, unit)];
  if (!less.ok) return less;
  if (!more.ok) return more;
  if (less.value + more.value === 0) return no('it does not move; one way or the other must be above 0');
  const was = car.movers.find((mover) => mover.id === of);
  if (of !== null && was === undefined) return no(`there is no mover ${of} any more`);
  const id =
    of ??
    newId(
      draft.name,
      car.movers.map((mover) => mover.id),
      'mover',
    );
  const way = draft.along === 'own' ? undefined : ways[draft.along];
  const name = draft.name.trim();
  if (draft.kind === 'slides') {
    const [back, on] = was?.slideMm ?? [undefined, undefined];
    const slideMm: Mover['slideMm'] = [
      shift(way === undefined ? back : scale(way, -1), less.value),
      shift(way ?? on, more.value),
    ];
    return { ok: true, value: { id, edits: changes(was, draft, { id, name, slideMm }) } };
  }
  const isSamePivot = was !== undefined && JSON.stringify(moverDraft(was).pivot) === JSON.stringify(draft.pivot);
  const pivot = isSamePivot ? { atMm: was.pivotMm } : placeOfDraft(car, draft.pivot, unit);
  if (pivot === undefined) return no('a distance to its axis is missing or cannot be read; it is marked');
  const axis: Mover['axis'] = way === undefined ? was?.axis : [way[0], way[1], way[2]];
  const swung = { id, name, pivotMm: pivot.atMm, axis, turnDeg: [-less.value + 0, more.value] } as Mover;
  return { ok: true, value: { id, edits: changes(was, draft, swung) } };
}

/** So far that way. */
function shift(way: Vec | undefined, mm: number): [number, number, number] {
  const long = way === undefined ? 0 : norm(way);
  if (way === undefined || long === 0) return [0, 0, 0];
  const [x, y, z] = scale(way, mm / long);
  return [x + 0, y + 0, z + 0];
}

/** One new mover, or the fields that are other than they were, in one step. */
function changes(was: Mover | undefined, draft: MoverDraft, mover: Mover): readonly Edit[] {
  if (was === undefined) return [{ do: 'add-mover', mover }];
  const had = { ...was, name: was.name ?? was.id };
  // Numbers that were not touched stay to their last digit.
  const isOther = JSON.stringify({ ...draft, name: '' }) !== JSON.stringify({ ...moverDraft(was), name: '' });
  const edits = (['name', 'pivotMm', 'axis', 'turnDeg', 'slideMm'] as const)
    .filter((field) => field === 'name' || isOther)
    .filter((field) => mover[field] !== undefined && JSON.stringify(mover[field]) !== JSON.stringify(had[field]))
    .map((field) => ({ do: 'set-mover', mover: was.id, field, value: mover[field] }) as Edit);
  return edits.length === 0 ? [] : [{ do: 'several', edits }];
}

/** A mover in words: "swings 1° and 1° about an axis", "slides". */
export function moverWords(mover: Mover, lengths: Lengths): string {
  const swing = mover.turnDeg === undefined ? [] : [`swings ${mover.turnDeg[0]}° to ${mover.turnDeg[1]}°`];
  const slide =
    mover.slideMm === undefined
      ? []
      : [`slides from ${lengths.place(mover.slideMm[0])} to ${lengths.spot(mover.slideMm[1])}`];
  return [...swing, ...slide].join('; ');
}
