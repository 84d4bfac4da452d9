import type { ReadyCircuit } from '../circuit/circuit-state.ts';
import { stateOf } from '../circuit/circuit-fluid.ts';
import { vesselFinder } from '../circuit/drawn-circuit.ts';
import { depthMm } from '../dry-sump/tank-depth.ts';
import { feedMouths, type Mouth, pickUps } from '../dry-sump/mouths.ts';
import { wavePlanOf } from '../dry-sump/wave-plan.ts';
import { firstWave, type TankWave } from '../tank/first-wave.ts';
import { type GSample, movingSurface } from '../tank/surface-motion.ts';
import { CoverTable } from './cover-table.ts';
import type { DriveLog } from './drive-log.ts';
import type { LapRefused } from './lap-answer.ts';
import { PressureTable } from './pressure-table.ts';

/** A pan or pot of the lap with the stages that empty it. */
export interface LapVessel {
  readonly part: string;
  readonly startM3: number;
  readonly stages: readonly { readonly sweptM3PerTurn: number; readonly mouth: Mouth | null }[];
}

/** What a lap runs through: worked out once for a circuit, tables filled as they are asked. */
export interface LapModel {
  readonly ready: ReadyCircuit;
  readonly feed: Mouth;
  readonly tankStartM3: number;
  /** Oil and air that the feed line holds [m3]. */
  readonly feedM3: number;
  readonly vessels: readonly LapVessel[];
  readonly pressure: PressureTable;
  readonly tankCover: CoverTable;
  /** By mouth of a pan or pot. */
  readonly covers: ReadonlyMap<Mouth, CoverTable>;
}

const known = new WeakMap<ReadyCircuit, LapModel | LapRefused>();

/** The lap's model of a dry sump, kept for the circuit; or in one line why there is none. */
export function lapModel(ready: ReadyCircuit): LapModel | LapRefused {
  const had = known.get(ready);
  if (had !== undefined) return had;
  const made = madeModel(ready);
  known.set(ready, made);
  return made;
}

function madeModel(ready: ReadyCircuit): LapModel | LapRefused {
  const { circuit } = ready.drawn;
  const refuse = (why: string): LapRefused => ({ why: `circuit ${circuit.id}: ${why}` });
  if (circuit.kind !== 'dry-sump') return refuse(`${circuit.kind}; allowed for a lap: a dry sump`);
  const [feed, second] = feedMouths(ready);
  if (feed === undefined)
    return refuse('no oil-suction line leaves a tank whose inside is known; allowed: one, from a vessel of kind tank');
  if (second !== undefined) return refuse(`both ${feed.spot} and ${second.spot} feed; allowed: one tank with one feed`);
  const fill = feed.inside.drawn.vessel.fillL;
  if (fill === undefined) return refuse(`${feed.inside.drawn.part.id} has no fillL; allowed: what it runs with [L]`);
  const mouths = pickUps(ready);
  const vessels = vesselsOf(ready, mouths);
  if (vessels.length === 0) return refuse('no stage empties a pan or pot; allowed: at least one');
  const tankId = feed.inside.drawn.part.id;
  const vesselOf = vesselFinder(ready.drawn);
  const straight = ready.sorted.liquid.find(({ kind, to }) => kind === 'line' && vesselOf(to) === tankId);
  if (straight !== undefined)
    return refuse(
      `${straight.id} brings oil back to ${tankId} past the stages; allowed: returns by scavenge stages only`,
    );
  const feedRun = ready.drawn.runs.find(({ line }) => line === feed.line)!;
  const feedM3 = feedRun.stretches.reduce(
    (sum, row) => sum + ((Math.PI / 4) * row.boreMm ** 2 * row.lengthMm) / 1e9,
    0,
  );
  const pressure = new PressureTable(ready, [feed.inside.drawn.part.id, ...vessels.map(({ part }) => part)]);
  if (pressure.faults.length > 0) return refuse(pressure.faults[0]!);
  return {
    ready,
    feed,
    tankStartM3: Math.min(feed.tank.volumeM3, fill / 1000),
    feedM3: Math.max(feedM3, 1e-6),
    vessels,
    pressure,
    tankCover: new CoverTable(feed),
    covers: new Map(mouths.map((mouth) => [mouth, new CoverTable(mouth)])),
  };
}

function vesselsOf(ready: ReadyCircuit, mouths: readonly Mouth[]): LapVessel[] {
  const stages = ready.sorted.scavenge.flatMap(({ stages: own }) => own);
  return [...new Set(stages.map(({ drains }) => drains))].map((part) => ({
    part,
    startM3: (ready.drawn.vessels.find(({ vessel }) => vessel.part === part)?.vessel.fillL ?? 0) / 1000,
    stages: stages
      .filter(({ drains }) => drains === part)
      .map(({ pump }) => ({
        sweptM3PerTurn: (pump.pump?.displacementCcRev ?? 0) * 1e-6 * (pump.pump?.driveRatio ?? 0),
        mouth: mouths.find((mouth) => mouth.pump === pump.id) ?? null,
      })),
  }));
}

/** Fills of every mouth over the log: three numbers a mouth and sample. */
export interface LapFills {
  readonly wave: TankWave | null;
  /** Three numbers a sample. */
  readonly tank: Float64Array;
  /** By vessel and stage; null: the stage draws whatever is there. */
  readonly stages: readonly (readonly (Float64Array | null)[])[];
}

/** Surfaces over the log: in the tank by its first wave (or, kept still by baffles, at once), in pans and pots square to the pull at once. */
export function lapFills(
  model: LapModel,
  log: DriveLog,
  { isStill = false, extraM3 = 0 }: { readonly isStill?: boolean; readonly extraM3?: number } = {},
): LapFills | LapRefused {
  const samples = Array.from(
    log.timeS,
    (timeS, i): GSample => ({
      timeS,
      longitudinalG: log.longitudinalG[i]!,
      lateralG: log.lateralG[i]!,
      verticalG: log.verticalG[i]!,
    }),
  );
  const meanC = log.oilC.reduce((sum, c) => sum + c, 0) / log.oilC.length;
  const oil = model.ready.fluid === undefined ? 'no fluid' : stateOf(model.ready.fluid, meanC);
  if (typeof oil === 'string') return { why: oil };
  const plan = wavePlanOf(model.feed.inside);
  const depth = depthMm(model.feed, Math.min(model.feed.tank.volumeM3, model.tankStartM3 + extraM3));
  const wave =
    isStill || plan === undefined || depth <= 0 ? null : firstWave(plan, depth, oil.viscosityPaS / oil.densityKgM3);
  const over = (cover: CoverTable, rows: readonly GSample[]): Float64Array => {
    const fills = new Float64Array(3 * rows.length);
    rows.forEach((g, i) => cover.fills(g, fills, 3 * i));
    return fills;
  };
  return {
    wave,
    tank: over(
      model.tankCover,
      wave === null ? samples : movingSurface(wave, samples).map(({ timeS, g }) => ({ timeS, ...g })),
    ),
    stages: model.vessels.map(({ stages }) =>
      stages.map(({ mouth }) => (mouth === null ? null : over(model.covers.get(mouth)!, samples))),
    ),
  };
}
