import type { Vec } from '#geometry';
import type { BayAirAsk } from './bay-air-ask.ts';
import { airOfPower } from './vent-formulas.ts';

/** Litres a minute to cubic metres a second. */
const M3S_PER_L_MIN = 1 / 60_000;
/** Density of the air that a flow in litres is told at [kg/m3]: 20 degC at sea level. */
const TOLD_KG_M3 = 1.204;

/** A fan that runs. */
export interface FanOfBay {
  readonly m3S: number;
  readonly blows: 'in' | 'out';
  readonly opening?: string;
  readonly atMm: Vec;
}

/** What is moved whatever the pressures. */
export interface Forced {
  readonly fan: FanOfBay | undefined;
  readonly intakes: readonly {
    readonly part: string;
    readonly name: string;
    readonly atMm: Vec;
    readonly massKgS: number;
  }[];
}

export function fanOf({ space: { bay }, fanStands }: BayAirAsk): FanOfBay | undefined {
  const { fan } = bay;
  if (fan?.flowLMin === undefined || fanStands === true) return undefined;
  const atMm = bay.minMm.map((mm, k) => (mm + bay.maxMm[k]!) / 2) as unknown as Vec;
  const m3S = fan.flowLMin * M3S_PER_L_MIN;
  return { m3S, blows: fan.blows, atMm, ...(fan.opening === undefined ? {} : { opening: fan.opening }) };
}

/** What the engine draws from the bay: as stated for full load and in proportion to the power, or from the power alone. */
export function intakesOf({ space: { bay }, case: row, mostPowerKw, partNames }: BayAirAsk): Forced['intakes'] {
  const power = row.engineRpm === 0 ? 0 : (row.powerKw ?? 0);
  return (bay.intakes ?? []).map(({ part, atMm, flowLMin }) => ({
    part,
    name: partNames?.get(part) ?? part,
    atMm,
    massKgS:
      flowLMin === undefined || mostPowerKw === undefined || mostPowerKw <= 0
        ? airOfPower(power)
        : flowLMin * M3S_PER_L_MIN * TOLD_KG_M3 * (power / mostPowerKw),
  }));
}
