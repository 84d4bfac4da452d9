import type { Car, Case, Edit } from '#car';
import type { Parsed } from '#units';
import { newId } from '../tape/new-id.ts';
import { type Figure, figureText, readFigure } from './figure.ts';

type PlainField =
  | 'engineRpm'
  | 'oilC'
  | 'coolantC'
  | 'fuelC'
  | 'airC'
  | 'altitudeM'
  | 'powerKw'
  | 'heatToWaterKw'
  | 'blowByLMin'
  | 'pitchDeg'
  | 'rollDeg'
  | 'lastsS'
  | 'speedKmh'
  | 'bayAirC'
  | 'bayAirMPerS'
  | 'soakMin'
  | 'fanRunsMin'
  | 'pumpRunsMin';
type GField = 'forwardG' | 'rightG' | 'upG';
export type CaseField = PlainField | GField;

const plainFigures: Readonly<Record<PlainField, Figure>> = {
  engineRpm: { label: 'Engine speed', unit: 'rpm', from: 0, to: 30_000, isNeeded: true },
  oilC: { label: 'Oil', unit: '°C', from: -60, to: 300 },
  coolantC: { label: 'Water leaving the engine', unit: '°C', from: -60, to: 200 },
  fuelC: { label: 'Fuel', unit: '°C', from: -60, to: 120 },
  airC: { label: 'Air outside', unit: '°C', from: -60, to: 70 },
  altitudeM: { label: 'Height above the sea', unit: 'm', from: -500, to: 6000 },
  powerKw: { label: 'Power of the engine', unit: 'kW', from: 0, to: 5000 },
  heatToWaterKw: { label: 'Heat into the water', unit: 'kW', from: 0, to: 5000 },
  blowByLMin: { label: 'Blow-by', unit: 'L/min', from: 0, to: 10_000 },
  pitchDeg: { label: 'Nose up', unit: 'deg', from: -90, to: 90 },
  rollDeg: { label: 'Right side down', unit: 'deg', from: -180, to: 180 },
  lastsS: { label: 'Lasts', unit: 's', from: 0, to: 86_400 },
  speedKmh: { label: 'Speed of the car', unit: 'km/h', from: 0, to: 600 },
  bayAirC: { label: 'Air in the bay, as measured', unit: '°C', from: -60, to: 1500 },
  bayAirMPerS: { label: 'Speed of the air in the bay', unit: 'm/s', from: 0, to: 200 },
  soakMin: { label: 'Switched off: followed for', unit: 'min', from: 1, to: 600 },
  fanRunsMin: { label: 'Switched off: fan runs on', unit: 'min', from: 0, to: 1440 },
  pumpRunsMin: { label: 'Switched off: water pump runs on', unit: 'min', from: 0, to: 1440 },
};
const gFigures: Readonly<Record<GField, Figure>> = {
  forwardG: { label: 'Speeding up (braking below 0)', unit: 'g', from: -20, to: 20 },
  rightG: { label: 'Turning right (left below 0)', unit: 'g', from: -20, to: 20 },
  upG: { label: 'Through a dip (over a crest below 0)', unit: 'g', from: -20, to: 20 },
};

export const caseFigures: Readonly<Record<CaseField, Figure>> = { ...plainFigures, ...gFigures };
export const caseFields = Object.keys(caseFigures) as readonly CaseField[];
const gFields = Object.keys(gFigures) as readonly GField[];

/** A case as it is typed. */
export interface CaseDraft {
  readonly name: string;
  readonly texts: Readonly<Record<CaseField, string>>;
}

const isG = (field: CaseField): field is GField => field in gFigures;
const valueIn = (at: Partial<Case>, field: CaseField): number | undefined => (isG(field) ? at.g?.[field] : at[field]);

export const caseDraft = (at: Partial<Case>, isInch: boolean): CaseDraft => ({
  name: at.name ?? at.id ?? '',
  texts: Object.fromEntries(
    caseFields.map((field) => [field, figureText(valueIn(at, field), caseFigures[field].unit, isInch)]),
  ) as Record<CaseField, string>,
});

/** The edits of a case: a new one where `was` is none, else each figure that is other than it was. */
export function caseEdits(
  car: Car,
  draft: CaseDraft,
  was: Case | undefined,
  isInch: boolean,
): Parsed<{ readonly id: string; readonly edits: readonly Edit[] }> {
  const name = draft.name.trim();
  if (name === '') return { ok: false, fault: 'Name: nothing stands there', ways: [] };
  const values: Partial<Record<CaseField, number>> = {};
  const before = was === undefined ? undefined : caseDraft(was, isInch);
  for (const field of caseFields) {
    const read = readFigure(draft.texts[field], caseFigures[field], isInch);
    if (!read.ok) return read;
    // A figure that was not touched stays to its last digit.
    const isSame = before?.texts[field] === draft.texts[field];
    const value = isSame ? valueIn(was!, field) : read.value;
    if (value !== undefined) values[field] = value;
  }
  const g = Object.fromEntries(
    gFields.flatMap((field) => (values[field] === undefined ? [] : [[field, values[field]]])),
  );
  const plain = Object.fromEntries(
    (Object.keys(plainFigures) as PlainField[]).flatMap((field) =>
      values[field] === undefined ? [] : [[field, values[field]]],
    ),
  );
  const hasG = Object.keys(g).length > 0;
  const id =
    was?.id ??
    newId(
      name,
      (car.cases ?? []).map((one) => one.id),
      'case',
    );
  const next = { id, name, ...plain, ...(hasG ? { g } : {}) } as Case;
  if (was === undefined) return { ok: true, value: { id, edits: [{ do: 'add-case', case: next }] } };
  const fields = ['name', ...Object.keys(plainFigures), 'g'] as (keyof Omit<Case, 'id'>)[];
  const edits = fields
    .filter(
      (field) => JSON.stringify(next[field]) !== JSON.stringify(field === 'name' ? (was.name ?? was.id) : was[field]),
    )
    .map(
      (field) =>
        ({ do: 'set-case', case: was.id, field, ...(next[field] === undefined ? {} : { value: next[field] }) }) as Edit,
    );
  return { ok: true, value: { id, edits: edits.length === 0 ? [] : [{ do: 'several', edits }] } };
}
