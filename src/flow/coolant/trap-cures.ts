import type { Case } from '#car';
import type { Vec } from '#geometry';
import type { Catalogue } from '#standards';
import { hoseSizes, topOf, withLine } from '../circuit/changed-circuit.ts';
import { withRun } from '../circuit/changed-runs.ts';
import { type ReadyCircuit, redrawn } from '../circuit/circuit-state.ts';
import type { TrapWords } from '../circuit/coolant-answer.ts';
import type { DrawnCircuit } from '../circuit/drawn-circuit.ts';
import type { LineRun } from '../circuit/line-run.ts';
import { pullG } from '../circuit/pull.ts';
import { toldCures, type WorkedCure } from '../circuit/worked-cure.ts';
import { guides } from '../limits.ts';
import { guarded } from '../refused.ts';
import { airTraps } from './air-traps.ts';
import { coolantState } from './coolant-state.ts';
import { DRILLS_MM, withDrill } from './drilled.ts';
import { ATTITUDES } from './heights.ts';
import { LEAST_TRAP_MM } from './trap-words.ts';

/** What cures of a trap are worked out with; `fastest`: where most water would run past the radiator. */
export interface TrapAsk {
  readonly ready: ReadyCircuit;
  readonly shelf: Catalogue;
  readonly fastest: Case | undefined;
}

/** How much lower than the trap is deep a line is tried: laid flat, it still traps air where the car leans. */
const LOWERINGS = [1, 1.5, 2, 3] as const;
/** Hoses that a bleed comes in. */
const BLEED_DASHES = [4, 6] as const;
const BLEED = 'added bleed';
/** Less air than this is not worth a line [mL]. */
const LEAST_GAIN_ML = 0.5;

/** What lets the air of a trap out: the line laid lower, a bleed there, a screw there; each looked at again in every way the car is stood. */
export function trapCures(trap: TrapWords, ask: TrapAsk): string[] {
  return toldCures([...loweredCures(ask.ready, trap), ...bleedCures(trap, ask)], LEAST_GAIN_ML);
}

/** Air that stays in some lines or joints, in each way the car is stood [mL]. */
function airIn(drawn: DrawnCircuit, places: readonly string[]): number[] {
  return ATTITUDES.map((stand) =>
    airTraps(drawn, pullG(stand), LEAST_TRAP_MM)
      .filter(({ line, spot }) => places.includes(line ?? spot ?? ''))
      .reduce((sum, { volumeM3 }) => sum + volumeM3 * 1e6, 0),
  );
}

/** The most air that stays in some lines or joints, whichever way the car is stood [mL]. */
export const mostAirMl = (drawn: DrawnCircuit, places: readonly string[]): number => Math.max(...airIn(drawn, places));

/** What a change gains, summed over the ways the car is stood [mL]. */
const gained = (before: readonly number[], after: readonly number[]): number =>
  before.reduce((sum, mL, i) => sum + mL - after[i]!, 0);

/** "479 mL less, no air stays there in any of the 5 ways the car was stood". */
function leftWords(before: readonly number[], after: readonly number[]): string {
  const worst = after.indexOf(Math.max(...after));
  const clear = after.filter((mL) => mL < LEAST_GAIN_ML).length;
  const less = `${Math.max(...before.map((mL, i) => mL - after[i]!)).toFixed(0)} mL less`;
  return clear === after.length
    ? `${less}, no air stays there in any of the ${after.length} ways the car was stood`
    : `${less}, no air stays there in ${clear} of the ${after.length} ways the car was stood, ${after[worst]!.toFixed(0)} mL ${ATTITUDES[worst]!.words}`;
}

/** The line laid lower at the trap: the least that clears it, else what gains most. */
function loweredCures({ drawn }: ReadyCircuit, trap: TrapWords): WorkedCure[] {
  const run = drawn.runs.find(({ line }) => line === trap.line);
  const { depthMm } = trap;
  if (run === undefined || depthMm === null) return [];
  const before = airIn(drawn, [run.line]);
  const tried = LOWERINGS.map((times) => {
    const lowerMm = Math.ceil(times * depthMm);
    const after = airIn(withRun(drawn, lowered(run, trap.atMm[2] - lowerMm)), [run.line]);
    return { lowerMm, after, gain: gained(before, after) };
  });
  const best =
    tried.find(({ after }) => Math.max(...after) < LEAST_GAIN_ML) ?? tried.toSorted((a, b) => b.gain - a.gain)[0]!;
  return [
    { words: `${run.line} laid ${best.lowerMm} mm lower there: ${leftWords(before, best.after)}`, gain: best.gain },
  ];
}

/** No point of the line but its two ends higher than this [mm]. */
function lowered(run: LineRun, mostMm: number): LineRun {
  const last = run.stretches.length - 1;
  const stretches = run.stretches.map((row, s) => ({
    ...row,
    pathMm: row.pathMm.map((at, i): Vec => {
      const isEnd = (s === 0 && i === 0) || (s === last && i === row.pathMm.length - 1);
      return isEnd ? at : [at[0], at[1], Math.min(at[2], mostMm)];
    }),
  }));
  return { ...run, stretches };
}

/** A circuit with a bleed from a trap to the header, and where air could then stay of what was the trap. */
interface Bled {
  readonly drawn: DrawnCircuit;
  readonly places: readonly string[];
  readonly dash: number;
}

