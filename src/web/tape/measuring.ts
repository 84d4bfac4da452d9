import {
  type Car,
  type Edit,
  findPort,
  type Origin,
  type OriginReport,
  type PointReport,
  type Reading,
  resolveOrigins,
} from '#car';
import type { Parsed } from '#units';
import { angleDeg } from './facing.ts';
import { newId } from './new-id.ts';
import { KNOWN_STEP_MM, knownMm } from './port-draft.ts';
import { tapeMm, type TapeUnit } from './tape-text.ts';
import { keptText, usualText } from './kept-text.ts';

export type OriginKind = Origin['kind'];
type Texts = readonly [string, string, string];

/** A reference point as it is typed: where it is on the car, and what was read at it from this origin. */
export interface MarkDraft {
  readonly name: string;
  readonly at: Texts;
  readonly read: Texts;
  readonly down: string;
  readonly known: string;
}

export interface OriginDraft {
  readonly name: string;
  readonly kind: OriginKind;
  readonly points: readonly MarkDraft[];
  /** A level whose lean is known: nose up, right side down. */
  readonly pitch: string;
  readonly roll: string;
}

export const originWords: Readonly<
  Record<OriginKind, { readonly name: string; readonly says: string; readonly least: number }>
> = {
  straightedge: {
    name: 'a straightedge',
    says: 'Laid across two points whose places are known: read along it, out to its side, down from it.',
    least: 2,
  },
  level: {
    name: 'a level line',
    says: 'A laser or a water level: heights down from it. One known height and the lean, or three heights that give the lean.',
    least: 1,
  },
  points: {
    name: 'axes of its own, by reference points',
    says: 'Three or more points that are known on the car and were read in the axes of the origin, such as a table or a scanner.',
    least: 3,
  },
  marks: { name: 'marks', says: 'Known points from which a tape is held straight to the port.', least: 1 },
};

export const emptyMark = (n: number): MarkDraft => ({
  name: `p${n}`,
  at: ['', '', ''],
  read: ['', '', ''],
  down: '',
  // In the unit that is worked in when it is looked at.
  get known() {
    return usualText(5);
  },
});
export const emptyOrigin: OriginDraft = {
  name: '',
  kind: 'straightedge',
  points: [emptyMark(1), emptyMark(2)],
  pitch: '',
  roll: '',
};

export function originDraft(origin: Origin): OriginDraft {
  const mm = (value: number | undefined): string => (value === undefined ? '' : keptText(value));
  const three = (v: readonly number[] | undefined): Texts => [mm(v?.[0]), mm(v?.[1]), mm(v?.[2])];
  const deg = (value: number | undefined): string => (value === undefined ? '' : `${value}`);
  return {
    name: origin.name ?? origin.id,
    kind: origin.kind,
    points: origin.points.map((point) => ({
      name: point.name,
      at: three(point.atMm),
      read: three(point.readMm),
      down: mm(point.downMm),
      known: keptText(point.knownToMm ?? 5, KNOWN_STEP_MM),
    })),
    pitch: deg(origin.pitchDeg),
    roll: deg(origin.rollDeg),
  };
}

const no = (fault: string) => ({ ok: false, fault, ways: [] }) as const;

function three(texts: Texts, unit: TapeUnit): [number, number, number] | undefined {
  const [x, y, z] = texts.map((text) => tapeMm(text, unit));
  return x?.ok && y?.ok && z?.ok ? [x.value, y.value, z.value] : undefined;
}

