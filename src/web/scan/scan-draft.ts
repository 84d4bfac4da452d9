import type { Car, Edit, Part, PartClass, Shape } from '#car';
import type { Vec } from '#geometry';
import type { Parsed } from '#units';
import { newId } from '../tape/new-id.ts';
import { emptyPlace, knownMm, type PlaceDraft, placeOfDraft } from '../tape/port-draft.ts';
import type { TapeUnit } from '../tape/tape-text.ts';

export type FileUnit = 'mm' | 'cm' | 'm' | 'in';
export const fileUnits: readonly FileUnit[] = ['mm', 'cm', 'm', 'in'];

/** One point seen on the scan and found on the car by tape. */
export interface PairDraft {
  /** In the file's axes [mm], as three texts, so that they can be typed too. */
  readonly onScan: readonly [string, string, string];
  readonly onCar: PlaceDraft;
}

export const emptyPair: PairDraft = { onScan: ['', '', ''], onCar: emptyPlace };

/** A pair as the server takes it [mm]. */
export interface Pair {
  readonly inFile: [number, number, number];
  readonly inCar: [number, number, number];
}

/** A point of the file's own axes as it is typed [mm]; undefined as long as it is none. */
export function filePoint(texts: readonly string[]): [number, number, number] | undefined {
  const [x = NaN, y = NaN, z = NaN] = texts.map((text) =>
    text.trim() === '' ? NaN : Number(text.trim().replace(',', '.').replace('\u2212', '-')),
  );
  return [x, y, z].every(Number.isFinite) ? [x, y, z] : undefined;
}

export const filePointTexts = (at: Vec): [string, string, string] => {
  const tenth = (mm: number): string => `${Math.round(mm * 10) / 10 + 0}`;
  return [tenth(at[0]), tenth(at[1]), tenth(at[2])];
};

/** The pairs that are whole, with the place of each in the form. */
export function wholePairs(
  car: Car,
  drafts: readonly PairDraft[],
  unit: TapeUnit,
): readonly { readonly row: number; readonly pair: Pair }[] {
  return drafts.flatMap((draft, row) => {
    const inFile = filePoint(draft.onScan);
    const place = placeOfDraft(car, draft.onCar, unit);
    return inFile === undefined || place === undefined ? [] : [{ row, pair: { inFile, inCar: place.atMm } }];
  });
}

/** Where a scan is kept: under "scans", by its own name with plain letters. */
export function scanFile(name: string, taken: readonly string[]): string {
  const dot = name.lastIndexOf('.');
  const ending = name.slice(dot).toLowerCase();
  const base = newId(name.slice(0, dot), [], 'scan');
  for (let n = 1; ; n++) {
    const file = `scans/${base}${n === 1 ? '' : `-${n}`}${ending}`;
    if (!taken.includes(file)) return file;
  }
}

export const isScanName = (name: string): boolean => /\.(stl|ply|obj|glb|step|stp)$/iu.test(name);

export interface ScanPart {
  readonly name: string;
  readonly class: PartClass;
  readonly known: string;
}

/** The edit that puts a placed scan on the car as a part. */
export function scanPartEdits(
  car: Car,
  draft: ScanPart,
  mesh: { readonly file: string; readonly unit: FileUnit; readonly turnDeg: Vec; readonly atMm: Vec },
  unit: TapeUnit,
): Parsed<{ readonly id: string; readonly edits: readonly Edit[] }> {
  const known = knownMm(draft.known, unit);
  if (!known.ok) return known;
  if (draft.name.trim() === '') return { ok: false, fault: 'the part has no name yet', ways: [] };
  const id = newId(
    draft.name,
    car.parts.map((part) => part.id),
    'part',
  );
  const shape: Shape = {
    mesh: {
      file: mesh.file,
      unit: mesh.unit,
      turnDeg: rounded(mesh.turnDeg, 1e4),
      atMm: rounded(mesh.atMm, 100),
      knownToMm: known.value,
    },
  };
  const part: Part = { id, name: draft.name.trim(), class: draft.class, shapes: [shape], ports: [] };
  return { ok: true, value: { id, edits: [{ do: 'add-part', part }] } };
}

const rounded = (v: Vec, parts: number): [number, number, number] => {
  const of = (x: number): number => Math.round(x * parts) / parts + 0;
  return [of(v[0]), of(v[1]), of(v[2])];
};