function bleedCures(trap: TrapWords, ask: TrapAsk): WorkedCure[] {
  const { ready } = ask;
  const bled = bledAt(trap, ask);
  if (bled === undefined) return [];
  const before = airIn(ready.drawn, [trap.words]);
  const after = airIn(bled.drawn, bled.places);
  const bleed: WorkedCure = {
    words: `a -${bled.dash} bleed there, rising all the way to the header: ${leftWords(before, after)}${flowWords(bled, ask)}`,
    gain: gained(before, after),
  };
  // A screw lets out what stands there while it is filled, the car level as first listed, and nothing after.
  const atFill = before[0]! - after[0]!;
  const screw: WorkedCure = {
    words: `a bleed screw there, opened at each fill on the level: ${atFill.toFixed(0)} mL let out then; what gathers in driving stays`,
    gain: Math.min(atFill, bleed.gain / 2),
  };
  return [bleed, screw];
}

/** The circuit with a tee at the trap, or its joint tapped, and a bleed from there into the top of the header. */
function bledAt(trap: TrapWords, { ready, shelf }: TrapAsk): Bled | undefined {
  const { drawn } = ready;
  const header = drawn.vessels.find(({ vessel }) => vessel.kind === 'header');
  const toMm = header === undefined ? undefined : topOf(header);
  const [size] = hoseSizes(shelf, BLEED_DASHES);
  if (header === undefined || toMm === undefined || size === undefined) return undefined;
  const to = `${header.vessel.part}.${BLEED}`;
  const added = (from: string) =>
    ({ id: BLEED, from, to, duty: 'water-bleed', fromMm: trap.atMm, toMm, boreMm: size.boreMm }) as const;
  const run = drawn.runs.find(({ line }) => line === trap.line);
  if (run === undefined)
    return { drawn: withLine(drawn, added(trap.words)), places: [trap.words, BLEED], dash: size.dash };
  const tee = `tee in ${run.line}.${BLEED}`;
  const halves = cutAt(run, trap.atMm, tee);
  if (halves === undefined) return undefined;
  const line = drawn.lines.get(run.line)!;
  const [, second] = halves;
  const cut: DrawnCircuit = {
    ...drawn,
    runs: drawn.runs.flatMap((row) => (row === run ? halves : [row])),
    lines: new Map([
      ...drawn.lines,
      [run.line, { ...line, to: tee }],
      [second.line, { ...line, id: second.line, from: tee }],
    ]),
  };
  return { drawn: withLine(cut, added(tee)), places: [run.line, second.line, tee, BLEED], dash: size.dash };
}

/** A run cut in two at its point nearest to a place. */
function cutAt(run: LineRun, atMm: Vec, tee: string): readonly [LineRun, LineRun] | undefined {
  let best = { s: -1, i: -1, off: Number.POSITIVE_INFINITY };
  run.stretches.forEach(({ pathMm }, s) =>
    pathMm.forEach((at, i) => {
      const off = Math.hypot(at[0] - atMm[0], at[1] - atMm[1], at[2] - atMm[2]);
      const isEnd = (s === 0 && i === 0) || (s === run.stretches.length - 1 && i === pathMm.length - 1);
      if (!isEnd && off < best.off) best = { s, i, off };
    }),
  );
  const stretch = run.stretches[best.s];
  if (stretch === undefined) return undefined;
  const share = best.i / Math.max(1, stretch.pathMm.length - 1);
  const before = { ...stretch, pathMm: stretch.pathMm.slice(0, best.i + 1), lengthMm: stretch.lengthMm * share };
  const behind = { ...stretch, pathMm: stretch.pathMm.slice(best.i), lengthMm: stretch.lengthMm * (1 - share) };
  const first = [...run.stretches.slice(0, best.s), ...(before.pathMm.length > 1 ? [before] : [])];
  const second = [...(behind.pathMm.length > 1 ? [behind] : []), ...run.stretches.slice(best.s + 1)];
  if (first.length === 0 || second.length === 0) return undefined;
  return [
    { ...run, to: tee, stretches: first },
    { ...run, line: `${run.line} behind the tee`, from: tee, stretches: second },
  ];
}

/** What runs in it where the pump turns fastest, choked by the widest drill that keeps it within the guide where it needs one. */
function flowWords({ drawn }: Bled, { ready, fastest }: TrapAsk): string {
  if (fastest === undefined) return '';
  const where = fastest.name ?? fastest.id;
  const lMinWith = (changed: DrawnCircuit): number | undefined => {
    const after = guarded(() => coolantState(redrawn(ready, changed), fastest));
    const flow = 'why' in after ? undefined : after.flow.flowOf.get(BLEED);
    return flow === undefined ? undefined : flow * 60_000;
  };
  const open = lMinWith(drawn);
  if (open === undefined) return '';
  if (open < 0)
    return `; running, the pump draws ${(-open).toFixed(1)} L/min down through it at ${where}: air comes up only while it stands`;
  if (open <= guides.bleedFlow.value) return `; it carries ${open.toFixed(1)} L/min past the radiator at ${where}`;
  for (const mm of DRILLS_MM) {
    const flow = lMinWith(withDrill(drawn, [BLEED], mm));
    if (flow !== undefined && flow <= guides.bleedFlow.value)
      return `; with a restrictor of ${mm} mm it carries ${flow.toFixed(1)} L/min past the radiator at ${where} (${open.toFixed(1)} L/min without)`;
  }
  return '';
}
