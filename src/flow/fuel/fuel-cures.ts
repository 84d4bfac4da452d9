import type { Case } from '#car';
import { withPump } from '../circuit/changed-circuit.ts';
import { type ReadyCircuit, redrawn } from '../circuit/circuit-state.ts';
import { nameOf, partOf } from '../circuit/drawn-circuit.ts';
import { movedPorts } from '../circuit/moved-heights.ts';
import { leastThatHolds, toldCures } from '../circuit/worked-cure.ts';
import type { FlowFinding } from '../finding.ts';
import { guides } from '../limits.ts';
import { easierFuel, fuelAfter, type FuelCureAsk, type FuelCureAsked } from './fuel-cure-ask.ts';
import type { FuelState } from './fuel-state.ts';
import { loopedVentCures, ventAddedCures, ventInCornerCures, widerVentCures } from './fuel-vent-cures.ts';

const CURES: Readonly<Record<string, (asked: FuelCureAsked) => readonly string[]>> = {
  'lift-short': (asked) => pumpCures(asked, 'lift'),
  'rail-short': (asked) => pumpCures(asked, 'pressure'),
  'pot-short': potCures,
  'vapour-lock': vapourCures,
  'fuel-draws-air': lowerMouthCures,
  'return-loss': returnCures,
  'vent-small': widerVentCures,
  'no-fuel-vent': ventAddedCures,
  'vent-under-fuel': loopedVentCures,
  'vent-in-corner': ventInCornerCures,
};

/** The finding with its cures, each worked out on the changed circuit, the one that gains most first. */
export function withFuelCures(finding: FlowFinding, at: Case, state: FuelState, ask: FuelCureAsk): FlowFinding {
  const cures = CURES[finding.code]?.({ ...ask, finding, at, state }) ?? [];
  return cures.length === 0 ? finding : { ...finding, cures: [...cures, ...finding.cures] };
}

const lMin = (m3s: number): string => (m3s * 60_000).toFixed(1);
const STEP_LMIN = 0.1;
const STEP_L = 0.1;
const MOST_TIMES = 4;

/** A larger lift or pressure pump, until it brings as much over the burn as is usual. */
function pumpCures({ ready, at, state }: FuelCureAsked, kind: 'lift' | 'pressure'): string[] {
  const brings = ({ answer }: FuelState): number => (kind === 'lift' ? answer.liftM3S : answer.pressureM3S);
  const guide = kind === 'lift' ? guides.liftOverBurn : guides.pressureOverBurn;
  const burn = state.answer.burnM3S ?? 0;
  const pots = new Set(
    ready.drawn.vessels.filter(({ vessel }) => vessel.kind === 'surge-pot').map(({ vessel }) => vessel.part),
  );
  const pumps = ready.drawn.pumps.filter(
    ({ from, steadyLMin }) => steadyLMin !== undefined && pots.has(partOf(from)) === (kind === 'pressure'),
  );
  return toldCures(
    pumps.flatMap((pump) => {
      const id = pump.id ?? nameOf(pump);
      const withFlow = (steadyLMin: number) => redrawn(ready, withPump(ready.drawn, id, { steadyLMin }));
      const holds = (flow: number): boolean => {
        const solved = fuelAfter(withFlow(flow), at);
        return solved !== undefined && brings(solved) >= guide.value * burn;
      };
      const now = pump.steadyLMin!;
      const flow = leastThatHolds(now, Math.max(now, lMinOf(burn)) * MOST_TIMES, STEP_LMIN, holds);
      const solved = flow === undefined ? undefined : fuelAfter(withFlow(flow), at);
      if (flow === undefined || solved === undefined) return [];
      const { returnM3S, railPa } = solved.answer;
      const rail =
        kind === 'lift' || railPa === null
          ? ''
          : `, ${lMin(returnM3S)} L/min go back with the rail at ${(railPa / 1e5).toFixed(2)} bar`;
      return [
        {
          words: `${nameOf(pump)} of ${flow.toFixed(1)} L/min instead of ${now} L/min: ${(brings(solved) / burn).toFixed(2)} times what is burnt${rail}`,
          gain: brings(solved) - brings(state),
        },
      ];
    }),
  );
}

const lMinOf = (m3s: number): number => m3s * 60_000;

