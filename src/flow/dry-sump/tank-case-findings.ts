import type { ReadyCircuit } from '../circuit/circuit-state.ts';
import type { FlowFinding } from '../finding.ts';
import { guides } from '../limits.ts';
import type { CarG } from '../tank/level.ts';
import { toldApart } from '../told-apart.ts';
import type { DrySumpState } from './dry-sump-state.ts';
import { feedMouths, gOfPull, type Mouth } from './mouths.ts';
import { outletCures } from './outlet-cures.ts';
import { panUntil } from './pan-until.ts';
import type { DeAeration, TankInCase } from './tank-answer.ts';
import { swungCure } from './swung-pick-up.ts';
import { bubbleCures, longerCoveredCures, waveCures } from './tank-cures.ts';
import { litres, moreOil, type Say, teller } from './tank-words.ts';

/** What a case does to the tanks and pans. */
export function tankCaseFindings(
  ready: ReadyCircuit,
  state: DrySumpState,
  tanks: readonly TankInCase[],
): FlowFinding[] {
  const say = teller(ready.drawn.circuit.id, state.asked);
  const pans = tanks[0] === undefined ? [] : barePickUps(state, tanks[0], say);
  return [
    ...pans,
    ...tanks.flatMap((tank) => [...bareOutlet(ready, state, tank, say), ...waveFindings(ready, state, tank, say)]),
    ...tanks.flatMap((tank) => (tank.air === null ? [] : bubbles(ready, state, tank, tank.air, say))),
  ];
}

function bareOutlet(ready: ReadyCircuit, state: DrySumpState, tank: TankInCase, say: Say): FlowFinding[] {
  const about = { part: tank.part, line: ready.drawn.runs.find(({ from }) => from === tank.outlet)?.line };
  const named = about.line === undefined ? { part: about.part } : { part: about.part, line: about.line };
  const { at } = state.asked;
  if (tank.cover.share < 1) {
    const mouth = feedMouths(ready).find(({ spot }) => spot === tank.outlet)!;
    const g = gOfPull(state.asked.pull);
    const deg = (Math.atan2(g.lateralG, g.longitudinalG) * 180) / Math.PI;
    const toward = { directionDeg: (deg + 360) % 360, g: 0, isAll: false };
    const needs =
      tank.leastM3 === null
        ? []
        : [moreOil({ holdsM3: mouth.tank.volumeM3, runningM3: tank.oilM3 }, tank.leastM3 - tank.oilM3)];
    return [
      say(
        'stop',
        'outlet-bare',
        `${tank.outlet} stands ${(-tank.cover.headMm).toFixed(0)} mm out of the oil with ${litres(tank.oilM3)} L in the tank: the engine draws air`,
        'geometry',
        {
          ...named,
          value: tank.cover.headMm,
          unit: 'mm',
          cures: [...needs, ...outletCures(mouth, tank.oilM3, toward), ...swungHere(mouth, g, tank.oilM3)],
        },
      ),
    ];
  }
  if (at.engineRpm === 0 || tank.secondsCovered === Infinity) return [];
  const lasts = at.lastsS;
  const isShort = lasts === undefined || tank.secondsCovered < lasts;
  return [
    say(
      isShort ? 'stop' : 'note',
      'runs-bare',
      `held, ${tank.outlet} draws air after ${lasts === undefined ? tank.secondsCovered.toFixed(1) : toldApart(tank.secondsCovered, lasts, 1)} s, less coming back than is drawn${lasts === undefined ? '' : `; it lasts ${lasts} s`}`,
      'geometry',
      {
        ...named,
        value: tank.secondsCovered,
        ...(lasts === undefined ? {} : { limit: lasts }),
        unit: 's',
        cures: isShort ? longerCoveredCures(ready, state, tank) : [],
      },
    ),
  ];
}

/** A pick-up that swings, where the oil that is there covers it. */
function swungHere(mouth: Mouth, g: CarG, oilM3: number): string[] {
  const swung = swungCure(mouth, [g], 'at this g');
  return swung === undefined || swung.leastM3 > oilM3 ? [] : [swung.words];
}

