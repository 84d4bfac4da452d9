import type { Catalogue } from '#standards';
import type { ReadyCircuit } from '../circuit/circuit-state.ts';
import { galleryCuresAt } from '../dry-sump/pump-cures.ts';
import type { DriveLog } from './drive-log.ts';
import type { LapAnswer, LapMoment, LapRefused, LapStretch } from './lap-answer.ts';
import { type LapAgain, type LapAsk, lapFindings } from './lap-findings.ts';
import { lapFills, type LapModel, lapModel } from './lap-model.ts';
import { type LapRun, lapRun } from './lap-run.kernel.ts';

/** How a lap is run. */
export interface LapOptions {
  /** Error held at each step, of a litre and of the whole of a share of air; 1e-4 unless told. */
  readonly tolerance?: number;
  /** Most rows for plots; 600 unless told. */
  readonly mostRows?: number;
  /** What cures of the pressure are sought among; none are without it. */
  readonly shelf?: Catalogue;
}

/** What a lap does not know, said with every answer. */
const LIMITS: readonly string[] = [
  'air is drawn by the share of the bore that stands bare; a bore half bare draws more air than that, and a vortex draws it through a covered one',
  'the tank swings as its smooth first wave does, one plane, no baffles; pans and pots lie square to the pull at once',
  'oil that is thrown about in the crankcase, and lines other than the feed, hold the same all the time',
  'a stage takes what its covered bore lets in, up to what it sweeps; what fast air drags off a floor is left out',
  'the pressure side is steady at every moment; static head and gas over the oil are left out of it (a few kPa)',
  'air in the feed mixes in it evenly and is squeezed by the pressure; none dissolves on the way',
];

/** Runs a log through a dry sump in time, or says in one line why it cannot. */
export function lapOf(ready: ReadyCircuit, log: DriveLog, options: LapOptions = {}): LapAnswer | LapRefused {
  const fault = logFault(log);
  if (fault !== null) return { why: fault };
  const model = lapModel(ready);
  if ('why' in model) return model;
  const fills = lapFills(model, log);
  if ('why' in fills) return fills;
  const tolerance = options.tolerance ?? 1e-4;
  const run = lapRun(model, fills, log, tolerance);
  if (model.pressure.faults.length > 0) return { why: model.pressure.faults[0]! };
  const moment = (i: number): LapMoment => momentOf(log, run, i);
  const least = (score: (i: number) => number): number => leastAt(log.timeS.length, score);
  const air = airStretches(log, run);
  const answer = {
    circuit: ready.drawn.circuit.id,
    tank: model.feed.inside.drawn.part.id,
    outlet: model.feed.spot,
    vessels: model.vessels.map(({ part }) => part),
    seconds: log.timeS.at(-1)! - log.timeS[0]!,
    samples: log.timeS.length,
    rows: rowsOf(log, run, options.mostRows ?? 600),
    worst: {
      lowestTank: moment(least((i) => run.states[i * run.width]!)),
      lowestPressure: moment(least((i) => run.galleryPa[i]!)),
      mostLost: moment(least((i) => run.galleryPa[i]! - run.airlessPa[i]!)),
      lowestForRpm: moment(least((i) => forRpm(log, run, i))),
      fullest: model.vessels.map(({ part }, v) => ({
        vessel: part,
        moment: moment(least((i) => -run.states[i * run.width + 1 + v]!)),
      })),
      air,
      airS: air.reduce((sum, { fromS, toS }) => sum + toS - fromS, 0),
    },
    wave: fills.wave,
    steps: { ...run.count, tolerance },
    volumeOff: run.volumeOff,
    tablePoints: model.pressure.size,
    limits: [
      ...LIMITS,
      ...(fills.wave?.limits ?? ['the tank has no published first wave: its surface lies square to the pull at once']),
    ],
  };
  const known = new Map<string, LapAgain>();
  const again: LapAsk['again'] = ({ extraM3 = 0, isStill = false }) => {
    const key = `${extraM3} ${isStill}`;
    const had = known.get(key) ?? lapAgain(model, log, tolerance, { isStill, extraM3 });
    known.set(key, had);
    return had;
  };
  const lifted: LapAsk['lifted'] = (at, wantedBar) =>
    options.shelf === undefined
      ? []
      : galleryCuresAt(ready, options.shelf, { id: 'lap', engineRpm: at.rpm, oilC: at.oilC }, wantedBar);
  return { ...answer, findings: lapFindings(model, log, answer, { again, lifted }) };
}

