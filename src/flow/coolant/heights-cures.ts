import type { Case } from '#car';
import type { Vec } from '#geometry';
import { withRun } from '../circuit/changed-runs.ts';
import { type ReadyCircuit, redrawn } from '../circuit/circuit-state.ts';
import type { CoolantHeights, Thermosiphon } from '../circuit/coolant-answer.ts';
import { partOf } from '../circuit/drawn-circuit.ts';
import type { LineRun } from '../circuit/line-run.ts';
import { movedPorts, raisedPart } from '../circuit/moved-heights.ts';
import { fillIn } from '../circuit/vessel-state.ts';
import { toldCures, type WorkedCure } from '../circuit/worked-cure.ts';
import { guides } from '../limits.ts';
import { coolantHeights } from './heights.ts';
import { coolantState } from './coolant-state.ts';
import { guarded } from '../refused.ts';
import { pumpedLoop, thermosiphons } from './thermosiphon.ts';

const ROUNDS = 4;
/** A header is lifted in steps of this [mm]. */
const STEP_MM = 5;

/** Over the highest water, level and in the way the car stands that is worst [mm]. */
function headerOver({ attitudes }: CoolantHeights): { level: number; worst: number; words: string } | undefined {
  const rows = attitudes.flatMap(({ words, headerBottomMm, highestMm }) =>
    headerBottomMm === null || highestMm === null ? [] : [{ words, over: headerBottomMm - highestMm }],
  );
  const [level] = rows;
  if (level === undefined) return undefined;
  const worst = rows.reduce((a, b) => (b.over < a.over ? b : a));
  return { level: level.over, worst: worst.over, words: worst.words };
}

/** The header lifted until its bottom stands the usual height over all water level, and under none however the car stands. */
export function raisedHeaderCures(ready: ReadyCircuit, heights: CoolantHeights, part: string, name: string): string[] {
  const least = guides.headerOverAll.value;
  let over = headerOver(heights);
  let lift = 0;
  for (let round = 0; round < ROUNDS && over !== undefined; round++) {
    const lacks = Math.max(least - over.level, -over.worst);
    if (lacks <= 0) break;
    lift += Math.ceil(lacks / STEP_MM) * STEP_MM;
    over = headerOver(coolantHeights(raisedPart(ready, part, lift), undefined));
  }
  if (lift === 0 || over === undefined || over.level < least || over.worst < 0) return [];
  return [
    `${name} ${lift} mm higher: its bottom ${over.level.toFixed(0)} mm over the highest water level, ${over.worst.toFixed(0)} mm ${over.words}`,
  ];
}

/** A bleed laid so that it rises all the way, where its end is higher than its beginning. */
export function risingBleedCures(ready: ReadyCircuit, line: string, before: number): string[] {
  const run = ready.drawn.runs.find((row) => row.line === line);
  const rising = run === undefined ? undefined : risen(run);
  if (rising === undefined) return [];
  const after = coolantHeights(redrawn(ready, withRun(ready.drawn, rising.run)), undefined).bleeds.find(
    (row) => row.line === line,
  );
  return after === undefined || after.dipMm >= before
    ? []
    : [
        `${line} rising all the way, ${rising.mostMm.toFixed(0)} mm higher where it dips most: a dip of ${after.dipMm.toFixed(0)} mm instead of ${before.toFixed(0)} mm`,
      ];
}

/** No point lower than one before it, none higher than its end; undefined where the end is the lower one. */
function risen(run: LineRun): { run: LineRun; mostMm: number } | undefined {
  const [first, last] = [run.stretches[0]!.pathMm[0]!, run.stretches.at(-1)!.pathMm.at(-1)!];
  const isAhead = last[2] >= first[2];
  const top = Math.max(first[2], last[2]);
  if (first[2] === last[2]) return undefined;
  let mostMm = 0;
  let reached = Math.min(first[2], last[2]);
  const raise = (at: Vec): Vec => {
    reached = Math.min(top, Math.max(reached, at[2]));
    mostMm = Math.max(mostMm, reached - at[2]);
    return [at[0], at[1], reached];
  };
  const stretches = isAhead
    ? run.stretches.map((row) => ({ ...row, pathMm: row.pathMm.map(raise) }))
    : run.stretches
        .toReversed()
        .map((row) => ({ ...row, pathMm: row.pathMm.toReversed().map(raise).toReversed() }))
        .toReversed();
  return { run: { ...run, stretches }, mostMm };
}

