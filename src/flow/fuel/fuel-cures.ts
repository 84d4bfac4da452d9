import type { Case } from '#car';
import type { Vec } from '#geometry';
import type { Catalogue } from '#standards';
import { hoseSizes, OPEN_AIR, topOf, withLine, withPump } from '../circuit/changed-circuit.ts';
import { easierRuns, withRun } from '../circuit/changed-runs.ts';
import { type ReadyCircuit, redrawn } from '../circuit/circuit-state.ts';
import { nameOf, partOf } from '../circuit/drawn-circuit.ts';
import type { LineRun } from '../circuit/line-run.ts';
import { movedPorts } from '../circuit/moved-heights.ts';
import { leastThatHolds, toldCures } from '../circuit/worked-cure.ts';
import type { FlowFinding } from '../finding.ts';
import { guides } from '../limits.ts';
import { guarded } from '../refused.ts';
import { type FuelState, fuelState } from './fuel-state.ts';

/** What cures of the fuel are worked out with. */
export interface FuelCureAsk {
  readonly ready: ReadyCircuit;
  readonly shelf: Catalogue;
}

interface Asked extends FuelCureAsk {
  readonly finding: FlowFinding;
  readonly at: Case;
  readonly state: FuelState;
}

const CURES: Readonly<Record<string, (asked: Asked) => readonly string[]>> = {
  'lift-short': (asked) => pumpCures(asked, 'lift'),
  'rail-short': (asked) => pumpCures(asked, 'pressure'),
  'pot-short': potCures,
  'vapour-lock': vapourCures,
  'fuel-draws-air': lowerMouthCures,
  'return-loss': returnCures,
  'vent-small': widerVentCures,
  'no-fuel-vent': ventAddedCures,
  'vent-under-fuel': loopedVentCures,
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

function after(ready: ReadyCircuit, at: Case): FuelState | undefined {
  const solved = guarded(() => fuelState(ready, at));
  return 'why' in solved ? undefined : solved;
}

/** A larger lift or pressure pump, until it brings as much over the burn as is usual. */
function pumpCures({ ready, at, state }: Asked, kind: 'lift' | 'pressure'): string[] {
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
        const solved = after(withFlow(flow), at);
        return solved !== undefined && brings(solved) >= guide.value * burn;
      };
      const now = pump.steadyLMin!;
      const flow = leastThatHolds(now, Math.max(now, lMinOf(burn)) * MOST_TIMES, STEP_LMIN, holds);
      const solved = flow === undefined ? undefined : after(withFlow(flow), at);
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
function potCures({ ready, at, state, finding }: Asked): string[] {
  const wanted = finding.limit ?? guides.fuelPotS.value;
  const pot = ready.drawn.vessels.find(({ vessel }) => vessel.kind === 'surge-pot')?.vessel;
  const now = pot?.volumeL;
  if (pot === undefined || now === undefined) return [];
  const withVolume = (volumeL: number) =>
    after(
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
function lowerMouthCures({ ready, at, state, finding }: Asked): string[] {
  const pump = state.answer.pumps.find(({ dry }) => dry?.line === finding.line);
  const { dry } = pump ?? {};
  if (pump === undefined || dry === undefined) return [];
  const lower = Math.ceil(dry.overMm) + COVERED_MM;
  const solved = after(
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
function vapourCures({ ready, shelf, at, state }: Asked): string[] {
  const now = leastOver(state);
  const inlets = new Set(ready.drawn.pumps.map(({ from }) => ready.drawn.joints.of(from)));
  const suction = ready.drawn.runs.filter(({ to }) => inlets.has(ready.drawn.joints.of(to)));
  const tried = suction
    .flatMap((run) => easier(run.line, { ready, shelf }))
    .flatMap(({ words, changed }) => {
      const solved = after(changed, at);
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
    const solved = after(ready, { ...at, fuelC: now - less });
    return solved !== undefined && leastOver(solved) >= guides.fuelOverVapour.value;
  };
  const less = now <= COLDEST_C ? undefined : leastThatHolds(0, now - COLDEST_C, 1, holds);
  return less === undefined
    ? []
    : [
        `the fuel kept at ${Math.floor(now - less)} °C or colder instead of ${now} °C (shield, cooler in the return): enough`,
      ];
}

function returnCures({ ready, shelf, at, state, finding }: Asked): string[] {
  const now = state.answer.returnLossPa;
  return toldCures(
    easier(finding.line, { ready, shelf }).flatMap(({ words, changed }) => {
      const solved = after(changed, at);
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

function easier(line: string | undefined, { ready, shelf }: FuelCureAsk): { words: string; changed: ReadyCircuit }[] {
  const run = ready.drawn.runs.find((row) => row.line === line);
  const row = line === undefined ? undefined : ready.drawn.lines.get(line);
  if (run === undefined || row === undefined) return [];
  const hose = row.hose ?? row.pieces.find((piece) => piece.hose !== undefined)?.hose;
  return easierRuns(run, shelf, hose, row.dash).map(({ words, run: easierRun }) => ({
    words,
    changed: redrawn(ready, withRun(ready.drawn, easierRun)),
  }));
}

const kpaBelow = (state: FuelState | undefined): number | undefined =>
  state?.answer.vent === null || state === undefined ? undefined : state.answer.vent.depressionPa / 1000;

/** The vent in the next sizes: how far below the air outside the cell then stands. */
function widerVentCures({ ready, shelf, at, state, finding }: Asked): string[] {
  const now = kpaBelow(state) ?? 0;
  return toldCures(
    easier(finding.line, { ready, shelf }).flatMap(({ words, changed }) => {
      const kpa = kpaBelow(after(changed, at));
      if (kpa === undefined) return [];
      const enough = kpa <= guides.ventDepression.value ? ', which is enough' : '';
      return [
        { words: `${words}: ${(now - kpa).toFixed(2)} kPa less, ${kpa.toFixed(2)} kPa${enough}`, gain: now - kpa },
      ];
    }),
    0.01,
  );
}

const VENT = 'added vent';
const VENT_DASHES = [4, 6, 8, 10] as const;
/** A vent that ends outside ends this far from the cell [mm]. Our choice. */
const VENT_REACH_MM = 500;

/** A vent for a cell without one: the least size that lets the air of the burn in. */
function ventAddedCures({ ready, shelf, at }: Asked): string[] {
  const cell = ready.drawn.vessels.find(({ vessel }) => vessel.kind === 'cell');
  const fromMm = cell === undefined ? undefined : topOf(cell);
  if (cell === undefined || fromMm === undefined) return [];
  for (const { dash, boreMm } of hoseSizes(shelf, VENT_DASHES)) {
    const toMm: Vec = [fromMm[0], fromMm[1], fromMm[2] + VENT_REACH_MM];
    const added = {
      id: VENT,
      from: `${cell.vessel.part}.${VENT}`,
      to: OPEN_AIR,
      duty: 'fuel-vent',
      fromMm,
      toMm,
      boreMm,
    } as const;
    const kpa = kpaBelow(after(redrawn(ready, withLine(ready.drawn, added)), at));
    if (kpa !== undefined && kpa <= guides.ventDepression.value)
      return [
        `a vent of -${dash}, ${VENT_REACH_MM} mm up from the cell: it stands ${kpa.toFixed(2)} kPa below the air outside at full burn`,
      ];
  }
  return [];
}

/** How far past the cell's walls a loop of the vent is laid [mm]. */
const LOOP_MM = 50;

/** The vent led round the cell once over its top and past its far bottom, looked at in every way the car may lie. */
function loopedVentCures({ ready, at, state, finding }: Asked): string[] {
  const run = ready.drawn.runs.find(({ line }) => line === finding.line);
  const cell = ready.insides.find(
    ({ drawn }) =>
      run !== undefined &&
      [partOf(run.from), partOf(run.to)].includes(drawn.vessel.part) &&
      drawn.vessel.kind === 'cell',
  );
  const mesh = cell?.tank?.mesh;
  if (run === undefined || cell === undefined || mesh === undefined) return [];
  const bounds = ([0, 1, 2] as const).map((axis) => {
    const along = mesh.positions.filter((_, i) => i % 3 === axis).map((v) => v + mesh.centre[axis]);
    return [Math.min(...along) - LOOP_MM, Math.max(...along) + LOOP_MM] as const;
  });
  const looped = withLoop(run, partOf(run.from) === cell.drawn.vessel.part, bounds as unknown as Bounds);
  const vent = after(redrawn(ready, withRun(ready.drawn, looped)), at)?.answer.vent;
  const runsOut = (rows: NonNullable<FuelState['answer']['vent']>['attitudes']): string[] =>
    rows.filter(({ mouthCovered, highestOverMm }) => mouthCovered && highestOverMm <= 0).map(({ words }) => words);
  if (vent === null || vent === undefined) return [];
  const [before, left] = [runsOut(state.answer.vent?.attitudes ?? []), runsOut(vent.attitudes)];
  if (left.length >= before.length) return [];
  const ends =
    left.length === 0 ? 'fuel runs out in no way the car was laid' : `fuel still runs out ${left.join(', ')}`;
  const more = looped.lengthMm - run.lengthMm;
  return [
    `${run.line} led round the cell, ${LOOP_MM} mm off it, over its top, past both sides, its front, its back and its bottom (${(more / 1000).toFixed(1)} m more): ${ends}, ${(vent.depressionPa / 1000).toFixed(2)} kPa at full burn`,
  ];
}

type Bounds = readonly [readonly [number, number], readonly [number, number], readonly [number, number]];

/** The run with a loop from its end at the cell through opposite corners of a box round it. */
function withLoop(run: LineRun, ahead: boolean, [[x0, x1], [y0, y1], [z0, z1]]: Bounds): LineRun {
  const end = ahead ? run.stretches[0]! : run.stretches.at(-1)!;
  const mouth = ahead ? end.pathMm[0]! : end.pathMm.at(-1)!;
  const loop: Vec[] = [mouth, [x0, y0, z1], [x1, y1, z1], [x1, y1, z0], [x0, y0, z0], [x0, y0, z1]];
  const pathMm = ahead ? loop : loop.toReversed();
  const lengthMm = loop
    .slice(1)
    .reduce((sum, at, i) => sum + Math.hypot(at[0] - loop[i]![0], at[1] - loop[i]![1], at[2] - loop[i]![2]), 0);
  const hose = run.stretches.find(({ what }) => what === 'hose' || what === 'tube') ?? end;
  const added = { ...hose, pathMm, lengthMm };
  return {
    ...run,
    stretches: ahead ? [added, ...run.stretches] : [...run.stretches, added],
    lengthMm: run.lengthMm + lengthMm,
  };
}