/** The origin that a form says, or what is missing in one line. */
export function originFrom(id: string, draft: OriginDraft, unit: TapeUnit): Parsed<Origin> {
  if (draft.name.trim() === '') return no('it has no name yet');
  const points: Origin['points'] = [];
  for (const [i, mark] of draft.points.entries()) {
    const atMm = three(mark.at, unit);
    const known = knownMm(mark.known, unit);
    const where = `point ${i + 1}`;
    if (!/^[\p{L}\p{N}][\p{L}\p{N}_-]{0,63}$/u.test(mark.name))
      return no(`${where}: "${mark.name}" is no name; letters, digits, - or _ are allowed`);
    if (atMm === undefined) return no(`${where}: its place on the car is missing or cannot be read`);
    if (!known.ok) return no(`${where}: ${known.fault}`);
    const readMm = draft.kind === 'points' ? three(mark.read, unit) : undefined;
    if (draft.kind === 'points' && readMm === undefined)
      return no(`${where}: what was read at it is missing or cannot be read`);
    const down = draft.kind === 'level' ? tapeMm(mark.down, unit) : undefined;
    if (down !== undefined && !down.ok) return no(`${where}: ${down.fault}`);
    points.push({
      name: mark.name,
      atMm,
      ...(readMm === undefined ? {} : { readMm }),
      ...(down === undefined ? {} : { downMm: down.value }),
      knownToMm: known.value,
    });
  }
  const lean = draft.kind === 'level' ? leanOf(draft) : { ok: true as const, value: {} };
  if (!lean.ok) return lean;
  return { ok: true, value: { id, name: draft.name.trim(), kind: draft.kind, points, ...lean.value } };
}

function leanOf({ pitch, roll }: OriginDraft): Parsed<Pick<Origin, 'pitchDeg' | 'rollDeg'>> {
  const read = (text: string): Parsed<number | undefined> =>
    text.trim() === '' ? { ok: true, value: undefined } : angleDeg(text);
  const [p, r] = [read(pitch), read(roll)];
  if (!p.ok) return p;
  if (!r.ok) return r;
  return {
    ok: true,
    value: {
      ...(p.value === undefined ? {} : { pitchDeg: p.value }),
      ...(r.value === undefined ? {} : { rollDeg: r.value }),
    },
  };
}

export const newOriginId = (car: Car, name: string): string =>
  newId(
    name,
    (car.origins ?? []).map((origin) => origin.id),
    'origin',
  );

/** The edits that put an origin on the car, or change it, in one step. */
export function originEdits(was: Origin | undefined, origin: Origin): readonly Edit[] {
  if (was === undefined) return [{ do: 'add-origin', origin }];
  const fields = (['name', 'kind', 'points', 'pitchDeg', 'rollDeg'] as const).filter(
    (field) => JSON.stringify(was[field]) !== JSON.stringify(origin[field]),
  );
  const set = fields.map(
    (field) =>
      ({
        do: 'set-origin',
        origin: was.id,
        field,
        ...(origin[field] === undefined ? {} : { value: origin[field] }),
      }) as Edit,
  );
  return set.length === 0 ? [] : [{ do: 'several', edits: set }];
}

/** How an origin comes out on the car as it would be: each point with its miss, or why it cannot be worked out. */
export function originReport(car: Car, origin: Origin): { readonly report?: OriginReport; readonly fault?: string } {
  const others = (car.origins ?? []).filter(({ id }) => id !== origin.id);
  const { report } = resolveOrigins({ ...car, parts: [], origins: [...others, origin] });
  const own = report.origins.find((row) => row.origin === origin.id);
  if (own !== undefined) return { report: own };
  const fault = report.faults.find(({ place }) => place.startsWith(`origins[${others.length}]`));
  return fault === undefined ? {} : { fault: `${fault.stands}; allowed: ${fault.allowed}` };
}

/** A reading as it is typed: from what, and the numbers that the tape gave. */
export interface ReadingDraft {
  /** "" = the car's axes, an origin's id, or "origin.point" for a plain distance. */
  readonly from: string;
  readonly values: Texts;
  readonly known: string;
}

export const emptyReading: ReadingDraft = {
  from: '',
  values: ['', '', ''],
  // In the unit that is worked in when it is looked at.
  get known() {
    return usualText(5);
  },
};

const fieldsOf = {
  car: [
    ['xMm', 'Rearward'],
    ['yMm', 'Right'],
    ['zMm', 'Up'],
  ],
  straightedge: [
    ['alongMm', 'Along it'],
    ['outMm', 'Out to its side'],
    ['downMm', 'Down from it'],
  ],
  level: [['downMm', 'Down from it']],
  points: [
    ['readMm', 'x'],
    ['readMm', 'y'],
    ['readMm', 'z'],
  ],
  mark: [['distanceMm', 'Straight distance']],
} as const satisfies Record<string, readonly (readonly [keyof Reading, string])[]>;
type ReadingKind = keyof typeof fieldsOf;

