import type { Car, Case, Part } from '#car';
import { findFinish, type FinishRow, finishOf, heatCover, type HeatCoverRow } from '#standards';

/** What lies over a part. */
export interface CoverOver {
  readonly kind: HeatCoverRow['kind'];
  readonly name: string;
  readonly thicknessMm: number;
  readonly conductivityWPerMK: number;
  /** Air behind it; 0: it lies on. */
  readonly airGapMm: number;
  readonly finish: FinishRow;
  readonly densityKgM3: number;
}

/** How a part stands in one case. */
export interface PartWarmth {
  readonly how: 'given' | 'kept' | 'worked out';
  /** Of the surface, or of what is under the cover; null: worked out. */
  readonly c: number | null;
  readonly note?: string;
}

/** The finish of a surface as the car file names it, or with the emissivity that it states. */
export function finishFor(
  stated: { readonly finish?: string | undefined; readonly emissivity?: number | undefined },
  usual: FinishRow,
): FinishRow {
  const row = stated.finish === undefined ? usual : (findFinish(stated.finish) ?? usual);
  if (stated.emissivity === undefined) return row;
  const e = stated.emissivity;
  return {
    id: 'stated',
    name: 'as stated',
    emissivity: e,
    spread: [Math.max(0.01, e - STATED_SPREAD), Math.min(1, e + STATED_SPREAD)],
    source: 'builder',
  };
}

/** How well a builder knows an emissivity. Common practice. */
const STATED_SPREAD = 0.05;

export const bareFinish = (part: Part): FinishRow =>
  finishFor(part, finishOf(part.class === 'hot' ? 'stainless-used' : 'machinery'));

/** What covers a part; null: nothing. */
export function coverOf(part: Part): CoverOver | null {
  const { cover } = part;
  if (cover === undefined) return null;
  const usual = heatCover(cover.kind);
  return {
    kind: cover.kind,
    name: usual.name,
    thicknessMm: cover.thicknessMm ?? usual.thicknessMm,
    conductivityWPerMK: cover.conductivityWPerMK ?? usual.conductivityWPerMK,
    airGapMm: cover.airGapMm ?? usual.airGapMm ?? 0,
    finish: finishFor(cover, finishOf(usual.finish)),
    densityKgM3: usual.densityKgM3,
  };
}

/** Air outside where a case says none [degC]. Common practice. */
export const USUAL_AIR_C = 25;

/** Usual temperatures where a case says none [degC]. Common practice. */
const USUAL_C = { oil: 100, coolant: 90, fuel: 25, 'outside-air': USUAL_AIR_C } as const;

/** Temperature of a fluid in a case [degC]. */
export const fluidC = (at: Case, fluid: keyof typeof USUAL_C): number => {
  const airC = at.airC ?? USUAL_C['outside-air'];
  if (fluid === 'oil') return at.oilC ?? USUAL_C.oil;
  if (fluid === 'coolant') return at.coolantC ?? USUAL_C.coolant;
  return fluid === 'fuel' ? (at.fuelC ?? airC) : airC;
};

/** How a part stands in a case that runs. Of a hot part no temperature is made up: without one it is worked out like the rest. */
export function partWarmth(part: Part, at: Case): PartWarmth {
  const stated = part.surfaceByCase?.find((row) => row.case === at.id)?.surfaceC;
  if (stated !== undefined) return { how: 'given', c: stated };
  if (part.keptAt !== undefined) return { how: 'kept', c: fluidC(at, part.keptAt) };
  if (part.surfaceC === undefined) return { how: 'worked out', c: null };
  const colder = isColdCase(at);
  return {
    how: 'given',
    c: part.surfaceC,
    ...(colder && part.class === 'hot'
      ? {
          note: `${part.name ?? part.id} is counted at its running-hot ${part.surfaceC} degC: state surfaceByCase for ${at.id}`,
        }
      : {}),
  };
}

/** A case in which nobody would expect the hot parts at their hottest: idling, cold, or without power stated. */
const isColdCase = (at: Case): boolean => at.engineRpm < IDLE_RPM || (at.oilC ?? USUAL_C.oil) < 60;
const IDLE_RPM = 1500;

/** The state that a switched-off case begins from: the case it names, else the one whose hot parts are hottest. */
export function caseBefore(car: Car, off: Case): Case | undefined {
  const running = (car.cases ?? []).filter((at) => !isSwitchedOff(at));
  const named = running.find(({ id }) => id === off.after);
  if (named !== undefined) return named;
  const heatOf = (at: Case): number =>
    car.parts.reduce((sum, part) => sum + (part.class === 'hot' ? (partWarmth(part, at).c ?? 0) : 0), 0) +
    (at.powerKw ?? 0) / 1e3 +
    (at.oilC ?? 0) / 1e6;
  return running.toSorted((a, b) => heatOf(b) - heatOf(a))[0];
}

/** The engine stands: what follows is a soak. */
export const isSwitchedOff = (at: Case): boolean => at.engineRpm === 0;
