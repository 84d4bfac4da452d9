import { boilsAtC, fluidAt } from '#flow';
import type { Vec } from '#geometry';
import { fluidHeatLimits, sealMaterials } from '#standards';
import { standardAtmospherePa } from '#units';
import type { HeatLimit } from '../heat-answer.ts';
import type { HeatModel, ModelLine } from './heat-model.ts';
import type { LineWall } from './line-wall.ts';
import { inTable, type LineFluid } from './line-fluid.ts';

/** The hottest of each kind of thing on a line. */
export interface LineHottest {
  /** Of each hose of the line, and where it sits in its ends. */
  readonly hoses: readonly HosePlace[];
  readonly ends: readonly HosePlace[];
  /** At its ports, where seals sit. */
  readonly port: Place | null;
  readonly sleeve: Place | null;
  readonly fluidC: number;
  readonly fluidAt: Vec;
}

export interface HosePlace {
  readonly hose: NonNullable<LineWall['hose']>;
  readonly place: Place;
}

export interface Place {
  readonly c: number;
  readonly atMm: Vec;
  readonly segment: number;
}

const limit = (about: Omit<HeatLimit, 'marginK'>): HeatLimit => ({ ...about, marginK: about.limitC - about.valueC });

/** What a line's hose, ends, seals, sleeve and fluid stand beside what they come to, least margin first. */
export function lineLimits(
  model: HeatModel,
  line: ModelLine,
  fluid: LineFluid,
  hottest: LineHottest,
): readonly HeatLimit[] {
  const found: HeatLimit[] = [];
  for (const [what, places] of [
    ['hose', hottest.hoses],
    ['end', hottest.ends],
  ] as const) {
    const each = places.map(({ hose, place }) =>
      limit({
        what,
        name: what === 'hose' ? hose.name : 'hose in its end',
        limitC: hose.maxC,
        valueC: place.c,
        source: hose.source,
        atMm: place.atMm,
      }),
    );
    // A line of several hoses is told by the one with least to spare.
    found.push(...each.toSorted((a, b) => a.marginK - b.marginK).slice(0, 1));
  }
  const seal = sealOf(line, fluid);
  if (seal !== null && hottest.port !== null)
    found.push(
      limit({
        what: 'seal',
        name: seal.name,
        limitC: seal.mostC,
        valueC: hottest.port.c,
        source: seal.source,
        atMm: hottest.port.atMm,
      }),
    );
  const sleeve = line.walls.find((wall) => wall.sleeve !== undefined)?.sleeve;
  if (sleeve !== undefined && hottest.sleeve !== null)
    found.push(
      limit({
        what: 'sleeve',
        name: sleeve.name,
        limitC: sleeve.continuousC,
        valueC: hottest.sleeve.c,
        source: sleeve.source,
        atMm: hottest.sleeve.atMm,
      }),
    );
  const stands = fluidStands(model, line, fluid);
  if (stands !== null) found.push(limit({ what: 'fluid', ...stands, valueC: hottest.fluidC, atMm: hottest.fluidAt }));
  return found.toSorted((a, b) => a.marginK - b.marginK);
}

/** What its rings are taken to be: water wants EPDM, all else fluorocarbon; where a ring is nitrile its own limit is told. */
function sealOf(line: ModelLine, { carries }: LineFluid) {
  const hasSeal = line.way.ends.some(({ parts }) =>
    (parts ?? []).some(({ id, kind }) => kind === 'seal' && !id.startsWith('washer-m') && id !== 'thread-sealant'),
  );
  if (!hasSeal) return null;
  const material = sealMaterials.find(
    ({ id }) => id === (carries === 'water' || carries === 'brake-fluid' ? 'epdm' : 'fkm'),
  )!;
  return { ...material, name: `seal of ${material.name}` };
}

const coolantWords = (bar: number, hasCap: boolean): string =>
  hasCap
    ? `coolant boils under its cap of ${bar} bar`
    : bar > 0
      ? `coolant boils at the ${bar} bar of its line; no cap is stated`
      : 'coolant boils at the pressure of the air; no cap is stated';

/** What a line's fluid stands; null: air. */
export function fluidStands(
  model: HeatModel,
  { line }: ModelLine,
  fluid: LineFluid,
): Pick<HeatLimit, 'name' | 'limitC' | 'source' | 'isTableEnd'> | null {
  if (fluid.carries === 'air') return null;
  if (fluid.carries === 'oil' || fluid.carries === 'brake-fluid') {
    const row = fluidHeatLimits.find(({ id }) => id === fluid.carries)!;
    return { name: row.name, limitC: row.mostC, source: row.source };
  }
  const circuit = (model.car.circuits ?? []).find(({ lines }) => lines.includes(line.id));
  if (fluid.carries === 'water') {
    const caps = (circuit?.vessels ?? []).flatMap((vessel) => vessel.capBar ?? []);
    const bar = Math.max(0, ...(caps.length === 0 ? [line.pressureBar ?? 0] : caps));
    if (fluid.spec === null) return null;
    const atC = inTable(fluid.spec, Math.max(0, fluid.inC));
    const state = fluidAt(fluid.spec, atC, undefined);
    if (!state.ok) return null;
    const limitC = boilsAtC(state.state, atC, standardAtmospherePa + bar * 1e5);
    return { name: coolantWords(bar, caps.length > 0), limitC, source: 'iapws-if97' };
  }
  const bar = line.duty === 'fuel' ? (line.pressureBar ?? 0) : 0;
  const at = bar > 0 ? `${bar} bar` : 'the pressure of the air';
  const limitC = vapourC(fluid, standardAtmospherePa + bar * 1e5);
  if (limitC === null) return null;
  // Beyond its table nobody knows when it boils: that is said, and not that it does.
  return limitC === FUEL_TO_C
    ? { name: `fuel at ${at}, known to stay liquid`, limitC, source: 'epa-ap-42-7-1', isTableEnd: true }
    : { name: `fuel boils at ${at}`, limitC, source: 'epa-ap-42-7-1' };
}

/** The vapour pressure of fuel is known to here [degC]. */
const FUEL_TO_C = 80;

/** Where a fuel's vapour reaches a pressure, the end of its table where it does not there [degC]; null: not known. */
function vapourC({ spec }: LineFluid, pa: number): number | null {
  if (spec === null) return null;
  let [low, high] = [-20, FUEL_TO_C];
  const vapour = (c: number): number | null => {
    const answer = fluidAt(spec, c, undefined);
    return answer.ok ? answer.state.vapourAbsPa : null;
  };
  const most = vapour(high);
  if (most === null) return null;
  if (most < pa) return high;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if ((vapour(middle) ?? Infinity) < pa) low = middle;
    else high = middle;
  }
  return low;
}
