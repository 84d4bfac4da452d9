import { type Case, findPort } from '#car';
import { caseOf, type CaseOf, netInto, type ReadyCircuit } from '../circuit/circuit-state.ts';
import { partOf } from '../circuit/drawn-circuit.ts';
import type { FuelAnswer, FuelPump } from '../circuit/fuel-answer.ts';
import { standardPressure } from '../fluids/standard-atmosphere.ts';
import { type WaterFlow, waterFlow } from '../circuit/water-flow.ts';
import { fuelVent } from './fuel-vent.ts';
import type { SettledNetwork } from '../network/solve-network.ts';
import type { Refused } from '../refused.ts';

/** The fuel of a car in one case. */
export interface FuelState {
  readonly asked: CaseOf;
  readonly flow: WaterFlow;
  readonly gasPa: (vessel: string) => number;
  readonly answer: FuelAnswer;
}

/** A shut pot is looked at between these [Pa above the outside]. */
const POT_PA = [-90_000, 500_000] as const;
const MOST_ROUNDS = 60;
/** A pot's pressure is known well enough [Pa]. */
const EVEN_PA = 1e-6;
/** In against out of a pot that is full [m3/s]: a drop in a second. */
const EVEN_M3S = 1e-9;

const PER_HOUR_M3S = 1 / 3.6e6;

/** Flows, pressures, pot and vent of a fuel circuit in a case, or in a line why not. */
export function fuelState(ready: ReadyCircuit, at: Case): FuelState | Refused {
  const pot = ready.drawn.vessels.find(({ vessel }) => vessel.kind === 'surge-pot')?.vessel;
  const full = pot?.volumeL === undefined ? at : withFill(at, pot.part, pot.volumeL);
  const plainly = caseOf(ready, full);
  if (typeof plainly === 'string') return { why: plainly, where: [] };
  const asked = pot === undefined ? plainly : brimful(plainly, pot.part);
  const solved = pot === undefined ? plain(ready, asked) : evenPot(ready, asked, pot.part);
  if ('why' in solved) return solved;
  const { flow, gasPa } = solved;
  const outsideAbsPa = standardPressure(at.altitudeM ?? 0);
  const regulator = ready.drawn.passages.find(({ relief }) => relief !== undefined);
  const through = flow.passages.find(
    ({ words, id }) => regulator !== undefined && (id === regulator.id || words === regulator.name),
  );
  const back = flow.lines.find(({ line }) => ready.drawn.lines.get(line)?.from === regulator?.to);
  const kinds = pumpsByKind(ready);
  const pumps = flow.pumps.map((row): FuelPump => {
    const dry = dryMouth(ready, asked, flow, row.id);
    // What draws from nothing is held up by the fuel's vapour alone.
    const inletPa =
      dry === undefined
        ? row.fromPa - speedPa(ready, asked, flow, row.id)
        : Math.max(row.fromPa, asked.fluid.vapourAbsPa - outsideAbsPa);
    return {
      pump: row.id,
      words: row.words,
      flowM3S: row.flowM3S,
      inletPa,
      overVapourKpa: (outsideAbsPa + inletPa - asked.fluid.vapourAbsPa) / 1000,
      ...(dry === undefined ? {} : { dry }),
    };
  });
  const sum = (of: ReadonlySet<string>): number =>
    pumps.reduce((total, { pump, flowM3S }) => total + (of.has(pump) ? flowM3S : 0), 0);
  const burn = ready.drawn.circuit.burnLPerH;
  const burnM3S = burn === undefined ? null : burn * PER_HOUR_M3S;
  const answer: FuelAnswer = {
    outsideAbsPa,
    temperatureC: asked.temperatureC,
    vapourAbsPa: asked.fluid.vapourAbsPa,
    burnM3S,
    liftM3S: sum(kinds.lift),
    pressureM3S: sum(kinds.pressure),
    returnM3S: through?.flowM3S ?? 0,
    railPa: through === undefined ? null : through.fromPa,
    returnLossPa: back?.dropPa ?? 0,
    potPa: pot === undefined ? null : gasPa(pot.part),
    potS: pot?.volumeL === undefined || burnM3S === null || burnM3S <= 0 ? null : pot.volumeL / 1000 / burnM3S,
    pumps,
    vent: fuelVent(ready, at, burnM3S ?? 0, outsideAbsPa),
  };
  return { asked, flow, gasPa, answer };
}

/** A case in which one vessel holds this much. */
export const withFill = (at: Case, part: string, fillL: number): Case => ({
  ...at,
  fills: [...(at.fills ?? []).filter((row) => row.part !== part), { part, fillL }],
});

/** A pot that is full and shut has fuel at every mouth, wherever its walls are reckoned to be. */
function brimful(asked: CaseOf, pot: string): CaseOf {
  const state = asked.vessels.get(pot);
  if (state === undefined) return asked;
  const mouths = new Map(
    [...state.mouths].map(([port, { headMm }]) => [port, { share: 1, headMm: Math.max(0, headMm) }]),
  );
  return { ...asked, vessels: new Map([...asked.vessels, [pot, { ...state, mouths }]]) };
}

