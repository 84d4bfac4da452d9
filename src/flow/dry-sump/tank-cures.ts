import type { Case } from '#car';
import type { ReadyCircuit } from '../circuit/circuit-state.ts';
import { leastThatHolds, toldCures } from '../circuit/worked-cure.ts';
import { airDensity } from '../fluids/air.ts';
import { smallestRisenBubble } from '../fluids/bubble-rise.ts';
import { guides } from '../limits.ts';
import { guarded } from '../refused.ts';
import type { CarG } from '../tank/level.ts';
import { tankOfBox } from '../tank/tank.ts';
import { leastFill } from '../tank/under-g.ts';
import { pullG } from '../circuit/pull.ts';
import { drySumpState, type DrySumpState } from './dry-sump-state.ts';
import { OUTSIDE_PA } from './froth.ts';
import { feedMouths, gOfPull, type Mouth } from './mouths.ts';
import { movedOutlets } from './outlet-cures.ts';
import type { DeAeration, TankInCase } from './tank-answer.ts';
import { spunCures } from './spun-cures.ts';
import { swungCure } from './swung-pick-up.ts';
import { tanksInCase } from './tank-in-g.ts';
import { bafflePlan, waveIn } from './tank-wave.ts';
import { litres } from './tank-words.ts';
import { wavePlanOf } from './wave-plan.ts';

const STEP_M3 = 0.00005;
const STEPS_M3 = [0.0005, 0.001, 0.002] as const;
/** Rings that are tried, to the tank's radius. */
const RING_WIDTHS = [0.1, 0.2, 0.3] as const;
const WARMEST_C = 110;
const MOST_PLAN_TIMES = 50;

const withOil = (at: Case, part: string, oilM3: number): Case => ({
  ...at,
  fills: [...(at.fills ?? []).filter((row) => row.part !== part), { part, fillL: oilM3 * 1000 }],
});

/** Room for so much more, the usual air left over it. */
const hasRoom = ({ tank }: Mouth, oilM3: number): boolean => oilM3 + guides.tankAir.value / 1000 <= tank.volumeM3;

/** More oil in the tank, solved again: for how long the bore stays covered. */
export function longerCoveredCures(ready: ReadyCircuit, state: DrySumpState, tank: TankInCase): string[] {
  const mouth = feedMouths(ready).find(({ spot }) => spot === tank.outlet);
  const { at } = state.asked;
  if (mouth === undefined) return [];
  const tried = STEPS_M3.filter((more) => hasRoom(mouth, tank.oilM3 + more)).flatMap((more) => {
    const after = guarded(() => drySumpState(ready, withOil(at, tank.part, tank.oilM3 + more)));
    const seconds =
      'why' in after
        ? undefined
        : tanksInCase(ready, after).find(({ outlet }) => outlet === tank.outlet)?.secondsCovered;
    if (seconds === undefined) return [];
    const enough = at.lastsS !== undefined && seconds >= at.lastsS ? ', which is enough' : '';
    const lasts = Number.isFinite(seconds)
      ? `covered for ${seconds.toFixed(1)} s`
      : 'covered for as long as it is held';
    return [{ words: `${litres(more)} L more oil: ${lasts}${enough}`, gain: seconds - tank.secondsCovered }];
  });
  return toldCures(tried, 0.05);
}

/** What keeps the bore under the first wave: more oil, another place for it, a ring in a round tank; each reckoned again. */
export function waveCures(ready: ReadyCircuit, state: DrySumpState, tank: TankInCase): string[] {
  const mouth = feedMouths(ready).find(({ spot }) => spot === tank.outlet);
  const before = tank.wave?.cover.headMm;
  if (mouth === undefined || before === undefined) return [];
  const g = gOfPull(state.asked.pull);
  const headWith = (changed: Mouth, oilM3: number, added = 0) => waveIn(changed, state, g, oilM3, added)?.cover;
  const tell = (words: string, cover: ReturnType<typeof headWith>) =>
    cover === undefined
      ? []
      : [
          {
            words: `${words}: ${cover.headMm < 0 ? `bare by ${(-cover.headMm).toFixed(0)} mm` : `covered by ${cover.headMm.toFixed(0)} mm`} instead of bare by ${(-before).toFixed(0)} mm`,
            gain: cover.headMm - before,
          },
        ];
  const room = mouth.tank.volumeM3 - guides.tankAir.value / 1000 - tank.oilM3;
  const more =
    room <= 0
      ? undefined
      : leastThatHolds(0, room, STEP_M3, (extra) => headWith(mouth, tank.oilM3 + extra)?.covering === 'covered');
  const rings = RING_WIDTHS.flatMap((share) => {
    const ring = bafflePlan(mouth, state, g, tank.oilM3, share);
    return ring === undefined
      ? []
      : tell(
          `a ring baffle ${ring.widthMm.toFixed(0)} mm wide, ${ring.belowMm.toFixed(0)} mm under the oil at rest`,
          headWith(mouth, tank.oilM3, ring.damping),
        );
  });
  const directionDeg = ((Math.atan2(g.lateralG, g.longitudinalG) * 180) / Math.PI + 360) % 360;
  const moved = movedOutlets(mouth, directionDeg).flatMap(({ words, outlet }) =>
    tell(words, headWith({ ...mouth, outlet }, tank.oilM3)),
  );
  const filled = more === undefined ? [] : tell(`${litres(more, 2)} L more oil`, headWith(mouth, tank.oilM3 + more));
  const half = dividedTank(mouth, g);
  const wall =
    half === undefined
      ? []
      : tell(
          `a wall across the tank's middle, floor to roof, ${half.words}, its holes too small for the wave to pass`,
          headWith(half.mouth, tank.oilM3 / 2),
        );
  return toldCures([...filled, ...moved, ...rings, ...wall], 1);
}

