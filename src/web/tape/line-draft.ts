import { type Car, type Duty, type Edit, findLineAt, type Line, type Piece } from '#car';
import { type Parsed, parsePressure } from '#units';
import { type ExtrasDraft, extrasDraft, extrasOf, type PieceDraft, pieceDraft, piecesOf } from './line-extras.ts';
import { lineSize, type SizeDraft, sizeDraft } from './line-size.ts';
import { celsius } from './part-draft.ts';
import { type ThroughDraft, throughDraft, throughOf } from './line-through.ts';
import type { TapeUnit } from './tape-text.ts';

/** A line as it is typed. */
export interface LineDraft {
  readonly name: string;
  readonly from: string;
  readonly to: string;
  readonly duty: Duty;
  readonly size: SizeDraft;
  readonly pressure: string;
  readonly temperature: string;
  readonly through: readonly ThroughDraft[];
  readonly pieces: readonly PieceDraft[];
  readonly extras: ExtrasDraft;
}

export const lineDraft = (line: Line): LineDraft => ({
  name: line.name ?? '',
  from: line.from,
  to: line.to,
  duty: line.duty,
  size: sizeDraft(line),
  pressure: line.pressureBar === undefined ? '' : `${line.pressureBar} bar`,
  temperature: line.temperatureC === undefined ? '' : `${line.temperatureC} C`,
  through: line.through.map(throughDraft),
  pieces: ownPieces(line).map(pieceDraft),
  extras: extrasDraft(line),
});

/** `hose` is short for one piece of it. */
const ownPieces = (line: Line): readonly Piece[] =>
  line.pieces.length === 0 && line.hose !== undefined ? [{ hose: line.hose }] : line.pieces;

const PA_PER_BAR = 1e5;
const HIGHEST_BAR = 1000;
const HOTTEST_C = 1000;

/** Working pressure above the air outside [bar]; empty = as the duty has it. */
export function gaugeBar(text: string): Parsed<number | undefined> {
  if (text.trim() === '') return { ok: true, value: undefined };
  const read = parsePressure(text);
  if (!read.ok) return read;
  const value = Math.round((read.value.pascals / PA_PER_BAR) * 100) / 100;
  if (read.value.kind === 'absolute' || value < -1 || value > HIGHEST_BAR)
    return {
      ok: false,
      fault: `"${text}" is no working pressure; -1 to ${HIGHEST_BAR} bar above the air outside are allowed`,
      ways: [],
    };
  return { ok: true, value };
}

export const lineCelsius = (text: string): Parsed<number | undefined> => celsius(text, undefined, HOTTEST_C);

/** Ports that the line may end at: free ones and its own. */
export function portsFor(car: Car, line: Line): readonly { readonly value: string; readonly label: string }[] {
  return car.parts.flatMap((part) =>
    part.ports.flatMap((port) => {
      const value = `${part.id}.${port.id}`;
      const user = findLineAt(car, value);
      return user === undefined || user.id === line.id
        ? [{ value, label: `${part.name ?? part.id}: ${port.name ?? port.id}` }]
        : [];
    }),
  );
}

/** Ways through the parts that let lines through. */
export function crossingsOf(car: Car): readonly { readonly value: string; readonly label: string }[] {
  return car.parts.flatMap((part) =>
    (part.crossable ?? []).map((kind) => ({
      value: `${part.id} ${kind}`,
      label: `${part.name ?? part.id}, ${kind.replace('-', ' ')}`,
    })),
  );
}

/** A change of these makes another hose of it: a way that was taken no longer holds. */
const REMAKES = new Set<keyof Line>([
  'from',
  'to',
  'dash',
  'boreMm',
  'through',
  'duty',
  'hose',
  'pieces',
  'fall',
  'rises',
  'nearStraight',
]);

/** What the form sets; what it does not know of a line stays as it was. */
const SET = [
  'name',
  'from',
  'to',
  'duty',
  'dash',
  'boreMm',
  'pressureBar',
  'temperatureC',
  'through',
  'hose',
  'pieces',
  'fall',
  'rises',
  'flowLMin',
  'vacuumBar',
  'sleeve',
  'keepOffMm',
  'nearStraight',
] as const satisfies readonly (keyof Line)[];

/** The edits of a line, in one step; `drops` where the way taken goes. */
export function lineEdits(
  car: Car,
  line: Line,
  draft: LineDraft,
  unit: TapeUnit,
): Parsed<{ readonly edits: readonly Edit[]; readonly drops: boolean }> {
  const no = (fault: string) => ({ ok: false, fault, ways: [] }) as const;
  if (draft.from === draft.to) return no('it ends at the port where it begins; another one is wanted');
  const [size, pressure, temperature] = [
    lineSize(draft.size, unit),
    gaugeBar(draft.pressure),
    lineCelsius(draft.temperature),
  ];
  const [steps, pieces, extras] = [
    throughOf(car, draft.through, unit),
    piecesOf(draft.pieces, unit),
    extrasOf(draft.extras, unit),
  ];
  if (draft.pieces.length === 0 && !size.ok) return size;
  if (!steps.ok) return steps;
  if (!pieces.ok) return pieces;
  if (!extras.ok) return extras;
  if (!pressure.ok) return pressure;
  if (!temperature.ok) return temperature;
  // A size that was not touched stays whole: a line may say both a dash size and a bore.
  const isSameSize = JSON.stringify(draft.size) === JSON.stringify(sizeDraft(line));
  const own = {
    ...(line.dash === undefined ? {} : { dash: line.dash }),
    ...(line.boreMm === undefined ? {} : { boreMm: line.boreMm }),
  };
  // One piece of hose may stand in short; it stays so where no other is picked.
  const isShort = line.hose !== undefined && JSON.stringify(pieces.value) === JSON.stringify([{ hose: line.hose }]);
  const wanted: Partial<Line> = {
    ...(draft.name.trim() === '' ? {} : { name: draft.name.trim() }),
    from: draft.from,
    to: draft.to,
    duty: draft.duty,
    ...(isSameSize ? own : size.ok ? size.value : {}),
    ...(pressure.value === undefined ? {} : { pressureBar: pressure.value }),
    ...(temperature.value === undefined ? {} : { temperatureC: temperature.value }),
    through: steps.value,
    ...(isShort ? { hose: line.hose!, pieces: line.pieces } : { pieces: pieces.value }),
    ...extras.value,
  };
  const fields = SET.filter((field) => JSON.stringify(line[field]) !== JSON.stringify(wanted[field]));
  const set = fields.map(
    (field) =>
      ({
        do: 'set-line',
        line: line.id,
        field,
        ...(wanted[field] === undefined ? {} : { value: wanted[field] }),
      }) as Edit,
  );
  const remade = fields.filter((field) => REMAKES.has(field));
  if (line.state !== 'planned' && remade.length > 0)
    return no(`${line.id} is ${line.state}: what it joins and its size stay. Set it back to planned first`);
  const drops = remade.length > 0 && line.taken !== undefined && line.taken !== null;
  const first: Edit[] = drops ? [{ do: 'take-way', line: line.id }] : [];
  return { ok: true, value: { drops, edits: set.length === 0 ? [] : [{ do: 'several', edits: [...first, ...set] }] } };
}
