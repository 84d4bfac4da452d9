import { standardGravity } from '#units';
import type { BayAir, DrainOpening, OpeningFlow } from './bay-air-answer.ts';
import type { BayOpening } from './bay-space.ts';
import type { ReadyBay } from './ready-bay.ts';
import type { AtTemperature, SettledAir } from './settled-air.ts';

/** Air meets what stands in a bay over about half of its cross-section. Source: common-practice. */
const FREE_CROSS_SECTION = 0.5;

/** What was settled, opening by opening. */
export function toldAir(ready: ReadyBay, { at, heatW, unsettled }: SettledAir): BayAir {
  const { ask, outsideC, forced } = ready;
  const { bay } = ask.space;
  const { airC } = at;
  const overK = airC - outsideC;
  return {
    bay: bay.id,
    name: bay.name ?? bay.id,
    airC,
    outsideC,
    speedMPerS: ask.case.bayAirMPerS ?? typicalSpeed(ready, at),
    how: ask.case.bayAirC === undefined ? 'worked out' : 'stated',
    heatW,
    massKgS: at.massInKgS,
    asStanding: ready.pressures.wanted.length > 0,
    openings: [...ready.open.map((row, i) => flowOf(ready, at, row, i)), ...fanFlow(ready, at)],
    drains: ready.drains.map((row) => drainOf(at, row)),
    intakes: forced.intakes.map((row) => ({ ...row, airC, overK })),
    ...(unsettled === undefined ? {} : { unsettled }),
    findings: [],
  };
}

function flowOf(ready: ReadyBay, at: AtTemperature, row: BayOpening, i: number): OpeningFlow {
  const mass = at.flows.massKgS[i]!;
  const both = at.bothWaysM3S[i];
  return {
    ...placed(row),
    flowM3S: mass / (mass > 0 ? at.airs.inKgM3 : at.airs.outKgM3),
    airC: mass > 0 ? at.airC : ready.outsideC,
    freeM2: row.areaM2 * (row.mesh?.openShare ?? 1),
    outsidePa: ready.pressures.wanted.includes(row.opening) ? null : ready.pressures.pa[i]!,
    overPa: at.flows.overPa[i]! - ready.pressures.pa[i]!,
    ...(both === undefined ? {} : { bothWaysM3S: both }),
  };
}

const placed = ({ opening, name, panel, atMm, faces, areaM2, lets }: BayOpening) => ({
  opening,
  name,
  ...(panel === undefined ? {} : { panel }),
  atMm,
  faces,
  areaM2,
  ...(lets === undefined ? {} : { lets }),
});

function fanFlow({ ask, forced, outsideC }: ReadyBay, { airC }: AtTemperature): readonly OpeningFlow[] {
  const { fan } = forced;
  if (fan === undefined) return [];
  const isIn = fan.blows === 'in';
  const row = ask.space.openings.find(({ opening }) => opening === fan.opening);
  return [
    {
      ...(row === undefined
        ? { opening: 'fan', name: 'Fan', atMm: fan.atMm, faces: [0, 0, 1], areaM2: 0 }
        : placed(row)),
      flowM3S: isIn ? -fan.m3S : fan.m3S,
      airC: isIn ? outsideC : airC,
      freeM2: row?.areaM2 ?? 0,
      outsidePa: 0,
      overPa: 0,
      fan: true,
    },
  ];
}

/** Level of the drain in the column of air inside; outside it the air is still. */
function drainOf({ flows, airs }: AtTemperature, row: BayOpening): DrainOpening {
  const stack = (airs.outKgM3 - airs.inKgM3) * standardGravity * (row.atMm[2] / 1000);
  return { opening: row.opening, name: row.name, atMm: row.atMm, areaM2: row.areaM2, overPa: flows.levelPa + stack };
}

/** Flow through the bay over half of its mean cross-section: a typical speed, to a factor of two. */
function typicalSpeed({ ask }: ReadyBay, { massInKgS, airs }: AtTemperature): number {
  const [x, y, z] = ask.space.bay.maxMm.map((mm, k) => (mm - ask.space.bay.minMm[k]!) / 1000) as [
    number,
    number,
    number,
  ];
  return massInKgS / airs.inKgM3 / (FREE_CROSS_SECTION * (x * y * z) ** (2 / 3));
}
