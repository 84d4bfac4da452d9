import type { Case, Pump } from '#car';
import { withPump } from '../circuit/changed-circuit.ts';
import { easierRuns, withRun } from '../circuit/changed-runs.ts';
import { caseOf, type LiquidFlow, liquidFlow, type ReadyCircuit, redrawn } from '../circuit/circuit-state.ts';
import { nameOf } from '../circuit/drawn-circuit.ts';
import { leastThatHolds, toldCures, type WorkedCure } from '../circuit/worked-cure.ts';
import { guarded } from '../refused.ts';
import type { Catalogue } from '#standards';
import type { DrySumpAsk } from './dry-sump-ask.ts';
import { drySumpState } from './dry-sump-state.ts';
import { galleryOf } from './gallery.ts';
import { feedInletPa } from './inlets.ts';
import { sweptRatio } from './swept-ratio.ts';

const bar = (pa: number): string => (pa / 1e5).toFixed(2);
/** A pump twice as large is another pump. */
const MOST_TIMES = 2;
/** Stages come in steps of this [cc/rev]. */
const STEP_CC = 0.5;
const STEP_DRIVE = 0.01;
const RELIEF_STEPS_BAR = [0.5, 1] as const;
/** Oil is not cooled below this to lift its pressure [C]. */
const COOLEST_C = 80;
/** Cures that lift less are not worth a line [Pa]. */
const LEAST_GAIN_PA = 2000;
/** Of what a stage sweeps: more going back by its relief valve than this says the valve sets the pressure. */
const OPEN_SHARE = 0.02;

type GalleryAsk = Omit<DrySumpAsk, 'finding'> & { readonly finding: Pick<DrySumpAsk['finding'], 'limit'> };

/** What lifts the pressure before the gallery, each solved again. */
export function galleryCures(ask: GalleryAsk): string[] {
  const { ready, state } = ask;
  const at = state.asked.at;
  return toldCures(
    [...largerStages(ask), ...fasterDrive(ask), ...higherRelief(ask), ...coolerOil(ask), ...widerLines(ask)].flatMap(
      ({ words, changed = ready, case: asked = at }) => lifted(ask, words, changed, asked) ?? [],
    ),
    LEAST_GAIN_PA,
  );
}

/** What lifts the gallery to a pressure [bar] at a speed and a temperature of the oil. */
export function galleryCuresAt(ready: ReadyCircuit, shelf: Catalogue, at: Case, wantedBar: number): string[] {
  const state = guarded(() => drySumpState(ready, at));
  return 'why' in state ? [] : galleryCures({ ready, shelf, state, finding: { limit: wantedBar } });
}

interface Change {
  readonly words: string;
  readonly changed?: ReadyCircuit;
  readonly case?: Case;
}

function liquidAfter(ready: ReadyCircuit, at: Case, { state }: GalleryAsk): LiquidFlow | undefined {
  const solved = guarded(() => {
    const asked = caseOf(ready, at);
    return typeof asked === 'string' ? { why: asked, where: [] } : liquidFlow(ready, asked, state.gasPa);
  });
  return 'why' in solved ? undefined : solved;
}

const galleryAfter = (ready: ReadyCircuit, at: Case, ask: GalleryAsk): number | undefined => {
  const liquid = liquidAfter(ready, at, ask);
  return liquid === undefined ? undefined : galleryOf(liquid)?.fromPa;
};

function lifted(ask: GalleryAsk, words: string, changed: ReadyCircuit, at: Case): WorkedCure | undefined {
  const { state, finding } = ask;
  const now = galleryOf(state.liquid)?.fromPa;
  const liquid = liquidAfter(changed, at, ask);
  const after = liquid === undefined ? undefined : galleryOf(liquid)?.fromPa;
  if (now === undefined || liquid === undefined || after === undefined) return undefined;
  const enough = after >= (finding.limit ?? 0) * 1e5 ? ', which is enough' : '';
  const costs = changed.drawn.pumps === ask.ready.drawn.pumps ? '' : costWords(ask, changed, liquid);
  return { words: `${words}: +${bar(after - now)} bar, ${bar(after)} bar${enough}${costs}`, gain: after - now };
}

