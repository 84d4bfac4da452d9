import type { Line, Piece } from '#car';
import type { Parsed } from '#units';
import { angleDeg } from './facing.ts';
import { keepOffMm } from './part-draft.ts';
import { tapeMm, type TapeUnit } from './tape-text.ts';
import { keptText } from './kept-text.ts';

/** One length of a line as it is typed: hose by its id, or hard tube. */
export interface PieceDraft {
  readonly kind: 'hose' | 'tube';
  /** "" = any that fits. */
  readonly hose: string;
  readonly od: string;
  readonly wall: string;
  readonly bend: string;
  readonly material: string;
  /** As it was, where it was: what the form does not ask stays. */
  readonly was: Piece | null;
}

/** How a line runs against gravity, and what else may be said of it; "" = as its duty has it. */
export interface ExtrasDraft {
  readonly runs: '' | 'falls' | 'rises';
  /** Leaned nose up and right side down, least and most [deg]. */
  readonly leans: readonly [string, string, string, string];
  readonly plumb: string;
  readonly flow: string;
  readonly vacuum: string;
  readonly sleeve: string;
  readonly keepOff: string;
  readonly nearStraight: boolean;
}

export const emptyPiece: PieceDraft = { kind: 'hose', hose: '', od: '', wall: '', bend: '', material: '', was: null };

export const pieceDraft = (piece: Piece): PieceDraft => {
  const { hose, tube } = piece;
  if (tube === undefined) return { ...emptyPiece, hose: hose ?? '', was: piece };
  const { odMm, wallMm, bendRadiusMm, material = '' } = tube;
  const sizes = { od: keptText(odMm), wall: keptText(wallMm), bend: keptText(bendRadiusMm) };
  return { ...emptyPiece, kind: 'tube', ...sizes, material, was: piece };
};

export const extrasDraft = (line: Line): ExtrasDraft => {
  const { pitchDeg, rollDeg, withinPlumbDeg } = line.fall ?? {};
  const [a, b] = pitchDeg ?? ['', ''];
  const [c, d] = rollDeg ?? ['', ''];
  return {
    runs: line.fall !== undefined ? 'falls' : line.rises === true ? 'rises' : '',
    leans: [`${a}`, `${b}`, `${c}`, `${d}`],
    plumb: said(withinPlumbDeg, ''),
    flow: said(line.flowLMin, ''),
    vacuum: said(line.vacuumBar, ''),
    sleeve: line.sleeve ?? '',
    keepOff: line.keepOffMm === undefined ? '' : keptText(line.keepOffMm),
    nearStraight: line.nearStraight === true,
  };
};

const said = (value: number | undefined, unit: string): string => (value === undefined ? '' : `${value}${unit}`);

/** A plain number within bounds, its unit behind it or not; undefined where nothing stands. */
export function plainNumber(text: string, from: number, to: number, unit: string): Parsed<number | undefined> {
  const bare = text.trim();
  if (bare === '') return { ok: true, value: undefined };
  const own = bare.toLowerCase().endsWith(unit.toLowerCase()) ? bare.slice(0, -unit.length).trim() : bare;
  const value = /^-?\d+(?:[.,]\d+)?$/u.test(own) ? Number(own.replace(',', '.')) : Number.NaN;
  if (Number.isNaN(value) || value < from || value > to)
    return { ok: false, fault: `"${bare}" is not from ${from} to ${to} ${unit}`, ways: [] };
  return { ok: true, value };
}

export const flowLMin = (text: string): Parsed<number | undefined> => plainNumber(text, 0, 100_000, 'L/min');
export const vacuumBar = (text: string): Parsed<number | undefined> => plainNumber(text, 0, 1, 'bar');

/** Up to this a car leans on its stands or in use [deg]. */
const MOST_LEAN_DEG = 90;

/** An angle of leaning; undefined where nothing stands. */
export function leanDeg(text: string): Parsed<number | undefined> {
  if (text.trim() === '') return { ok: true, value: undefined };
  const read = angleDeg(text);
  if (!read.ok) return read;
  const value = Math.round(read.value * 100) / 100;
  return Math.abs(value) > MOST_LEAN_DEG
    ? { ok: false, fault: `"${text}" is more than a car leans; -90 to 90 degrees are allowed`, ways: [] }
    : { ok: true, value };
}

