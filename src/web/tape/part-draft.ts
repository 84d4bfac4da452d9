import { type Car, type Edit, type Part, type PartClass, partTolerance, type Shape } from '#car';
import { parseTemperature, type Parsed } from '#units';
import { newId } from './new-id.ts';
import { KNOWN_STEP_MM, knownMm, startOf } from './port-draft.ts';
import { emptySolid, type SolidDraft, shapeOfDraft } from './solid-draft.ts';
import { tapeMm, type TapeUnit } from './tape-text.ts';
import { keptText, usualText } from './kept-text.ts';

/** A part as it is typed. */
export interface PartDraft {
  readonly name: string;
  readonly class: PartClass;
  readonly surface: string;
  readonly shielded: boolean;
  readonly turbine: boolean;
  /** "" = as its class has it. */
  readonly keepOff: string;
  readonly movesWith: string;
  /** Ways that a line may pass through it. */
  readonly crossable: readonly string[];
  readonly known: string;
  readonly shapes: readonly Shape[];
  readonly solid: SolidDraft | null;
  /** Which of the shapes the solid takes the place of, and as what it was opened; null: it is one more. */
  readonly changing: { readonly index: number; readonly was: SolidDraft } | null;
  /** What the part goes along with, as the tape names it; "" = nothing. */
  readonly follows: string;
}

export const emptyPart: PartDraft = {
  name: '',
  class: 'fixed',
  surface: '',
  shielded: false,
  turbine: false,
  keepOff: '',
  movesWith: '',
  crossable: [],
  // In the unit that is worked in when it is looked at.
  get known() {
    return usualText(5);
  },
  shapes: [],
  solid: emptySolid,
  changing: null,
  follows: '',
};

export const partDraft = (part: Part): PartDraft => ({
  name: part.name ?? part.id,
  class: part.class,
  surface: part.surfaceC === undefined ? '' : `${part.surfaceC} C`,
  shielded: part.shielded ?? false,
  turbine: part.turbine ?? false,
  keepOff: part.keepOffMm === undefined ? '' : keptText(part.keepOffMm),
  movesWith: part.movesWith ?? '',
  crossable: part.crossable ?? [],
  known: keptText(part.knownToMm ?? partTolerance(part).knownToMm, KNOWN_STEP_MM),
  shapes: part.shapes,
  solid: null,
  changing: null,
  follows: part.follows === undefined ? '' : startOf(part.follows),
});

const MOST_KEEP_OFF_MM = 2000;
const [COLDEST_C, HOTTEST_C] = [-60, 1500];
const KELVIN = 273.15;

export function keepOffMm(text: string, unit: TapeUnit): Parsed<number | undefined> {
  if (text.trim() === '') return { ok: true, value: undefined };
  const read = tapeMm(text, unit);
  if (read.ok && (read.value < 0 || read.value > MOST_KEEP_OFF_MM))
    return { ok: false, fault: `"${text}" is no keep-off; 0 to ${MOST_KEEP_OFF_MM} mm are allowed`, ways: [] };
  return read;
}

/** Degrees Celsius of a temperature in words; empty = not said. */
export function celsius(text: string, from = COLDEST_C, to = HOTTEST_C): Parsed<number | undefined> {
  if (text.trim() === '') return { ok: true, value: undefined };
  const read = parseTemperature(text);
  if (!read.ok) return read;
  const value = Math.round((read.value - KELVIN) * 10) / 10;
  if (value < from || value > to) return { ok: false, fault: `"${text}" is not within ${from} to ${to} °C`, ways: [] };
  return { ok: true, value };
}

type Fields = Omit<Part, 'id' | 'ports'>;
/** What the form sets; what it does not know of a part stays as it was. */
const SET = [
  'name',
  'class',
  'surfaceC',
  'shielded',
  'turbine',
  'keepOffMm',
  'movesWith',
  'crossable',
  'knownToMm',
  'follows',
  'shapes',
] as const;

function fieldsOf(car: Car, draft: PartDraft, unit: TapeUnit): Parsed<Fields> {
  const missing = (fault: string): Parsed<Fields> => ({ ok: false, fault, ways: [] });
  if (draft.name.trim() === '') return missing('the part has no name yet');
  const [surface, keepOff, known] = [
    celsius(draft.surface),
    keepOffMm(draft.keepOff, unit),
    knownMm(draft.known, unit),
  ];
  if (!surface.ok) return surface;
  if (!keepOff.ok) return keepOff;
  if (!known.ok) return known;
  const solid = draft.solid === null ? undefined : shapeOfDraft(car, draft.solid, unit);
  if (draft.solid !== null && solid === undefined)
    return missing('a dimension or a distance of the solid is missing or cannot be read; it is marked');
  const ownKnown = solid !== undefined && solid.knownToMm !== known.value ? { knownToMm: solid.knownToMm } : {};
  return {
    ok: true,
    value: {
      name: draft.name.trim(),
      class: draft.class,
      knownToMm: known.value,
      ...(surface.value === undefined ? {} : { surfaceC: surface.value }),
      ...(draft.shielded ? { shielded: true } : {}),
      ...(draft.turbine ? { turbine: true } : {}),
      ...(keepOff.value === undefined ? {} : { keepOffMm: keepOff.value }),
      ...(draft.follows === '' ? {} : { follows: draft.follows.split(' ')[1]! }),
      ...(draft.movesWith === '' ? {} : { movesWith: draft.movesWith }),
      ...(draft.crossable.length === 0 ? {} : { crossable: draft.crossable as NonNullable<Part['crossable']> }),
      shapes: solid === undefined ? [...draft.shapes] : withSolid(draft, { ...solid.shape, ...ownKnown }),
    },
  };
}

/** One more, or in the place of the one that is changed: a turn, a shift, an origin that it has stay. */
function withSolid({ shapes, changing, solid: own }: PartDraft, solid: Shape): Shape[] {
  if (changing === null) return [...shapes, solid];
  const isUntouched = JSON.stringify(own) === JSON.stringify(changing.was);
  return shapes.map((shape, i) => {
    if (i !== changing.index || isUntouched) return shape;
    const { box: _b, cylinder: _c, tube: _t, mesh: _m, knownToMm: _k, ...placed } = shape;
    return { ...solid, ...placed };
  });
}

/** The edits that put a part on the car, or change the one that is there, in one step. */
export function partEdits(
  car: Car,
  id: string | null,
  draft: PartDraft,
  unit: TapeUnit,
): Parsed<{ readonly id: string; readonly edits: readonly Edit[] }> {
  const fields = fieldsOf(car, draft, unit);
  if (!fields.ok) return fields;
  if (id === null) {
    const fresh = newId(
      draft.name,
      car.parts.map((part) => part.id),
      'part',
    );
    const part: Part = { ...fields.value, id: fresh, ports: [] };
    return { ok: true, value: { id: fresh, edits: [{ do: 'add-part', part }] } };
  }
  const was = car.parts.find((part) => part.id === id);
  if (was === undefined) return { ok: false, fault: `there is no part ${id} any more`, ways: [] };
  const edits = SET.filter((field) => JSON.stringify(was[field]) !== JSON.stringify(fields.value[field])).map(
    (field) =>
      ({
        do: 'set-part',
        part: id,
        field,
        ...(fields.value[field] === undefined ? {} : { value: fields.value[field] }),
      }) as Edit,
  );
  return { ok: true, value: { id, edits: edits.length === 0 ? [] : [{ do: 'several', edits }] } };
}
