import type { BaySpace, Car, Case } from '#car';
import type { Vec } from '#geometry';
import type { FilmTable } from '../balance/thermal-net.ts';
import { boilingTable } from '../laws/boiling-film.ts';
import { filmAt, type FilmShape, filmTable, type RangeLeft } from '../laws/film.ts';

/** Air of one kind: outside and still, outside and streaming by, or that of a bay. */
export interface AirZone {
  readonly bay: BaySpace | null;
  readonly airC: number;
  readonly airMPerS: number;
}

export const STILL = 0;
export const STREAM = 1;
/** Zones from here on are the car's bays, in their order. */
export const FIRST_BAY = 2;

const KMH = 1 / 3.6;
/** Where nothing is known of a bay's air: buoyancy alone. */
const STILL_M_PER_S = 0;

/** The air outside in a case; the bays' own are put in as they are worked out. */
export function airZones(car: Car, at: Case): AirZone[] {
  const airC = at.airC ?? USUAL_AIR_C;
  return [
    { bay: null, airC, airMPerS: STILL_M_PER_S },
    { bay: null, airC, airMPerS: at.engineRpm === 0 ? 0 : (at.speedKmh ?? 0) * KMH },
    ...(car.bays ?? []).map((bay) => ({ bay, airC: at.bayAirC ?? airC, airMPerS: at.bayAirMPerS ?? STILL_M_PER_S })),
  ];
}

const USUAL_AIR_C = 25;

const isIn = ({ minMm, maxMm }: BaySpace, p: Vec): boolean =>
  [0, 1, 2].every((i) => p[i]! >= minMm[i]! && p[i]! <= maxMm[i]!);

/** Whose air a point is in. */
export function zoneAt(car: Car, p: Vec): number {
  const i = (car.bays ?? []).findIndex((bay) => isIn(bay, p));
  return i < 0 ? STILL : FIRST_BAY + i;
}

interface FilmInAir {
  readonly shape: FilmShape;
  readonly lengthM: number;
  readonly zone: number;
}

/** Films that are asked for, one for each shape, size and zone: the table is made once and moved with its air. */
export class Films {
  readonly #asks: (FilmInAir | { readonly boilsAtC: number })[] = [];
  readonly #index = new Map<string, number>();
  readonly #made = new Map<string, FilmTable>();

  /** Number of the film; sizes within a tenth share one. */
  row(shape: FilmShape, lengthM: number, zone: number): number {
    const size = Math.round(Math.log(Math.max(1e-3, lengthM)) / SIZE_STEP);
    const key = `${shape} ${size} ${zone}`;
    const known = this.#index.get(key);
    if (known !== undefined) return known;
    this.#asks.push({ shape, lengthM: Math.exp(size * SIZE_STEP), zone });
    this.#index.set(key, this.#asks.length - 1);
    return this.#asks.length - 1;
  }

  /** Number of the film through which water that boils gives off its steam. */
  boiling(boilsAtC: number): number {
    const key = `boils ${boilsAtC}`;
    const known = this.#index.get(key);
    if (known !== undefined) return known;
    this.#asks.push({ boilsAtC });
    this.#index.set(key, this.#asks.length - 1);
    return this.#asks.length - 1;
  }

  /** Whose air it goes to; null: it leaves the car as steam. */
  zoneOf(film: number): number | null {
    const ask = this.#asks[film]!;
    return 'zone' in ask ? ask.zone : null;
  }

  /**
   * The tables in this air. Each is made for air at the nearest of a row of temperatures and speeds and moved along, as its numbers hang
   * on the difference: so a table never hangs on which air was asked about before.
   */
  tables(zones: readonly AirZone[]): readonly FilmTable[] {
    return this.#asks.map((ask, i) => {
      if (!('zone' in ask)) return boilingTable(ask.boilsAtC);
      const { airC, airMPerS } = zones[ask.zone]!;
      const nearC = AIR_STEP_K * Math.round(airC / AIR_STEP_K);
      const speed = airMPerS < LEAST_M_PER_S ? null : Math.round(Math.log(airMPerS) / SPEED_STEP);
      const key = `${i} ${nearC} ${speed}`;
      const made =
        this.#made.get(key) ??
        filmTable({ ...ask, airC: nearC, airMPerS: speed === null ? 0 : Math.exp(speed * SPEED_STEP) });
      this.#made.set(key, made);
      return { ...made, airC };
    });
  }

  /** What range a film leaves at a temperature of its surface; undefined: none. */
  leaves(zones: readonly AirZone[], film: number, surfaceC: number): RangeLeft | undefined {
    const ask = this.#asks[film]!;
    if (!('zone' in ask)) return undefined;
    const zone = zones[ask.zone]!;
    return filmAt({ ...ask, airC: zone.airC, airMPerS: zone.airMPerS }, surfaceC).leaves;
  }
}

/** Sizes are grouped in steps of some 5 %: h goes with at most the half power. */
const SIZE_STEP = 0.1;
/** A film's numbers change by less than half a per cent over half of these [K; natural logarithm of speed]. */
const AIR_STEP_K = 4;
const SPEED_STEP = 0.02;
/** Slower air counts as still. */
const LEAST_M_PER_S = 0.01;