const speedPa = (ready: ReadyCircuit, { fluid }: CaseOf, flow: WaterFlow, pump: string): number => {
  const from = ready.drawn.pumps.find(({ id }) => id === pump)?.from;
  const feed = flow.lines.find(({ line }) => from !== undefined && ready.drawn.lines.get(line)?.to === from);
  return feed === undefined || findPort(ready.car, from!) === undefined
    ? 0
    : (fluid.densityKgM3 * feed.velocityMS ** 2) / 2;
};

/** The mouth of the line that leads to a pump, where it stands in the gas. */
function dryMouth(ready: ReadyCircuit, asked: CaseOf, flow: WaterFlow, pump: string): FuelPump['dry'] {
  const inlet = ready.sorted.liquid.find(({ id }) => id === pump)?.from;
  const run = ready.drawn.runs.find(
    ({ line, to }) =>
      inlet !== undefined &&
      flow.stillLines.includes(line) &&
      ready.drawn.joints.of(to) === ready.drawn.joints.of(inlet),
  );
  const head = run === undefined ? undefined : asked.vessels.get(partOf(run.from))?.mouths.get(run.from)?.headMm;
  return run === undefined || head === undefined ? undefined : { line: run.line, spot: run.from, overMm: -head };
}

/** Pumps whose fuel comes to the rail before it comes to a vessel are pressure pumps; the rest lift. */
function pumpsByKind(ready: ReadyCircuit): { lift: ReadonlySet<string>; pressure: ReadonlySet<string> } {
  const pot = ready.drawn.vessels.find(({ vessel }) => vessel.kind === 'surge-pot')?.vessel.part;
  const lift = new Set<string>();
  const pressure = new Set<string>();
  for (const { pump, id, from } of ready.sorted.liquid) {
    if (pump === undefined) continue;
    const drawsPot =
      pot === undefined ||
      from === pot ||
      from.startsWith(`${pot}.`) ||
      ready.drawn.joints.of(from) === ready.drawn.joints.of(pot) ||
      fedBy(ready, from, pot);
    (drawsPot ? pressure : lift).add(id);
  }
  return { lift, pressure };
}

const fedBy = (ready: ReadyCircuit, inlet: string, pot: string): boolean =>
  ready.drawn.runs.some(({ from, to }) => to === inlet && from.startsWith(`${pot}.`));

const standing =
  (ready: ReadyCircuit, pot: string | undefined, potPa: number) =>
  (part: string): number =>
    part === pot
      ? potPa
      : (ready.drawn.vessels.find(({ vessel }) => vessel.part === part)?.vessel.pressureBar ?? 0) * 1e5;

function plain(ready: ReadyCircuit, asked: CaseOf): { flow: WaterFlow; gasPa: (vessel: string) => number } | Refused {
  const gasPa = standing(ready, undefined, 0);
  const flow = waterFlow(ready, asked, gasPa);
  return 'why' in flow ? flow : { flow, gasPa };
}

/**
 * A pot runs full and shut: its pressure is that at which as much goes out as comes in. More comes in the less its pressure
 * is, so it is closed in on
 * by false position. Where more is drawn than can come in, it stands at the least: the pot runs empty.
 */
function evenPot(
  ready: ReadyCircuit,
  asked: CaseOf,
  pot: string,
): { flow: WaterFlow; gasPa: (vessel: string) => number } | Refused {
  let last: SettledNetwork | undefined;
  const at = (potPa: number): { flow: WaterFlow; gasPa: (vessel: string) => number; net: number } | Refused => {
    const gasPa = standing(ready, pot, potPa);
    const flow = waterFlow(ready, asked, gasPa, last);
    if ('why' in flow) return flow;
    last = flow.answer;
    return { flow, gasPa, net: netInto(ready, flow, pot) };
  };
  let [low, high]: [number, number] = [...POT_PA];
  const [lowest, highest] = [at(low), at(high)];
  if ('why' in lowest) return lowest;
  if ('why' in highest) return highest;
  if (lowest.net <= 0) return lowest;
  if (highest.net >= 0) return highest;
  let [atLow, atHigh, side] = [lowest.net, highest.net, 0];
  let best = lowest;
  for (let i = 0; i < MOST_ROUNDS && high - low > EVEN_PA; i++) {
    const middle = i % 3 === 2 ? (low + high) / 2 : low + ((high - low) * atLow) / (atLow - atHigh);
    const here = at(middle);
    if ('why' in here) return here;
    best = here;
    if (Math.abs(here.net) < EVEN_M3S) break;
    if (here.net > 0) {
      [low, atLow] = [middle, here.net];
      if (side > 0) atHigh /= 2;
      side = 1;
    } else {
      [high, atHigh] = [middle, here.net];
      if (side < 0) atLow /= 2;
      side = -1;
    }
  }
  return best;
}
