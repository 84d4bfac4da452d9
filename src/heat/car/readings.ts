import type { Car, HeatReading } from '#car';
import type { HeatCase, ReadingCompared, Soak } from '../heat-answer.ts';

/** How readings of each kind differ from what is worked out, by themselves. Common practice. */
export const readsHow: Readonly<Record<HeatReading['means'], string>> = {
  strip: 'a strip holds the hottest moment since it was put on, to +-20 K; it lies in the shade of its own foil',
  paint: 'paint turns at the hottest moment since it was put on, to +-20 K, and later where it is thick',
  probe:
    'a probe tells its own tip: in air what shines on it too, on a surface less than that where it does not lie flat',
  pyrometer: 'a pyrometer set for dull surfaces reads foil, bright sheet and braid far too low',
};

/** What is worked out where a reading was taken, and the air about it [degC]. */
interface Worked {
  readonly c: number;
  readonly airC: number;
}

/** Readings beside what was worked out in their cases; a reading whose thing or case was not worked out stands with null. */
export const comparedReadings = (car: Car, cases: readonly HeatCase[]): readonly ReadingCompared[] =>
  (car.heatReadings ?? []).map((reading) => {
    const row = cases.find(({ case: at }) => at.id === reading.case);
    const worked = row === undefined ? null : workedAt(row, reading);
    return {
      reading,
      workedC: worked?.c ?? null,
      differenceK: worked === null ? null : differenceOf(reading, worked.c),
    };
  });

/** What the builder's agreed readings correct. */
export interface Corrections {
  /** By how much a rise over the air is to be multiplied so that a line, part or panel comes to what was read, by its id. */
  readonly rises: ReadonlyMap<string, number>;
  /** What share of the heat that its air is worked out to carry off it does, by the bay's id. */
  readonly airShares: ReadonlyMap<string, number>;
}

export const noCorrections: Corrections = { rises: new Map(), airShares: new Map() };

/** Whether the builder agreed to any reading. */
export const hasAgreed = (car: Car): boolean => (car.heatReadings ?? []).some(({ corrects }) => corrects === true);

/** The one factor for each line, part or panel on how much hotter it is than the air about it. */
export const risesOf = (car: Car, cases: readonly HeatCase[]): ReadonlyMap<string, number> =>
  fitted(car, cases, ({ line, part, panel }) => line ?? part ?? panel);

/** The one factor for each bay on how much hotter its air is than that outside, where a case does not state it. */
export const bayRisesOf = (car: Car, cases: readonly HeatCase[]): ReadonlyMap<string, number> =>
  fitted(
    car,
    cases.filter(({ case: at }) => at.bayAirC === undefined),
    ({ bay }) => bay,
  );

/**
 * The factors that fit the agreed readings of each thing by least squares,
 *
 *     f = sum (read - air)(worked - air)/sum (worked - air)^2
 *
 * A reading that lies between the two marks of its strip corrects nothing.
 */
function fitted(
  car: Car,
  cases: readonly HeatCase[],
  idOf: (reading: HeatReading) => string | undefined,
): ReadonlyMap<string, number> {
  const sums = new Map<string, { both: number; squares: number }>();
  for (const reading of car.heatReadings ?? []) {
    const id = idOf(reading);
    const row = cases.find(({ case: at }) => at.id === reading.case);
    if (reading.corrects !== true || id === undefined || row === undefined) continue;
    const worked = workedAt(row, reading);
    if (worked === null || Math.abs(worked.c - worked.airC) < LEAST_RISE_K) continue;
    const rise = worked.c - worked.airC;
    const read = worked.c + differenceOf(reading, worked.c) - worked.airC;
    const sum = sums.get(id) ?? { both: 0, squares: 0 };
    sums.set(id, { both: sum.both + read * rise, squares: sum.squares + rise * rise });
  }
  return new Map(
    [...sums]
      .map(([id, { both, squares }]) => [id, both / squares] as const)
      .filter(([, factor]) => Math.abs(factor - 1) > LEAST_CORRECTION),
  );
}

/** A rise smaller than this says nothing about its cause [K]. */
const LEAST_RISE_K = 5;
const LEAST_CORRECTION = 1e-3;

