import type { Case } from '#car';
import type { Vec } from '#geometry';
import type { ReadyCircuit } from '../circuit/circuit-state.ts';
import type { CoolantHeights, FillStep, HeightRung, HeightsAt, TrapWords } from '../circuit/coolant-answer.ts';
import { vesselFinder } from '../circuit/drawn-circuit.ts';
import type { LineRun } from '../circuit/line-run.ts';
import { heightMmG, pullG } from '../circuit/pull.ts';
import { fillIn, type VesselInside, vesselState } from '../circuit/vessel-state.ts';
import { airTraps } from './air-traps.ts';
import { thermosiphons } from './thermosiphon.ts';
import { LEAST_TRAP_MM, trapWords } from './trap-words.ts';

/** Ways a car stands while it is filled and driven gently: a ramp, a jack, a cambered road. Common practice, no source. */
export const ATTITUDES = [
  { words: 'level', pitchDeg: 0, rollDeg: 0 },
  { words: 'nose up 3 degrees', pitchDeg: 3, rollDeg: 0 },
  { words: 'nose down 3 degrees', pitchDeg: -3, rollDeg: 0 },
  { words: 'right side down 3 degrees', pitchDeg: 0, rollDeg: 3 },
  { words: 'left side down 3 degrees', pitchDeg: 0, rollDeg: -3 },
] as const;

/** Standing still, as filled: what the car's own fills say. */
const STILL: Case = { id: 'still', engineRpm: 0 };

/** Heights of a water circuit, the car stood in five ways; fill order; what runs by itself. */
export function coolantHeights(ready: ReadyCircuit, hot: Case | undefined): CoolantHeights {
  const attitudes = ATTITUDES.map((stand): HeightsAt => {
    const pull = pullG(stand);
    const traps = airTraps(ready.drawn, pull, LEAST_TRAP_MM).map(trapWords);
    return { ...stand, ...headerHeights(ready, pull), ...highestWater(ready, pull), traps };
  });
  const level = attitudes[0]!;
  const litresByLine = ready.drawn.runs.map((run) => ({ line: run.line, litres: litresOf(run) }));
  return {
    attitudes,
    bleeds: ready.drawn.runs
      .filter((run) => isBleed(ready, run))
      .map((run) => ({ line: run.line, ...dipOf(ready, run) })),
    ladder: ladder(ready, level, attitudes),
    fill: fillSteps(ready, level),
    linesL: litresByLine.reduce((sum, { litres }) => sum + litres, 0),
    headerL: headers(ready).reduce((sum, inside) => sum + fillIn(inside, STILL) * 1000, 0),
    litresByLine,
    siphons: hot === undefined ? [] : thermosiphons(ready, hot),
  };
}

const litresOf = (run: LineRun): number =>
  run.stretches.reduce((sum, { boreMm, lengthMm }) => sum + ((Math.PI / 4) * boreMm ** 2 * lengthMm) / 1e6, 0);

const headers = (ready: ReadyCircuit): VesselInside[] =>
  ready.insides.filter(({ drawn }) => drawn.vessel.kind === 'header' || drawn.vessel.kind === 'tank');

/** A line is a bleed by its duty. */
export const isBleed = (ready: ReadyCircuit, run: LineRun): boolean =>
  ready.drawn.lines.get(run.line)?.duty === 'water-bleed';

const A_DROP_M3 = 1e-9;

function headerHeights(ready: ReadyCircuit, pull: Vec): Pick<HeightsAt, 'headerBottomMm' | 'headerSurfaceMm'> {
  const header = headers(ready)[0];
  if (header === undefined || header.tank === null) return { headerBottomMm: null, headerSurfaceMm: null };
  const at = (fillM3: number): number | null => vesselState(header, fillM3, pull, new Map()).surfaceMmG;
  return { headerBottomMm: at(A_DROP_M3), headerSurfaceMm: at(fillIn(header, STILL)) };
}

/** The highest water outside the header and the lines that lead to it; null where all of it is in them. */
function highestWater(ready: ReadyCircuit, pull: Vec): Pick<HeightsAt, 'highestMm' | 'highestWords' | 'highestAtMm'> {
  const vesselOf = vesselFinder(ready.drawn);
  let best = { highestMm: null as number | null, highestWords: '', highestAtMm: [0, 0, 0] as Vec };
  const look = (atMm: Vec, words: string) => {
    const highestMm = heightMmG(pull, atMm);
    if (best.highestMm === null || highestMm > best.highestMm)
      best = { highestMm, highestWords: words, highestAtMm: atMm };
  };
  for (const run of ready.drawn.runs) {
    const [first, last] = endsOf(run);
    const [inFrom, inTo] = [vesselOf(run.from) !== undefined, vesselOf(run.to) !== undefined];
    if (!inFrom) look(first, run.from);
    if (!inTo) look(last, run.to);
    if (inFrom || inTo) continue;
    for (const { pathMm } of run.stretches) for (const at of pathMm) look(at, run.line);
  }
  return best;
}

const endsOf = (run: LineRun): [Vec, Vec] => [run.stretches[0]!.pathMm[0]!, run.stretches.at(-1)!.pathMm.at(-1)!];

