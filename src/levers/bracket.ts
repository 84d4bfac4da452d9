import type { Lever } from '#car';
import { roundOutline, straightOutline } from '#geometry';
import {
  armDeflection,
  bearingStress,
  lighteningFaults,
  massSaved,
  netSectionStress,
  plateMesh,
  stretchedSheet,
  tearOutStress,
} from '#panels';
import { findSheet, type SheetRow } from '#standards';
import { limits } from './limits.ts';

type Plate = NonNullable<Lever['bracket']>;

/** One way for a bracket to fail: what it has under the pull against what its sheet stands. */
export interface BracketRow {
  readonly what: 'bearing' | 'net-section' | 'tear-out' | 'foot' | 'bolt-bearing' | 'bolt-tear-out';
  readonly stressMpa: number;
  /** Of the sheet: yield in pull and bearing, ultimate in shear [MPa]. */
  readonly standsMpa: number;
}

/** What the plate that carries a lever has to stand, one of `count` alike. */
export interface BracketAnswer {
  readonly sheet: SheetRow;
  /** On the pivot of each plate, along its foot, at the pull that it is judged by [N]. */
  readonly forceN: number;
  /** The same at 250 N at the hand [N]. */
  readonly at250N: number;
  readonly rows: readonly BracketRow[];
  /** What its lightening holes take off, all plates together; absent where it has none. */
  readonly massSavedKg?: number;
  /** What they break of the usual rules, by their place in the list. */
  readonly lightening: readonly (ReturnType<typeof lighteningFaults>[number] & { readonly hole: number })[];
  /** How far the pivot gives, and the hand with it, at 250 N at the hand [mm]. */
  readonly pivotGivesMm: number;
  readonly handGivesMm: number;
}

/** Shear strength over strength in pull, and yield in bearing over yield in pull; from memory. */
const SHEAR_SHARE = 0.6;
const BEARING_SHARE = 1.5;
/** Finest triangles round holes, and across webs. */
const FINE = { quarter: 6, across: 3 } as const;

/**
 * The plate under the force that its pivot bears, taken along the foot: bearing, net section and tear-out at the pin, bending at the
 * weakest level over the foot, bearing and tear-out at the bolts, and how far the hand gives way.
 *
 * @param pivotN - on the pivot at the most hand force [N]
 * @param handN - that hand force [N]
 * @param handMm - from the foot's level up to the hand [mm]
 */
export function bracketAnswer(plate: Plate, pivotN: number, handN: number, handMm: number): BracketAnswer | null {
  const sheet = findSheet(plate.sheet ?? '6061-T6');
  const { yieldMpa, ultimateMpa, stiffnessGpa, poisson } = sheet ?? {};
  if (sheet === undefined || yieldMpa === undefined || ultimateMpa === undefined) return null;
  if (stiffnessGpa === undefined || poisson === undefined) return null;
  const count = plate.count ?? 1;
  const pullN = plate.pullN ?? Math.max(handN, limits.giveAtN.value);
  const forceN = (pivotN * pullN) / handN / count;
  const rows = [...pinRows(plate, forceN), ...footRows(plate, forceN), ...boltRows(plate, forceN)].map((row) => ({
    ...row,
    standsMpa: { pull: yieldMpa, bearing: BEARING_SHARE * yieldMpa, shear: SHEAR_SHARE * ultimateMpa }[row.by],
  }));
  const at250 = (forceN * limits.giveAtN.value) / pullN;
  const stiffnessMpa = 1000 * stiffnessGpa;
  const [, up] = plate.pin.atMm;
  const [foot] = levels(plate);
  const long = Math.max(up - foot.upMm, plate.thicknessMm);
  const depth = (widthAt(plate, foot.upMm) + widthAt(plate, up)) / 2;
  const gives = armDeflection(at250, long, depth, plate.thicknessMm, stiffnessMpa, poisson);
  const inertia = (plate.thicknessMm * depth ** 3) / 12;
  const tilt = (at250 * long ** 2) / (2 * stiffnessMpa * inertia);
  return {
    sheet,
    forceN,
    at250N: at250,
    rows,
    ...massOf(plate, sheet.densityKgM3, count),
    lightening: (plate.holes ?? []).flatMap((_, k) => lighteningOf(plate, k)),
    pivotGivesMm: gives,
    handGivesMm: gives + tilt * Math.max(handMm - up, 0),
  };
}

type Row = Omit<BracketRow, 'standsMpa'> & { readonly by: 'pull' | 'bearing' | 'shear' };