/** Less g than this along the floor moves oil by less than a pan is known. */
const LEAST_FLAT_G = 0.1;

/** Pick-ups that stand bare in g, and what their pan keeps back meanwhile. */
function barePickUps(state: DrySumpState, tank: TankInCase, say: Say): FlowFinding[] {
  const { at, pull } = state.asked;
  if (at.engineRpm === 0 || Math.hypot(pull[0], pull[1]) < LEAST_FLAT_G) return [];
  const vessels = [...new Set(tank.pickUps.map(({ vessel }) => vessel))];
  return vessels.flatMap((vessel) => {
    const ups = tank.pickUps.filter((row) => row.vessel === vessel);
    const bare = ups.filter(({ cover }) => cover.share === 0);
    const comes = state.oilInto(vessel);
    if (bare.length === 0 || comes <= 0) return [];
    const names = bare.map(({ words, spot }) => `${words} (${spot})`).join(' and ');
    const draws = `${names} draw${bare.length === 1 ? 's' : ''} only air`;
    if (bare.length < ups.length)
      return [
        say('note', 'pan-bare', `${draws}; the oil of ${vessel} goes to the other stage`, 'geometry', { part: vessel }),
      ];
    return allBare(state, tank, vessel, draws, say);
  });
}

function allBare(state: DrySumpState, tank: TankInCase, vessel: string, draws: string, say: Say): FlowFinding[] {
  const { lastsS } = state.asked.at;
  const first = Math.min(...tank.pickUps.filter((row) => row.vessel === vessel).map(({ firstM3 }) => firstM3));
  const { untilS, seconds, inTankM3, inPanM3, isBare } = panUntil(state, tank, vessel, first);
  const ends =
    seconds < untilS ? `, which it will not in the ${lastsS} s that this lasts` : `, after ${untilS.toFixed(1)} s`;
  return [
    say(
      isBare ? 'stop' : 'note',
      'pan-bare',
      `${draws} until ${vessel} holds ${litres(first, 2)} L${ends}; ${litres(inPanM3, 2)} L stands in it then, ${litres(inTankM3)} L in ${tank.part}, its outlet ${isBare ? 'bare' : 'covered'}`,
      'fluid-statics',
      { part: vessel, value: first * 1000, unit: 'L' },
    ),
  ];
}

/** A step of g is the worst that a driver can do to a tank; a real one takes some tenths of a second. */
function waveFindings(ready: ReadyCircuit, state: DrySumpState, tank: TankInCase, say: Say): FlowFinding[] {
  const { wave } = tank;
  if (wave === null || tank.cover.share < 1 || wave.cover.share === 1) return [];
  return [
    say(
      'fix',
      'outlet-wave',
      `were this g to come on at once, the first wave (${wave.wave.frequencyHz.toFixed(2)} Hz in a smooth tank) would run to ${wave.step.mostDeg.toFixed(0)} degrees, ${wave.step.restDeg.toFixed(0)} being its rest, and bare ${tank.outlet} for part of a swing`,
      'nasa-sp-106',
      {
        part: tank.part,
        value: wave.cover.headMm,
        unit: 'mm',
        cures: waveCures(ready, state, tank),
      },
    ),
  ];
}

function bubbles(ready: ReadyCircuit, state: DrySumpState, tank: TankInCase, air: DeAeration, say: Say): FlowFinding[] {
  const { value: limit, source, words } = guides.bubble;
  const smallest = air.smallestM * 1000;
  if (smallest <= limit) return [];
  const isSlow = air.reynolds < 1;
  return [
    say(
      'note',
      'bubbles',
      `oil stays ${air.dwellS.toFixed(1)} s in ${tank.part}; bubbles below ${toldApart(smallest, limit, 2)} mm go round again${isSlow ? '' : ' (at the edge of the slow law: larger still)'}; ${words}`,
      source,
      {
        part: tank.part,
        value: smallest,
        limit,
        unit: 'mm',
        cures: bubbleCures(ready, state, tank, air),
      },
    ),
  ];
}