/** That half of a box tank which the outlet is in, its other half shut off by a wall square to the way that the oil is thrown. */
function dividedTank(mouth: Mouth, g: CarG): { readonly words: string; readonly mouth: Mouth } | undefined {
  const { tank, inside, outlet } = mouth;
  if (wavePlanOf(inside)?.kind !== 'box') return undefined;
  const { positions, centre } = tank.mesh;
  const half = ([0, 1, 2] as const).map((i) =>
    positions.reduce((most, v, k) => (k % 3 === i ? Math.max(most, Math.abs(v)) : most), 0),
  ) as [number, number, number];
  const axis = Math.abs(g.longitudinalG) > Math.abs(g.lateralG) ? 0 : 1;
  const off = outlet.atMm[axis] - centre[axis];
  // A wall through the bore itself shares it.
  if (Math.abs(off) < outlet.boreMm / 2) return undefined;
  const minMm = centre.map((c, i) => (i === axis && off > 0 ? c : c - half[i]!)) as unknown as [number, number, number];
  const maxMm = centre.map((c, i) => (i === axis && off < 0 ? c : c + half[i]!)) as unknown as [number, number, number];
  const box = { minMm, maxMm };
  const { volumeL: _, ...vessel } = inside.drawn.vessel;
  const smaller = tankOfBox(minMm, maxMm, { name: tank.name });
  return {
    words: axis === 0 ? 'from side to side' : 'along the car',
    mouth: {
      ...mouth,
      tank: smaller,
      inside: { ...inside, tank: smaller, drawn: { ...inside.drawn, vessel: { ...vessel, inside: { box } } } },
    },
  };
}

/** Places for the outlet that some fill covers in every case, with the least such fill. */
export function coveredSomewhere(ready: ReadyCircuit, outlet: string, cases: readonly Case[]): string[] {
  const mouth = feedMouths(ready).find(({ spot }) => spot === outlet);
  if (mouth === undefined) return [];
  const gs = cases.map((at) => gOfPull(pullG(at)));
  const directions = gs
    .filter(({ longitudinalG, lateralG }) => Math.hypot(longitudinalG, lateralG) > 0)
    .map(({ longitudinalG, lateralG }) => ((Math.atan2(lateralG, longitudinalG) * 180) / Math.PI + 360) % 360);
  const tried = [...new Set(directions)].flatMap((deg) => movedOutlets(mouth, deg));
  const rows = tried.flatMap(({ words, outlet: moved }) => {
    const least = leastFill(mouth.tank, moved, gs);
    return least === undefined
      ? []
      : [
          {
            words: `${words}: ${litres(least.oilM3)} L keeps it covered in every case`,
            gain: mouth.tank.volumeM3 - least.oilM3,
          },
        ];
  });
  const swung = swungCure(mouth, gs, 'in every case');
  const all = [
    ...rows.filter((row, i) => rows.findIndex(({ words }) => words === row.words) === i),
    ...(swung === undefined ? [] : [{ words: swung.words, gain: mouth.tank.volumeM3 - swung.leastM3 }]),
  ];
  return toldCures(all);
}

/** A wider tank, and warmer oil: the smallest bubble that then has time to rise. */
export function bubbleCures(ready: ReadyCircuit, state: DrySumpState, tank: TankInCase, air: DeAeration): string[] {
  const { at, fluid, temperatureC } = state.asked;
  const limitMm = guides.bubble.value;
  const smallestIn = (times: number): number =>
    1000 *
    smallestRisenBubble(
      air.depthM / times,
      air.dwellS,
      fluid.viscosityPaS,
      fluid.densityKgM3,
      airDensity(temperatureC, OUTSIDE_PA),
    );
  const times = leastThatHolds(1, MOST_PLAN_TIMES, 0.01, (x) => smallestIn(x) <= limitMm);
  const planM2 = tank.oilM3 / air.depthM;
  const now = air.smallestM * 1000;
  const wider =
    times === undefined
      ? []
      : [
          {
            words: `as much oil in a tank of ${(planM2 * times).toFixed(2)} m² plan, ${(2000 * Math.sqrt((planM2 * times) / Math.PI)).toFixed(0)} mm across if round: bubbles from ${smallestIn(times).toFixed(2)} mm up rise (more oil in an upright tank does nothing for it)`,
            gain: now - smallestIn(times),
          },
        ];
  const after = temperatureC >= WARMEST_C ? undefined : guarded(() => drySumpState(ready, { ...at, oilC: WARMEST_C }));
  const warm =
    after === undefined || 'why' in after
      ? undefined
      : tanksInCase(ready, after).find(({ outlet }) => outlet === tank.outlet)?.air;
  const warmMm = warm === undefined || warm === null ? undefined : warm.smallestM * 1000;
  return toldCures(
    [
      ...wider,
      ...spunCures(ready, state, tank, air),
      ...(warmMm === undefined
        ? []
        : [
            {
              words: `the oil at ${WARMEST_C} °C before it is asked of: bubbles from ${warmMm.toFixed(2)} mm up rise`,
              gain: now - warmMm,
            },
          ]),
    ],
    0.02,
  );
}