/** How far a bleed dips on its way up to the vessel it ends in, the car level. */
function dipOf(ready: ReadyCircuit, run: LineRun): { dipMm: number; atMm: Vec } {
  const path = run.stretches.flatMap(({ pathMm }) => pathMm);
  if (vesselFinder(ready.drawn)(run.from) !== undefined) path.reverse();
  let [highest, dipMm] = [Number.NEGATIVE_INFINITY, 0];
  let atMm = path[0]!;
  for (const at of path) {
    highest = Math.max(highest, at[2]);
    if (highest - at[2] > dipMm) [dipMm, atMm] = [highest - at[2], at];
  }
  return { dipMm, atMm };
}

function ladder(ready: ReadyCircuit, level: HeightsAt, attitudes: readonly HeightsAt[]): HeightRung[] {
  const out: HeightRung[] = [];
  const vesselOf = vesselFinder(ready.drawn);
  const seen = new Set<string>();
  const header = headers(ready)[0];
  if (header?.tank) {
    const whole = vesselState(header, header.tank.volumeM3, [0, 0, -1], new Map()).surfaceMmG;
    const name = header.drawn.part.name ?? header.drawn.part.id;
    if (whole !== null) out.push({ words: `${name}, top`, heightMm: whole, kind: 'header' });
    if (level.headerSurfaceMm !== null)
      out.push({ words: `${name}, water`, heightMm: level.headerSurfaceMm, kind: 'surface' });
    if (level.headerBottomMm !== null)
      out.push({ words: `${name}, bottom`, heightMm: level.headerBottomMm, kind: 'header' });
  }
  for (const run of ready.drawn.runs) {
    const [first, last] = endsOf(run);
    for (const [spot, at] of [
      [run.from, first],
      [run.to, last],
    ] as const) {
      if (seen.has(spot)) continue;
      seen.add(spot);
      const bleed = isBleed(ready, run) && vesselOf(spot) === undefined;
      out.push({ words: spot, heightMm: at[2], kind: bleed ? 'bleed' : 'port' });
    }
    const top = run.stretches.flatMap(({ pathMm }) => pathMm).reduce((a, b) => (b[2] > a[2] ? b : a));
    if (top[2] > Math.max(first[2], last[2]) + 1)
      out.push({ words: `${run.line}, highest point`, heightMm: top[2], kind: 'high-point' });
  }
  const trapped = new Set<string>();
  for (const { words: stands, traps } of attitudes)
    for (const { words, atMm } of traps) {
      if (trapped.has(words)) continue;
      trapped.add(words);
      const where = stands === level.words ? '' : `, ${stands}`;
      out.push({ words: `air stays in ${words}${where}`, heightMm: atMm[2], kind: 'trap' });
    }
  return out.toSorted((a, b) => b.heightMm - a.heightMm || (a.words < b.words ? -1 : 1));
}

/** Lowest first: what is opened or shut as the water comes up, with what has gone in by then. */
function fillSteps(ready: ReadyCircuit, level: HeightsAt): FillStep[] {
  const vesselOf = vesselFinder(ready.drawn);
  const bleeds = ready.drawn.runs
    .filter((run) => isBleed(ready, run))
    .map((run) => {
      const [first, last] = endsOf(run);
      const ahead = vesselOf(run.to) !== undefined;
      return {
        words: `bleed ${run.line} at ${ahead ? run.from : run.to}: water without bubbles`,
        at: ahead ? first : last,
      };
    });
  const screws = level.traps.map((trap: TrapWords) => ({
    words: `bleed screw at ${trap.words}, ${Math.round(trap.atMm[2])} mm up: open until water comes, then shut`,
    at: trap.atMm,
  }));
  const rows = [...bleeds, ...screws].toSorted((a, b) => a.at[2] - b.at[2]);
  const steps = rows.map(({ words, at }) => ({ words, heightMm: at[2], litres: litresBelow(ready, at[2]) }));
  const lowest = ready.drawn.runs
    .flatMap((run) => run.stretches.flatMap(({ pathMm }) => pathMm))
    .reduce<number>((low, at) => Math.min(low, at[2]), Number.POSITIVE_INFINITY);
  const header = headers(ready)[0];
  const start = {
    words: 'all bleeds and screws open, heater and thermostat open; fill slowly',
    heightMm: lowest,
    litres: 0,
  };
  if (header === undefined || level.headerSurfaceMm === null) return [start, ...steps];
  const full = litresBelow(ready, level.headerSurfaceMm) + fillIn(header, STILL) * 1000;
  const name = header.drawn.part.name ?? header.drawn.part.id;
  return [
    start,
    ...steps,
    { words: `${name} to its mark; run, cool, look again`, heightMm: level.headerSurfaceMm, litres: full },
  ];
}

/** What the lines hold below a height [L]. */
function litresBelow(ready: ReadyCircuit, heightMm: number): number {
  let sum = 0;
  for (const { stretches } of ready.drawn.runs)
    for (const { pathMm, boreMm, lengthMm } of stretches) {
      const below = pathMm.filter((at) => at[2] <= heightMm + 1e-9).length / pathMm.length;
      sum += ((Math.PI / 4) * boreMm ** 2 * lengthMm * below) / 1e6;
    }
  return sum;
}