function kindOf(car: Car, from: string): ReadingKind {
  if (from === '') return 'car';
  if (from.includes('.')) return 'mark';
  const kind = car.origins?.find((origin) => origin.id === from)?.kind;
  return kind === undefined || kind === 'marks' ? 'mark' : kind;
}

const fileWords: Readonly<Record<string, string>> = {
  xMm: 'rearward',
  yMm: 'right',
  zMm: 'up',
  alongMm: 'along',
  outMm: 'out',
  downMm: 'down',
  readMm: 'x, y, z',
  distanceMm: 'straight distance',
  '"knownToMm": 100': '±100 mm',
};

/** What the car file calls a reading, as the form calls it. */
export const inShopWords = (text: string): string =>
  Object.entries(fileWords).reduce((now, [word, words]) => now.replaceAll(word, words), text);

/** What can be read from there, in words. */
export const readingLabels = (car: Car, from: string): readonly string[] =>
  fieldsOf[kindOf(car, from)].map(([, label]) => label);

/** From what a port can be read. */
export function readingStarts(car: Car): readonly { readonly value: string; readonly label: string }[] {
  return [
    { value: '', label: "the car's datum" },
    ...(car.origins ?? []).flatMap((origin) => {
      const name = origin.name ?? origin.id;
      const own = origin.kind === 'marks' ? [] : [{ value: origin.id, label: name }];
      return [
        ...own,
        ...origin.points.map((point) => ({
          value: `${origin.id}.${point.name}`,
          label: `${name}: point ${point.name}`,
        })),
      ];
    }),
  ];
}

export function readingDraft(car: Car, reading: Reading): ReadingDraft {
  const from = reading.from ?? '';
  const mm = (value: number | undefined): string => (value === undefined ? '' : keptText(value));
  const values = fieldsOf[kindOf(car, from)].map(([key], i) =>
    mm(key === 'readMm' ? reading.readMm?.[i] : (reading[key] as number | undefined)),
  );
  return {
    from,
    values: [values[0] ?? '', values[1] ?? '', values[2] ?? ''],
    known: keptText(reading.knownToMm ?? 5, KNOWN_STEP_MM),
  };
}

/** The reading that a form says; numbers that were not taken are left out. */
export function readingFrom(car: Car, draft: ReadingDraft, unit: TapeUnit): Parsed<Reading> {
  const kind = kindOf(car, draft.from);
  const known = knownMm(draft.known, unit);
  if (!known.ok) return known;
  const from = draft.from === '' ? {} : { from: draft.from };
  if (kind === 'points') {
    const readMm = three(draft.values, unit);
    return readMm === undefined
      ? no('all three of x, y, z are wanted')
      : { ok: true, value: { ...from, readMm, knownToMm: known.value } };
  }
  const out: Record<string, number> = {};
  for (const [i, [key]] of fieldsOf[kind].entries()) {
    const text = draft.values[i] ?? '';
    if (text.trim() === '') continue;
    const read = tapeMm(text, unit);
    if (!read.ok) return read;
    if (key === 'distanceMm' && read.value < 0) return no(`"${text}" is no distance; 0 and more is allowed`);
    out[key] = read.value;
  }
  if (Object.keys(out).length === 0) return no('no number is read yet');
  return { ok: true, value: { ...from, ...out, knownToMm: known.value } };
}

/** Where a port comes out by its readings, each with its miss; or why it cannot be placed. */
export function portReport(
  car: Car,
  ref: string,
  measured: readonly Reading[],
): { readonly report?: PointReport; readonly fault?: string } {
  const found = findPort(car, ref);
  if (found === undefined) return {};
  const part = { ...found.part, ports: [{ ...found.port, measured: [...measured] }] };
  const { report } = resolveOrigins({ ...car, parts: [part] });
  const own = report.points.find((row) => row.port === ref);
  if (own !== undefined) return { report: own };
  const fault = report.faults.find(({ place }) => place.startsWith('parts'));
  return fault === undefined ? {} : { fault: `${fault.stands}; allowed: ${fault.allowed}` };
}