/** Width of the plate this far up [mm]. */
const widthAt = (plate: Plate, up: number): number =>
  plate.widthMm +
  (((plate.topWidthMm ?? plate.widthMm) - plate.widthMm) * Math.min(up, plate.heightMm)) / plate.heightMm;

function pinRows(plate: Plate, forceN: number): Row[] {
  const { atMm, diameterMm } = plate.pin;
  const wide = widthAt(plate, atMm[1]);
  const edge = wide / 2 - Math.abs(atMm[0]);
  const over = Math.max(plate.heightMm - atMm[1] - diameterMm / 2, 0.01);
  return [
    { what: 'bearing', by: 'bearing', stressMpa: bearingStress(forceN, diameterMm, plate.thicknessMm) },
    // The strip over and beside the hole: the lesser of both carries it alone.
    {
      what: 'net-section',
      by: 'pull',
      stressMpa: netSectionStress(forceN, Math.min(wide, 2 * over + diameterMm), diameterMm, plate.thicknessMm),
    },
    { what: 'tear-out', by: 'shear', stressMpa: tearOutStress(forceN, edge, diameterMm, plate.thicknessMm) },
  ];
}

/** A level of the plate that may bend, with what the holes there leave of it. */
interface Level {
  readonly upMm: number;
  readonly inertiaMm4: number;
  readonly halfMm: number;
}

/** Plain levels looked at between foot and pin: a plate that narrows upwards is weakest somewhere between. */
const PLAIN_LEVELS = 24;

/** Levels at which it may bend: the row of bolts or the foot itself first, then up to the pin, and through each lightening hole. */
function levels(plate: Plate): readonly [Level, ...Level[]] {
  const t = plate.thicknessMm;
  const at = (upMm: number, holes: readonly (readonly [x: number, d: number])[]): Level => {
    const wide = widthAt(plate, upMm);
    const lost = holes.reduce((sum, [x, d]) => sum + (t * d ** 3) / 12 + t * d * x * x, 0);
    return { upMm, inertiaMm4: (t * wide ** 3) / 12 - lost, halfMm: wide / 2 };
  };
  const { bolts, holes = [] } = plate;
  const top = Math.max(0, ...(bolts?.atMm ?? []).map(([, y]) => y));
  const row = (bolts?.atMm ?? []).filter(([, y]) => top - y < bolts!.diameterMm);
  /** Chords of the lightening holes that a level cuts. */
  const chords = (up: number) =>
    holes.flatMap(({ atMm: [x, y], diameterMm: d }) => {
      const half2 = (d / 2) ** 2 - (y - up) ** 2;
      return half2 <= 0 ? [] : [[x, 2 * Math.sqrt(half2)] as const];
    });
  const pin = plate.pin.atMm[1];
  const plain = Array.from({ length: PLAIN_LEVELS }, (_, k) => top + ((pin - top) * (k + 1)) / (PLAIN_LEVELS + 1));
  const through = holes.map(({ atMm: [, y] }) => y).filter((y) => y > top && y < pin);
  return [
    at(top, [...row.map(([x]) => [x, bolts!.diameterMm] as const), ...chords(top)]),
    ...[...plain, ...through].map((up) => at(up, chords(up))),
  ];
}

/** Bending at the level that has the most of it. */
function footRows(plate: Plate, forceN: number): Row[] {
  const each = levels(plate).map(
    ({ upMm, inertiaMm4, halfMm }) =>
      (forceN * (plate.pin.atMm[1] - upMm) * halfMm) / Math.max(inertiaMm4, LEAST_INERTIA_MM4),
  );
  return [{ what: 'foot', by: 'pull', stressMpa: Math.max(...each) }];
}

/** Where holes leave nothing, so that it is told rather than divided by. */
const LEAST_INERTIA_MM4 = 1e-3;

function massOf(plate: Plate, densityKgM3: number, count: number): Pick<BracketAnswer, 'massSavedKg'> {
  const { holes = [], thicknessMm } = plate;
  if (holes.length === 0) return {};
  const mm2 = holes.reduce((sum, { diameterMm: d }) => sum + (Math.PI / 4) * d ** 2, 0);
  return { massSavedKg: count * massSaved(mm2, thicknessMm, densityKgM3) };
}