/** What lets the water run: its hot end lower in the header, the header fuller, a pump that runs on, the engine idled first; looked at again. */
export function siphonCures(
  ready: ReadyCircuit,
  { hot, idle }: { readonly hot: Case | undefined; readonly idle: Case | undefined },
  siphon: Thermosiphon,
): string[] {
  if (hot === undefined) return [];
  const line = siphon.lines[0];
  const header = ready.insides.find(({ drawn }) => drawn.vessel.kind === 'header');
  const again = (changed: ReadyCircuit, at: Case): Thermosiphon | undefined =>
    thermosiphons(changed, at).find(({ words }) => words === siphon.words);
  const tell = (words: string, after: Thermosiphon | undefined) =>
    after === undefined || after.runs === 'stalls'
      ? []
      : [
          {
            words: `${words}: ${(after.flowM3S * 60_000).toFixed(2)} L/min run by themselves and carry ${(after.mostW / 1000).toFixed(1)} kW off before they boil`,
            gain: after.mostW,
          },
        ];
  const run = ready.drawn.runs.find((row) => row.line === line);
  const end =
    run === undefined ? undefined : [run.from, run.to].find((spot) => partOf(spot) === header?.drawn.vessel.part);
  const lower = Math.ceil(siphon.lacksMm) + 1;
  const isDry = siphon.lacksMm > 0;
  const lowered =
    end === undefined || !isDry
      ? []
      : tell(
          `${line} into the header ${lower} mm lower`,
          again(
            movedPorts(ready, (spot) => (spot === end ? -lower : 0)),
            hot,
          ),
        );
  const fuller =
    header?.tank === null || header === undefined || !isDry
      ? []
      : fullerHeader(header.drawn.vessel.part, fillIn(header, hot), header.tank.volumeM3);
  return toldCures([
    ...lowered,
    ...fuller.flatMap(({ part, fillL, moreL }) =>
      tell(
        `${moreL.toFixed(1)} L more water in the header`,
        again(ready, { ...hot, fills: [...(hot.fills ?? []), { part, fillL }] }),
      ),
    ),
    ...pumpedOn(ready, hot, siphon),
    ...idledFirst(ready, hot, idle, siphon),
  ]);
}

/** What a small electric pump brings round such a loop. Our choice [m3/s]. */
const PUMPED_M3S = 5 / 60_000;

function pumpedOn(ready: ReadyCircuit, hot: Case, { words }: Thermosiphon): WorkedCure[] {
  const loop = pumpedLoop(ready, hot, words, PUMPED_M3S);
  return loop === undefined
    ? []
    : [
        {
          words: `an electric pump in ${words}'s loop that runs on, ${(PUMPED_M3S * 60_000).toFixed(0)} L/min against ${(loop.lossPa / 1000).toFixed(1)} kPa: carries up to ${(loop.mostW / 1000).toFixed(1)} kW off before it boils`,
          gain: loop.mostW,
        },
      ];
}

/** The pump of the engine brings water through while it idles: what that can take out before it is switched off. */
function idledFirst(ready: ReadyCircuit, hot: Case, idle: Case | undefined, { words }: Thermosiphon): WorkedCure[] {
  const state = idle === undefined ? undefined : guarded(() => coolantState(ready, idle));
  const element = ready.sorted.liquid.find((row) => row.words === words);
  if (idle === undefined || state === undefined || 'why' in state || element === undefined) return [];
  const flowM3S = Math.abs(state.flow.flowOf.get(element.id) ?? 0);
  const loop = pumpedLoop(ready, hot, words, flowM3S);
  return loop === undefined || flowM3S <= 0
    ? []
    : [
        {
          words: `the engine idled at ${Math.round(idle.engineRpm)} rpm before it is switched off: ${(flowM3S * 60_000).toFixed(1)} L/min run through it and carry up to ${(loop.mostW / 1000).toFixed(1)} kW off before they boil`,
          gain: loop.mostW,
        },
      ];
}

/** Steps of a fuller header, the usual fifth of it left for the water's growth. */
function fullerHeader(part: string, nowM3: number, holdsM3: number): { part: string; fillL: number; moreL: number }[] {
  return [0.1, 0.2, 0.3, 0.5, 0.7, 1]
    .map((moreL) => ({ part, fillL: nowM3 * 1000 + moreL, moreL }))
    .filter(({ fillL }) => fillL <= 0.8 * holdsM3 * 1000);
}