export type Extras = Pick<Line, 'fall' | 'rises' | 'flowLMin' | 'vacuumBar' | 'sleeve' | 'keepOffMm' | 'nearStraight'>;

/** What the form says of the line besides what it joins. */
export function extrasOf(draft: ExtrasDraft, unit: TapeUnit): Parsed<Extras> {
  const [flow, vacuum, keepOff] = [flowLMin(draft.flow), vacuumBar(draft.vacuum), keepOffMm(draft.keepOff, unit)];
  const fall = fallOf(draft);
  if (!flow.ok) return flow;
  if (!vacuum.ok) return vacuum;
  if (!keepOff.ok) return keepOff;
  if (!fall.ok) return fall;
  return {
    ok: true,
    value: {
      ...(fall.value === undefined ? {} : { fall: fall.value }),
      ...(draft.runs === 'rises' ? { rises: true } : {}),
      ...(flow.value === undefined ? {} : { flowLMin: flow.value }),
      ...(vacuum.value === undefined ? {} : { vacuumBar: vacuum.value }),
      ...(draft.sleeve.trim() === '' ? {} : { sleeve: draft.sleeve.trim() }),
      ...(keepOff.value === undefined ? {} : { keepOffMm: keepOff.value }),
      ...(draft.nearStraight ? { nearStraight: true } : {}),
    },
  };
}

function fallOf({ runs, leans, plumb }: ExtrasDraft): Parsed<Line['fall'] | undefined> {
  if (runs !== 'falls') return { ok: true, value: undefined };
  const read = leans.map(leanDeg);
  const values: (number | undefined)[] = [];
  for (const one of read) {
    if (!one.ok) return one;
    values.push(one.value);
  }
  const within = plainNumber(plumb, 0, 90, 'deg');
  if (!within.ok) return within;
  const range = (low: number | undefined, high: number | undefined): Parsed<[number, number] | undefined> => {
    if (low === undefined && high === undefined) return { ok: true, value: undefined };
    const [a, b] = [low ?? 0, high ?? 0];
    return a <= b
      ? { ok: true, value: [a, b] }
      : { ok: false, fault: `it leans from ${a} to ${b} degrees: the lesser one comes first`, ways: [] };
  };
  const [pitch, roll] = [range(values[0], values[1]), range(values[2], values[3])];
  if (!pitch.ok) return pitch;
  if (!roll.ok) return roll;
  return {
    ok: true,
    value: {
      ...(pitch.value === undefined ? {} : { pitchDeg: pitch.value }),
      ...(roll.value === undefined ? {} : { rollDeg: roll.value }),
      ...(within.value === undefined ? {} : { withinPlumbDeg: within.value }),
    },
  };
}

const hundredth = (mm: number): number => Math.round(mm * 100) / 100;

/** The lengths of a line as its form says them. */
export function piecesOf(drafts: readonly PieceDraft[], unit: TapeUnit): Parsed<Piece[]> {
  const pieces: Piece[] = [];
  for (const [i, draft] of drafts.entries()) {
    if (draft.was !== null && JSON.stringify(pieceDraft(draft.was)) === JSON.stringify(draft)) {
      pieces.push(draft.was);
      continue;
    }
    const { hose: _h, tube: _t, ...kept } = draft.was ?? {};
    if (draft.kind === 'hose') {
      if (draft.hose.trim() === '')
        return { ok: false, fault: `piece ${i + 1}: which hose? Its id is wanted, or take the piece away`, ways: [] };
      pieces.push({ hose: draft.hose.trim(), ...kept });
      continue;
    }
    const [od, wall, bend] = [tapeMm(draft.od, unit), tapeMm(draft.wall, unit), tapeMm(draft.bend, unit)];
    if (!od.ok) return od;
    if (!wall.ok) return wall;
    if (!bend.ok) return bend;
    if (od.value <= 0 || wall.value <= 0 || bend.value <= 0 || 2 * wall.value >= od.value)
      return { ok: false, fault: `piece ${i + 1}: a tube of ${od.value} x ${wall.value} mm has no bore`, ways: [] };
    const material = draft.material.trim();
    const tube = {
      odMm: hundredth(od.value),
      wallMm: hundredth(wall.value),
      bendRadiusMm: hundredth(bend.value),
      ...(material === '' ? {} : { material }),
    };
    pieces.push({ tube, ...kept });
  }
  return { ok: true, value: pieces };
}
