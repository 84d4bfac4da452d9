import { dot, type Vec } from '#geometry';
import { pullG } from '../circuit/pull.ts';
import { toldCures, type WorkedCure } from '../circuit/worked-cure.ts';
import { type CarG, Levels } from '../tank/level.ts';
import type { Outlet } from '../tank/outlet.ts';
import type { DrySumpAsk } from './dry-sump-ask.ts';
import { fillsAt, gOfPull, type Mouth, pickUps } from './mouths.ts';
import { panUntil } from './pan-until.ts';
import { pressurePerTurn, sweptPerTurn, sweptRatio } from './swept-ratio.ts';
import { tanksInCase } from './tank-in-g.ts';
import { litres } from './tank-words.ts';

/** A mouth that faces a floor stands this share of its bore over it: the ring under it is then as wide as the bore. */
const OVER_FLOOR = 0.25;
/** Less kept back than this is not worth a line [m3]. */
const LEAST_GAIN_M3 = 5e-5;
/** Corners within this of the deepest are as deep [mm]. */
const LEVEL_MM = 1;

/** A pick-up where the oil is thrown: one of those there are moved, or one more with a stage of its own. */
export function barePickUpCures(ask: DrySumpAsk): string[] {
  const { ready, state, finding } = ask;
  const g = gOfPull(state.asked.pull);
  const ups = pickUps(ready).filter(({ inside }) => inside.drawn.vessel.part === finding.part);
  const tank = tanksInCase(ready, state)[0];
  const now = firstOf(ups, g);
  if (ups.length === 0 || tank === undefined || now === undefined) return [];
  const tell = (words: string, after: readonly Mouth[]): WorkedCure[] => {
    const first = firstOf(after, g);
    if (first === undefined) return [];
    const { untilS, inTankM3, isBare } = panUntil(state, tank, finding.part!, first);
    const reads = Number.isFinite(untilS) && untilS >= 0.05 ? `, after ${untilS.toFixed(1)} s` : '';
    return [
      {
        words: `${words}: ${finding.part} keeps ${litres(first, 2)} L before oil is drawn instead of ${litres(now, 2)} L${reads}; ${litres(inTankM3)} L in ${tank.part} then, its outlet ${isBare ? 'bare' : 'covered'}${elsewhere(ask, ups, after)}`,
        gain: now - first,
      },
    ];
  };
  const moved = ups.flatMap((mouth) => {
    const there = atDeepest(mouth, g);
    const after = ups.map((row) => (row === mouth ? { ...row, outlet: there } : row));
    return tell(`the pick-up of ${mouth.words} ${wayWords(mouth.outlet.atMm, there.atMm)}`, after);
  });
  const [like] = ups;
  const added = { ...like!, outlet: atDeepest(like!, g) };
  return toldCures(
    [...moved, ...tell(`a stage more like ${like!.words}, its pick-up there${ratioWith(ask, like!)}`, [...ups, added])],
    LEAST_GAIN_M3,
  );
}

/** What a pan keeps back before any of its pick-ups draws [m3]. */
function firstOf(ups: readonly Mouth[], g: CarG): number | undefined {
  const firsts = ups.flatMap(({ tank, outlet }) => {
    const levels = new Levels(tank);
    return levels.look(g) ? [fillsAt(levels, outlet)[0]] : [];
  });
  return firsts.length === 0 ? undefined : Math.min(...firsts);
}

/** The mouth over the floor where the pan is deepest at a g. */
function atDeepest({ tank, outlet }: Mouth, g: CarG): Outlet {
  const levels = new Levels(tank);
  levels.look(g);
  const { positions, centre } = tank.mesh;
  const corners: Vec[] = [];
  for (let i = 0; i < positions.length; i += 3)
    corners.push([positions[i]! + centre[0], positions[i + 1]! + centre[1], positions[i + 2]! + centre[2]]);
  const deepest = Math.min(...corners.map((at) => dot(levels.up, at)));
  const there = corners.filter((at) => dot(levels.up, at) < deepest + LEVEL_MM);
  const mean = ([0, 1, 2] as const).map((i) => there.reduce((sum, at) => sum + at[i], 0) / there.length);
  const inward: Vec = [centre[0] - mean[0]!, centre[1] - mean[1]!, 0];
  const size = Math.hypot(inward[0], inward[1]) || 1;
  const step = outlet.boreMm / 2 / size;
  return {
    ...outlet,
    axis: [0, 0, 1],
    atMm: [mean[0]! + inward[0] * step, mean[1]! + inward[1] * step, mean[2]! + OVER_FLOOR * outlet.boreMm],
  };
}

/** "240 mm rearward, 35 mm to the right and 12 mm lower". */
function wayWords(from: Vec, to: Vec): string {
  const steps = [
    [to[0] - from[0], 'rearward', 'forward'],
    [to[1] - from[1], 'to the right', 'to the left'],
    [to[2] - from[2], 'higher', 'lower'],
  ] as const;
  const told = steps
    .filter(([mm]) => Math.abs(mm) >= 1)
    .map(([mm, plus, minus]) => `${Math.abs(mm).toFixed(0)} mm ${mm > 0 ? plus : minus}`);
  const last = told.pop() ?? 'where it is';
  return told.length === 0 ? last : `${told.join(', ')} and ${last}`;
}

function ratioWith({ ready }: DrySumpAsk, like: Mouth): string {
  const pump = ready.drawn.pumps.find(({ id }) => id === like.pump);
  const now = sweptRatio(ready);
  return pump === undefined || now === undefined
    ? ''
    : ` (the scavenge then sweeps ${(now + sweptPerTurn(pump) / pressurePerTurn(ready)).toFixed(2)} times the pressure stage)`;
}

/** The case in which the pan then keeps more than it did, the worst one. */
function elsewhere({ ready, state }: DrySumpAsk, before: readonly Mouth[], after: readonly Mouth[]): string {
  const rows = (ready.car.cases ?? [])
    .filter(({ id, engineRpm }) => id !== state.asked.at.id && engineRpm > 0)
    .flatMap((at) => {
      const g = gOfPull(pullG(at));
      const [was, now] = [firstOf(before, g), firstOf(after, g)];
      return was === undefined || now === undefined ? [] : [{ words: at.name ?? at.id, more: now - was, now }];
    });
  const worst = rows.toSorted((a, b) => b.more - a.more)[0];
  return worst === undefined || worst.more < LEAST_GAIN_M3
    ? ''
    : `; but ${litres(worst.now, 2)} L instead of ${litres(worst.now - worst.more, 2)} L at ${worst.words}`;
}