/** The readings again, with what was corrected by them. */
export const toldCorrections = (
  readings: readonly ReadingCompared[],
  { rises, airShares }: Corrections,
): readonly ReadingCompared[] =>
  readings.map((row) => {
    const { corrects, line, part, panel, bay = '' } = row.reading;
    if (corrects !== true) return row;
    const id = line ?? part ?? panel ?? '';
    const factor = rises.get(id);
    if (factor !== undefined)
      return {
        ...row,
        corrected: `how much hotter ${id} is than its air is multiplied by ${factor.toFixed(2)} in every case`,
      };
    const share = airShares.get(bay);
    if (share === undefined) return row;
    return {
      ...row,
      corrected: `the air through ${bay} counts as carrying off ${share.toFixed(2)} of the heat it was worked out to, in every case; its flows stay as worked out`,
    };
  });

/** Read less worked out; of a strip from the nearer of its two marks, 0 between them [K]. */
function differenceOf({ readC, belowC }: HeatReading, worked: number): number {
  if (readC !== undefined && belowC !== undefined) {
    if (worked < readC) return readC - worked;
    return worked > belowC ? belowC - worked : 0;
  }
  if (readC !== undefined) return readC - worked;
  // A mark that did not turn says only that it was cooler.
  return belowC !== undefined && worked > belowC ? belowC - worked : 0;
}

function workedAt(row: HeatCase, reading: HeatReading): Worked | null {
  const bayC = row.bays[0]?.airC ?? row.case.airC ?? USUAL_AIR_C;
  if (reading.line !== undefined) return lineAt(row, reading);
  if (reading.part !== undefined) {
    const part = row.parts.find((found) => found.part === reading.part);
    if (part === undefined) return null;
    return { c: inTime(row.soak, 'parts', part.part, reading.atMin) ?? part.surfaceC, airC: bayC };
  }
  if (reading.panel !== undefined) {
    const panel = row.panels.find((found) => found.panel === reading.panel);
    if (panel === undefined) return null;
    const { atMm } = reading;
    const nearest =
      atMm === undefined ? undefined : panel.patches.toSorted((a, b) => apart(a.atMm, atMm) - apart(b.atMm, atMm))[0];
    return { c: nearest?.c ?? inTime(row.soak, 'panels', panel.panel, reading.atMin) ?? panel.worstC, airC: bayC };
  }
  const bay = row.bays.find((found) => found.bay === reading.bay);
  if (bay === undefined) return null;
  const series = row.soak?.bays.find(({ id }) => id === bay.bay);
  return { c: inTime(row.soak, 'bays', bay.bay, reading.atMin) ?? series?.peak.c ?? bay.airC, airC: bay.outsideC };
}

function lineAt(row: HeatCase, { line: id, alongMm, atMin }: HeatReading): Worked | null {
  const line = row.lines.find((found) => found.line === id);
  if (line === undefined) return null;
  const place = alongMm ?? line.worst.alongMm;
  const point = line.points.toSorted((a, b) => Math.abs(a.alongMm - place) - Math.abs(b.alongMm - place))[0];
  if (point === undefined) return null;
  if (alongMm !== undefined) return { c: point.worstC, airC: point.airC };
  return { c: inTime(row.soak, 'lines', line.line, atMin) ?? line.worst.surfaceC, airC: point.airC };
}

const USUAL_AIR_C = 25;

const apart = (a: readonly number[], b: readonly number[]): number => Math.hypot(...a.map((x, k) => x - b[k]!));

/** A series at a minute, straight between its moments; undefined without one. */
function inTime(
  soak: Soak | undefined,
  of: 'lines' | 'parts' | 'panels' | 'bays',
  id: string,
  atMin: number | undefined,
): number | undefined {
  const c = soak?.[of].find((row) => row.id === id)?.c;
  if (soak === undefined || c === undefined || atMin === undefined) return undefined;
  const after = soak.minutes.findIndex((minute) => minute >= atMin);
  if (after <= 0) return after === 0 ? c[0] : c.at(-1);
  const [from, to] = [soak.minutes[after - 1]!, soak.minutes[after]!];
  return c[after - 1]! + ((atMin - from) / (to - from)) * (c[after]! - c[after - 1]!);
}
