import type { CaseOf, ReadyCircuit } from '../circuit/circuit-state.ts';
import type { BoilingSpot, CoolantAnswer, LineWater, WaterInlet } from '../circuit/coolant-answer.ts';
import { STANDARD_FALL } from '../circuit/pull.ts';
import { vapourAt, worstOfLine } from './boiling.ts';
import type { WaterFlow } from '../circuit/water-flow.ts';

/** Lines whose end is the pump's inlet, by joint. */
export function suctionLines(ready: ReadyCircuit): ReadonlySet<string> {
  const { joints, pumps, runs } = ready.drawn;
  const inlets = new Set(pumps.map(({ from }) => joints.of(from)));
  return new Set(
    runs.filter(({ from, to }) => inlets.has(joints.of(to)) || inlets.has(joints.of(from))).map((r) => r.line),
  );
}

/** Pressures against boiling, line by line and at the pumps. */
export function waterPressures(
  ready: ReadyCircuit,
  asked: CaseOf,
  flow: WaterFlow,
  lineC: (line: string) => number,
  outsideAbsPa: number,
): Pick<CoolantAnswer, 'lines' | 'inlets' | 'worst'> {
  const { fluid, pull } = asked;
  const under = { fluid, fluidC: asked.temperatureC, pull, outsideAbsPa };
  const suction = suctionLines(ready);
  const still = new Set(flow.stillLines);
  const lines = flow.lines.flatMap((row): LineWater[] => {
    const run = ready.drawn.runs.find(({ line }) => line === row.line);
    if (run === undefined || still.has(row.line)) return [];
    const temperatureC = lineC(row.line);
    const worst = worstOfLine({ run, flow: row, temperatureC }, under);
    return [{ line: row.line, temperatureC, velocityMS: row.velocityMS, suction: suction.has(row.line), worst }];
  });
  const inlets = flow.pumps.map((pump): WaterInlet => {
    const row = ready.drawn.pumps.find(({ id }) => id === pump.id);
    const feed = flow.lines.find(({ line }) => ready.drawn.lines.get(line)?.to === row?.from);
    const speedPa = feed === undefined ? 0 : (fluid.densityKgM3 * feed.velocityMS ** 2) / 2;
    const gaugePa = pump.fromPa - speedPa;
    const vapour = vapourAt(fluid, asked.temperatureC, feed === undefined ? asked.temperatureC : lineC(feed.line));
    return {
      pump: pump.id,
      words: pump.words,
      gaugePa,
      absPa: outsideAbsPa + gaugePa,
      overVapourM: (outsideAbsPa + gaugePa - vapour) / (fluid.densityKgM3 * STANDARD_FALL),
    };
  });
  const worst = lines.reduce<BoilingSpot | null>(
    (least, { worst: spot }) => (least === null || spot.marginK < least.marginK ? spot : least),
    null,
  );
  return { lines, inlets, worst };
}