/** A larger or faster pump draws deeper, and leaves the scavenge less in hand. */
function costWords({ ready, state }: GalleryAsk, changed: ReadyCircuit, liquid: LiquidFlow): string {
  const feed = feedOf(ready, state.liquid);
  const [before, after] = [state.liquid, liquid].map((flow) =>
    feed === undefined ? undefined : feedInletPa(flow, state.asked.fluid, feed),
  );
  const ratio = [ready, changed].map(sweptRatio);
  const draws =
    before === undefined || after === undefined || before - after < 100 ? '' : `; its inlet ${bar(after)} bar`;
  const left =
    ratio[0] === undefined || ratio[1] === undefined || Math.abs(ratio[0] - ratio[1]) < 0.01
      ? ''
      : `${draws === '' ? ';' : ','} the scavenge sweeps ${ratio[1].toFixed(2)} times it`;
  return draws + left;
}

const feedOf = (ready: ReadyCircuit, { pumps, lines }: LiquidFlow): string | undefined => {
  const from = ready.drawn.pumps.find((row) => idOf(row) === pumps[0]?.id)?.from;
  return lines.find(({ line }) => ready.drawn.lines.get(line)?.to === from)?.line;
};

const idOf = (pump: Pump): string => pump.id ?? nameOf(pump);

const pressureStages = (ready: ReadyCircuit): Pump[] =>
  ready.sorted.liquid.flatMap(({ kind, pump }) =>
    kind === 'pump' && pump?.displacementCcRev !== undefined && pump.driveRatio !== undefined ? [pump] : [],
  );

/** A figure of a pump so much larger that the limit holds, in the trade's steps; half as large again where nothing does. */
function enlarged(ask: GalleryAsk, now: number, step: number, withFigure: (figure: number) => ReadyCircuit): number {
  const { finding, state } = ask;
  const wanted = (finding.limit ?? 0) * 1e5;
  const holds = (figure: number): boolean =>
    (galleryAfter(withFigure(figure), state.asked.at, ask) ?? Number.NEGATIVE_INFINITY) >= wanted;
  return leastThatHolds(now, now * MOST_TIMES, step, holds) ?? Math.ceil((now * 1.5) / step) * step;
}

function largerStages(ask: GalleryAsk): Change[] {
  const { ready } = ask;
  return pressureStages(ready).map((pump) => {
    const withCc = (cc: number) => redrawn(ready, withPump(ready.drawn, idOf(pump), { displacementCcRev: cc }));
    const cc = enlarged(ask, pump.displacementCcRev!, STEP_CC, withCc);
    return {
      words: `${nameOf(pump)} of ${cc.toFixed(1)} cc/rev instead of ${pump.displacementCcRev} cc/rev`,
      changed: withCc(cc),
    };
  });
}

/** Stages of one pump turn together. */
function fasterDrive(ask: GalleryAsk): Change[] {
  const { ready } = ask;
  const [stage] = pressureStages(ready);
  if (stage === undefined) return [];
  const now = stage.driveRatio!;
  const isOfIt = (pump: Pump): boolean =>
    pump.driveRatio === now && pump.from.split('.')[0] === stage.from.split('.')[0];
  const withDrive = (driveRatio: number) =>
    redrawn(ready, {
      ...ready.drawn,
      pumps: ready.drawn.pumps.map((row) => (isOfIt(row) ? { ...row, driveRatio } : row)),
    });
  const ratio = enlarged(ask, now, STEP_DRIVE, withDrive);
  return [
    {
      words: `the pump driven at ${ratio.toFixed(2)} of engine speed, all its stages, which is ${((100 * ratio) / now - 100).toFixed(0)} % faster`,
      changed: withDrive(ratio),
    },
  ];
}

