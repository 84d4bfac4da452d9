import { standardPressure } from '#flow';
import { type BayAirAsk, USUAL_AIR_C } from './bay-air-ask.ts';
import type { BayOpening } from './bay-space.ts';
import { fanOf, type Forced, intakesOf } from './forced-air.ts';
import { outsidePressures, type OutsidePressures } from './outside-pressures.ts';

/** A bay made ready: openings that count, pressures outside, what is forced. */
export interface ReadyBay {
  readonly ask: BayAirAsk;
  readonly outsideC: number;
  readonly altitudePa: number;
  readonly open: readonly BayOpening[];
  readonly drains: readonly BayOpening[];
  readonly pressures: OutsidePressures;
  readonly forced: Forced;
  /** Area of an opening with what is tried on it [m2]. */
  readonly areaOf: (opening: BayOpening) => number;
}

/** Which openings count in the case, what presses outside them and what is forced. */
export function readyBay(ask: BayAirAsk): ReadyBay {
  const { space } = ask;
  const off = new Set(ask.coversOff ?? ask.case.coversOff ?? []);
  const rest = space.openings.filter(({ panel }) => panel === undefined || !off.has(panel));
  const all = [...rest, ...[...off].flatMap((id) => space.bare.get(id) ?? [])];
  const fan = fanOf(ask);
  const open = all.filter((row) => !row.isDrain && row.opening !== fan?.opening);
  return {
    ask,
    outsideC: ask.case.airC ?? USUAL_AIR_C,
    altitudePa: standardPressure(ask.case.altitudeM ?? 0),
    open,
    drains: all.filter(({ isDrain }) => isDrain),
    pressures: outsidePressures(ask.case, open),
    forced: { fan, intakes: intakesOf(ask) },
    areaOf: ({ areaM2 }) => areaM2,
  };
}