function lapAgain(
  model: LapModel,
  log: DriveLog,
  tolerance: number,
  change: { readonly isStill: boolean; readonly extraM3: number },
): LapAgain {
  const fills = lapFills(model, log, change);
  if ('why' in fills) return { airS: Infinity, lowestM3: 0, lowestForRpm: { rpm: 1, galleryPa: 0 } };
  const run = lapRun(model, fills, log, tolerance, change.extraM3);
  const lowest = leastAt(log.timeS.length, (i) => forRpm(log, run, i));
  return {
    airS: airStretches(log, run).reduce((sum, { fromS, toS }) => sum + toS - fromS, 0),
    lowestM3: log.timeS.reduce((low, _, i) => Math.min(low, run.states[i * run.width]!), Infinity),
    lowestForRpm: { rpm: log.rpm[lowest]!, galleryPa: run.galleryPa[lowest]! },
  };
}

function logFault(log: DriveLog): string | null {
  const count = log.timeS.length;
  if (count < 2) return `the log has ${count} row${count === 1 ? '' : 's'}; allowed: two or more`;
  for (const name of ['timeS', 'rpm', 'longitudinalG', 'lateralG', 'verticalG', 'oilC'] as const) {
    if (log[name].length !== count)
      return `the log has ${log[name].length} values of ${name} and ${count} times; allowed: as many`;
    const bad = log[name].findIndex((value) => !Number.isFinite(value));
    if (bad >= 0) return `row ${bad + 1} of the log: ${name} is ${log[name][bad]}; allowed: a number`;
  }
  for (let i = 1; i < count; i++)
    if (!(log.timeS[i]! > log.timeS[i - 1]!))
      return `row ${i + 1} of the log: time ${log.timeS[i]} s after ${log.timeS[i - 1]} s; allowed: later than the row before`;
  return null;
}

/** Cold oil has pressure enough; the guide is one for hot oil [C]. */
const HOT_C = 60;

/** Gallery pressure over the guide's for its engine speed; cold oil and a standing engine are left out. */
function forRpm(log: DriveLog, run: LapRun, i: number): number {
  const rpm = log.rpm[i]!;
  return rpm > 0 && log.oilC[i]! > HOT_C ? run.galleryPa[i]! / rpm : Infinity;
}

function leastAt(count: number, score: (i: number) => number): number {
  let best = 0;
  let least = Infinity;
  for (let i = 0; i < count; i++) {
    const value = score(i);
    if (value < least) [best, least] = [i, value];
  }
  return best;
}

function momentOf(log: DriveLog, run: LapRun, i: number): LapMoment {
  const state = run.states.subarray(i * run.width, (i + 1) * run.width);
  return {
    timeS: log.timeS[i]!,
    rpm: log.rpm[i]!,
    oilC: log.oilC[i]!,
    tankM3: state[0]!,
    vesselsM3: [...state.subarray(1, run.width - 1)],
    drawnAir: run.drawnAir[i]!,
    feedAir: state[run.width - 1]!,
    galleryPa: run.galleryPa[i]!,
    airlessPa: run.airlessPa[i]!,
    longitudinalG: log.longitudinalG[i]!,
    lateralG: log.lateralG[i]!,
  };
}

function rowsOf(log: DriveLog, run: LapRun, mostRows: number): LapMoment[] {
  const count = log.timeS.length;
  const rows = Math.max(2, Math.min(count, Math.floor(mostRows)));
  return Array.from({ length: rows }, (_, r) => {
    const from = Math.floor((r * count) / rows);
    const to = Math.floor(((r + 1) * count) / rows);
    return momentOf(log, run, from + leastAt(to - from, (i) => run.galleryPa[from + i]! - run.airlessPa[from + i]!));
  });
}

/** Less of the bore than this is the edge of a wave, not air that counts [-]. */
const LEAST_AIR = 0.01;

function airStretches(log: DriveLog, run: LapRun): LapStretch[] {
  const out: LapStretch[] = [];
  let from = -1;
  for (let i = 0; i <= log.timeS.length; i++) {
    const draws = i < log.timeS.length && run.drawnAir[i]! > LEAST_AIR && log.rpm[i]! > 0;
    if (draws && from < 0) from = i;
    if (draws || from < 0) continue;
    out.push({ fromS: log.timeS[from]!, toS: log.timeS[Math.min(i, log.timeS.length - 1)]! });
    from = -1;
  }
  return out.toSorted((a, b) => b.toS - b.fromS - (a.toS - a.fromS));
}