/** A lightening hole against the rules: the metal to the nearest other hole, to the sides and the top, and its share of the width. */
function lighteningOf(plate: Plate, hole: number): BracketAnswer['lightening'][number][] {
  const { bolts, pin, heightMm, widthMm, topWidthMm = widthMm } = plate;
  const holes = plate.holes!;
  const {
    atMm: [x, y],
    diameterMm: d,
  } = holes[hole]!;
  const others = [
    ...holes.filter((_, k) => k !== hole),
    pin,
    ...(bolts?.atMm ?? []).map((atMm) => ({ atMm, diameterMm: bolts!.diameterMm })),
  ];
  const metal = Math.min(
    ...others.map(({ atMm: [ox, oy], diameterMm }) => Math.hypot(ox - x, oy - y) - diameterMm / 2 - d / 2),
  );
  const wide = widthAt(plate, y);
  const slope = Math.hypot(1, (widthMm - topWidthMm) / 2 / heightMm);
  const edge = Math.min((wide / 2 - Math.abs(x)) / slope, heightMm - y) - d / 2;
  return lighteningFaults(d, metal + d, wide, edge).map((fault) => ({ ...fault, hole }));
}

/** Bolts share the pull evenly and its moment by their distance from their middle; the one with the most decides. */
function boltRows(plate: Plate, forceN: number): Row[] {
  const { bolts } = plate;
  if (bolts === undefined || bolts.atMm.length === 0) return [];
  const n = bolts.atMm.length;
  const mid = [0, 1].map((k) => bolts.atMm.reduce((sum, at) => sum + at[k as 0 | 1], 0) / n) as [number, number];
  const polar = bolts.atMm.reduce((sum, [x, y]) => sum + (x - mid[0]) ** 2 + (y - mid[1]) ** 2, 0);
  const moment = forceN * (plate.pin.atMm[1] - mid[1]);
  const turn = polar < 1e-9 ? 0 : moment / polar;
  const each = bolts.atMm.map(([x, y]) => {
    const [fx, fy] = [forceN / n + turn * (y - mid[1]), -turn * (x - mid[0])];
    const edge = Math.min(y, widthAt(plate, y) / 2 - Math.abs(x));
    return { force: Math.hypot(fx, fy), edge };
  });
  const most = each.toSorted((a, b) => b.force - a.force)[0]!;
  const t = plate.thicknessMm;
  const edge = Math.max(most.edge, bolts.diameterMm / 2 + 0.01);
  return [
    { what: 'bolt-bearing', by: 'bearing', stressMpa: bearingStress(most.force, bolts.diameterMm, t) },
    { what: 'bolt-tear-out', by: 'shear', stressMpa: tearOutStress(most.force, edge, bolts.diameterMm, t) },
  ];
}

/** A plate by triangles: greatest stress under its force [MPa], and how far its pivot gives at 250 N at the hand [mm]. */
export interface BracketByTriangles {
  readonly stressMpa: number;
  readonly pivotGivesMm: number;
}

/**
 * The same plate by triangles, held at its bolts: beside the closed forms, which know nothing of the stress round a hole. Null where
 * it has no bolts or cannot be meshed. Some 0.2 s.
 */
export function bracketByTriangles(
  plate: Plate,
  { sheet, forceN, at250N, lightening }: BracketAnswer,
): BracketByTriangles | null {
  const bolts = plate.bolts;
  if (bolts === undefined || bolts.atMm.length === 0) return null;
  if (lightening.some(({ value, unit }) => unit === 'mm' && value <= 0)) return null;
  const [w, top, h] = [plate.widthMm / 2, (plate.topWidthMm ?? plate.widthMm) / 2, plate.heightMm];
  const outline = straightOutline([
    [-w, 0],
    [w, 0],
    [top, h],
    [-top, h],
  ]);
  const holes = [
    roundOutline(plate.pin.atMm, plate.pin.diameterMm / 2),
    ...bolts.atMm.map((at) => roundOutline(at, bolts.diameterMm / 2)),
    ...(plate.holes ?? []).map(({ atMm, diameterMm }) => roundOutline(atMm, diameterMm / 2)),
  ];
  const mesh = plateMesh(outline, holes, { sizeMm: Math.min(w, h) / 6, ...FINE });
  const heldLoops = bolts.atMm.map((_, k) => k + 2);
  const elastic = {
    stiffnessMpa: 1000 * sheet.stiffnessGpa!,
    poisson: sheet.poisson!,
    thicknessMm: plate.thicknessMm,
    densityKgM3: sheet.densityKgM3,
  };
  const answer = stretchedSheet(mesh, elastic, { pins: [{ loop: 1, forceN: [forceN, 0] }], heldLoops });
  if ('why' in answer) return null;
  return { stressMpa: answer.stressMpa, pivotGivesMm: (answer.movedMm[1]! * at250N) / forceN };
}
