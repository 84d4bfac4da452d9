import { widerRuns } from '../circuit/changed-runs.ts';
import type { LineRun } from '../circuit/line-run.ts';
import { leastThatHolds, toldCures, upToEnough, type WorkedCure } from '../circuit/worked-cure.ts';
import { carriesFoam, type Drain } from '../drains/drain-capacity.ts';
import type { FluidState } from '../fluids/fluid-state.ts';
import { boreRoughnessM } from '../losses/roughness.ts';
import { guarded } from '../refused.ts';
import { FOAM, leastFallDeg } from './drain-fall.ts';
import type { DrySumpAsk } from './dry-sump-ask.ts';
import { drySumpState, type DrySumpState } from './dry-sump-state.ts';

const lMin = (m3s: number): string => (m3s * 60_000).toFixed(2);
const WARMEST_C = 100;

/** What lets a drain carry its oil: the sizes up to the one that is enough, more fall, warmer oil; each reckoned again as foam. */
export function drainCures(ask: DrySumpAsk): string[] {
  const { ready, shelf, state, finding } = ask;
  const run = ready.drawn.runs.find(({ line }) => line === finding.line);
  const oilM3S = oilOf(state, finding.line!);
  if (run === undefined || oilM3S === undefined) return [];
  const { fluid, pull } = state.asked;
  const now = drainOf(run, leastFallDeg(run, pull));
  const carried = (drain: Drain, oil: FluidState = fluid): number => mostOf(drain, oilM3S, oil);
  const line = ready.drawn.lines.get(run.line);
  const tell = (words: string, drain: Drain): WorkedCure => {
    const most = carried(drain);
    const enough = most >= oilM3S ? ', which is enough' : '';
    return {
      words: `${words}: carries ${lMin(most)} L/min as foam instead of ${lMin(carried(now))} L/min${enough}`,
      gain: most - carried(now),
    };
  };
  const wider = widerRuns(run, shelf, line?.hose, line?.dash).map(({ words, run: row }) => ({
    words,
    drain: drainOf(row, now.fallDeg),
  }));
  const sizes = upToEnough(wider, ({ drain }) => carried(drain) >= oilM3S).map(({ words, drain }) =>
    tell(words, drain),
  );
  const fall = leastThatHolds(now.fallDeg, 90, 1, (fallDeg) => carried({ ...now, fallDeg }) >= oilM3S);
  const steeper =
    fall === undefined
      ? []
      : [
          tell(
            `${run.line} falling ${fall} degrees all the way instead of ${now.fallDeg.toFixed(0)} degrees at its least`,
            {
              ...now,
              fallDeg: fall,
            },
          ),
        ];
  return [...toldCures([...sizes, ...steeper]), ...warmerOil(ask, now)];
}

const oilOf = ({ drains }: DrySumpState, line: string): number | undefined =>
  drains.find((row) => row.line === line)?.oilM3S;

const drainOf = (run: LineRun, fallDeg: number): Drain => ({
  where: run.line,
  boreM: Math.min(...run.stretches.map(({ boreMm }) => boreMm)) / 1000,
  fallDeg,
  roughnessM: boreRoughnessM('drawn-tube'),
});

const mostOf = (drain: Drain, oilM3S: number, fluid: FluidState): number =>
  carriesFoam(drain, oilM3S, { factor: FOAM }, fluid).mostOilM3S;

/** Warm oil comes faster and runs down faster: the least temperature at which the drain keeps up at this speed. */
function warmerOil({ ready, state, finding }: DrySumpAsk, drain: Drain): string[] {
  const { at, temperatureC } = state.asked;
  const holds = (more: number): boolean => {
    const after = guarded(() => drySumpState(ready, { ...at, oilC: temperatureC + more }));
    if ('why' in after) return false;
    const oil = oilOf(after, finding.line!) ?? 0;
    return mostOf(drain, oil, after.asked.fluid) >= oil;
  };
  if (temperatureC >= WARMEST_C) return [];
  const more = leastThatHolds(0, WARMEST_C - temperatureC, 1, holds);
  return more === undefined
    ? []
    : [
        `the oil at ${Math.ceil(temperatureC + more)} °C or warmer before ${Math.round(at.engineRpm)} rpm is asked of it: enough`,
      ];
}

/** A drain that rises on its way: what it would carry laid straight from end to end, and the stage that would pull it. */
export function drainFallCures(ask: DrySumpAsk): string[] {
  const { ready, state, finding } = ask;
  const run = ready.drawn.runs.find(({ line }) => line === finding.line);
  const oilM3S = oilOf(state, finding.line!);
  if (run === undefined || oilM3S === undefined) return [];
  return [...straightened(ask, run, oilM3S), ...pulledByStage(ask, run, oilM3S)];
}

/** A stage of its own pulls the drain of a low turbo: the least in the trade's steps that takes its foam at this speed. */
function pulledByStage({ ready, state }: DrySumpAsk, run: LineRun, oilM3S: number): string[] {
  const { engineRpm } = state.asked.at;
  const drive = ready.drawn.pumps.find((row) => row.driveRatio !== undefined)?.driveRatio;
  if (drive === undefined || engineRpm === 0) return [];
  const cc = (FOAM * oilM3S * 60e6) / (drive * engineRpm);
  const step = Math.max(1, Math.ceil(cc / STEP_CC)) * STEP_CC;
  return [
    `a stage of its own that pulls ${run.line}: ${step.toFixed(1)} cc/rev on the pump's drive sweep ${lMin((step * drive * engineRpm) / 60e6)} L/min, ${lMin(FOAM * oilM3S)} L/min of foam come`,
  ];
}

/** Stages come in steps of this [cc/rev]. */
const STEP_CC = 0.5;

/** The drain laid straight from end to end, where it may fall at all. */
function straightened({ state }: DrySumpAsk, run: LineRun, oilM3S: number): string[] {
  const [first, last] = [run.stretches[0]!.pathMm[0]!, run.stretches.at(-1)!.pathMm.at(-1)!];
  const straight: LineRun = { ...run, stretches: [{ ...run.stretches[0]!, pathMm: [first, last] }] };
  const fallDeg = leastFallDeg(straight, state.asked.pull);
  if (fallDeg <= 0) return [];
  const most = mostOf(drainOf(run, fallDeg), oilM3S, state.asked.fluid);
  return [
    `${run.line} laid straight from end to end: it falls ${fallDeg.toFixed(0)} degrees all the way and carries ${lMin(most)} L/min as foam, ${lMin(oilM3S)} L/min comes`,
  ];
}