/** A larger pot, with its seconds at full load. */
function potCures({ ready, at, state, finding }: FuelCureAsked): string[] {
  const wanted = finding.limit ?? guides.fuelPotS.value;
  const pot = ready.drawn.vessels.find(({ vessel }) => vessel.kind === 'surge-pot')?.vessel;
  const now = pot?.volumeL;
  if (pot === undefined || now === undefined) return [];
  const withVolume = (volumeL: number) =>
    fuelAfter(
      {
        ...ready,
        drawn: {
          ...ready.drawn,
          vessels: ready.drawn.vessels.map((row) =>
            row.vessel === pot ? { ...row, vessel: { ...pot, volumeL } } : row,
          ),
        },
        insides: ready.insides.map((inside) =>
          inside.drawn.vessel === pot
            ? { ...inside, tank: null, drawn: { ...inside.drawn, vessel: { ...pot, volumeL } } }
            : inside,
        ),
      },
      at,
    )?.answer.potS ?? 0;
  const volumeL = leastThatHolds(now, now * 20, STEP_L, (litres) => withVolume(litres) >= wanted);
  if (volumeL === undefined) return [];
  return [
    `a pot of ${volumeL.toFixed(1)} L instead of ${now} L: ${withVolume(volumeL).toFixed(0)} s instead of ${(state.answer.potS ?? 0).toFixed(0)} s`,
  ];
}

const leastOver = ({ answer }: FuelState): number =>
  Math.min(...answer.pumps.map(({ overVapourKpa }) => overVapourKpa));

/** The mouth led down into the fuel by a pipe inside: what then comes. */
function lowerMouthCures({ ready, at, state, finding }: FuelCureAsked): string[] {
  const pump = state.answer.pumps.find(({ dry }) => dry?.line === finding.line);
  const { dry } = pump ?? {};
  if (pump === undefined || dry === undefined) return [];
  const lower = Math.ceil(dry.overMm) + COVERED_MM;
  const solved = fuelAfter(
    movedPorts(ready, (spot) => (spot === dry.spot ? -lower : 0)),
    at,
  );
  const again = solved?.answer.pumps.find((row) => row.pump === pump.pump);
  return again === undefined || again.dry !== undefined
    ? []
    : [
        `a pipe inside down from ${dry.spot}, ${lower} mm at the least: ${pump.words} brings ${lMin(again.flowM3S)} L/min with ${again.overVapourKpa.toFixed(0)} kPa over the fuel's vapour`,
      ];
}

/** A mouth that is led down into the fuel ends this far under it [mm]. Our choice. */
const COVERED_MM = 20;

/** Wider suction lines, and the warmest fuel that keeps off its vapour at every inlet. */
function vapourCures({ ready, shelf, at, state }: FuelCureAsked): string[] {
  const now = leastOver(state);
  const inlets = new Set(ready.drawn.pumps.map(({ from }) => ready.drawn.joints.of(from)));
  const suction = ready.drawn.runs.filter(({ to }) => inlets.has(ready.drawn.joints.of(to)));
  const tried = suction
    .flatMap((run) => easierFuel(run.line, { ready, shelf }))
    .flatMap(({ words, changed }) => {
      const solved = fuelAfter(changed, at);
      if (solved === undefined) return [];
      const over = leastOver(solved);
      const enough = over >= guides.fuelOverVapour.value ? ', which is enough' : '';
      return [
        {
          words: `${words}: +${(over - now).toFixed(1)} kPa, ${over.toFixed(1)} kPa over its vapour${enough}`,
          gain: over - now,
        },
      ];
    });
  return [...toldCures(tried, 0.1), ...colderFuel(ready, at)];
}

const COLDEST_C = 0;

function colderFuel(ready: ReadyCircuit, at: Case): string[] {
  const now = at.fuelC ?? at.airC ?? COLDEST_C;
  const holds = (less: number): boolean => {
    const solved = fuelAfter(ready, { ...at, fuelC: now - less });
    return solved !== undefined && leastOver(solved) >= guides.fuelOverVapour.value;
  };
  const less = now <= COLDEST_C ? undefined : leastThatHolds(0, now - COLDEST_C, 1, holds);
  return less === undefined
    ? []
    : [
        `the fuel kept at ${Math.floor(now - less)} °C or colder instead of ${now} °C (shield, cooler in the return): enough`,
      ];
}

function returnCures({ ready, shelf, at, state, finding }: FuelCureAsked): string[] {
  const now = state.answer.returnLossPa;
  return toldCures(
    easierFuel(finding.line, { ready, shelf }).flatMap(({ words, changed }) => {
      const solved = fuelAfter(changed, at);
      if (solved === undefined) return [];
      const loss = solved.answer.returnLossPa / 1000;
      const enough = loss <= guides.returnLoss.value ? ', which is enough' : '';
      return [
        {
          words: `${words}: ${(now / 1000 - loss).toFixed(1)} kPa off the rail, ${loss.toFixed(1)} kPa lost${enough}`,
          gain: now / 1000 - loss,
        },
      ];
    }),
    0.1,
  );
}