/** Only where its valve stands open does its setting hold the pressure down. */
function higherRelief({ ready, state }: GalleryAsk): Change[] {
  return pressureStages(ready).flatMap((pump) => {
    const flow = state.liquid.pumps.find(({ id }) => id === idOf(pump));
    const { relief } = pump;
    if (relief === undefined || flow?.sweptM3S === undefined || flow.reliefM3S < OPEN_SHARE * flow.sweptM3S) return [];
    return RELIEF_STEPS_BAR.map((step) => {
      const set = { ...relief, cracksBar: relief.cracksBar + step, fullFlowBar: relief.fullFlowBar + step };
      return {
        words: `its relief valve set to open at ${set.cracksBar.toFixed(1)} bar instead of ${relief.cracksBar} bar, if pump, filter and cooler stand it`,
        changed: redrawn(ready, withPump(ready.drawn, idOf(pump), { relief: set })),
      };
    });
  });
}

function coolerOil(ask: GalleryAsk): Change[] {
  const { ready, state, finding } = ask;
  const { at, temperatureC: now } = state.asked;
  const wanted = (finding.limit ?? 0) * 1e5;
  if (now <= COOLEST_C) return [];
  const holds = (less: number): boolean =>
    (galleryAfter(ready, { ...at, oilC: now - less }, ask) ?? Number.NEGATIVE_INFINITY) >= wanted;
  const less = leastThatHolds(0, now - COOLEST_C, 1, holds) ?? now - COOLEST_C;
  const oilC = Math.floor(now - less);
  return [{ words: `the oil at ${oilC} °C instead of ${now} °C (a larger cooler, more air)`, case: { ...at, oilC } }];
}

/** Lines that the pressure side loses something in, in the next sizes and with straighter ends. */
function widerLines({ ready, shelf, state }: GalleryAsk): Change[] {
  return state.liquid.lines
    .filter(({ dropPa }) => dropPa > LEAST_GAIN_PA)
    .flatMap(({ line: id }) => {
      const run = ready.drawn.runs.find(({ line }) => line === id);
      const line = ready.drawn.lines.get(id);
      if (run === undefined || line === undefined || line.duty === 'oil-suction') return [];
      const hose = line.hose ?? line.pieces.find((row) => row.hose !== undefined)?.hose;
      return easierRuns(run, shelf, hose, line.dash).map(({ words, run: easier }) => ({
        words,
        changed: redrawn(ready, withRun(ready.drawn, easier)),
      }));
    });
}

/** The stage that gets more oil than it sweeps, large enough to carry it all. */
export function floodedCures(ask: DrySumpAsk): string[] {
  const { ready, state, finding } = ask;
  const stage = state.scavenge.stages.find(({ leftM3S, words }) => leftM3S > 0 && finding.text.includes(words));
  const pump = ready.drawn.pumps.find((row) => idOf(row) === stage?.id);
  const cc = pump?.displacementCcRev;
  if (stage === undefined || pump === undefined || cc === undefined) return [];
  const leftWith = (displacementCcRev: number): number | undefined => {
    const tried = redrawn(ready, withPump(ready.drawn, idOf(pump), { displacementCcRev }));
    const after = guarded(() => drySumpState(tried, state.asked.at));
    return 'why' in after ? undefined : after.scavenge.stages.reduce((sum, { leftM3S }) => sum + leftM3S, 0);
  };
  const times = (2 * (stage.oilM3S + stage.leftM3S)) / Math.max(stage.sweptM3S, 1e-12);
  const larger = leastThatHolds(cc, cc * Math.max(2, times), STEP_CC, (tried) => leftWith(tried) === 0);
  if (larger === undefined) return [];
  const changed = redrawn(ready, withPump(ready.drawn, idOf(pump), { displacementCcRev: larger }));
  const ratio = sweptRatio(changed);
  return [
    `${stage.words} of ${larger.toFixed(1)} cc/rev instead of ${cc} cc/rev: all the oil is carried${ratio === undefined ? '' : `, the scavenge sweeps ${ratio.toFixed(2)} times the pressure stage`}`,
  ];
}
