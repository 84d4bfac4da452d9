import type { Case } from '#car';
import type { ReadyCircuit } from '../circuit/circuit-state.ts';
import type { FlowFinding } from '../finding.ts';
import { guides } from '../limits.ts';
import { feedMouths } from './mouths.ts';
import { outletCures } from './outlet-cures.ts';
import { coveredSomewhere } from './tank-cures.ts';
import type { TankUnderG } from './tank-answer.ts';
import { litres, moreOil, type Say, teller } from './tank-words.ts';

/** What the car does, by the direction of the plan that it speeds up in. */
const DIRECTIONS = [
  'speeding up',
  'speeding up in a right-hander',
  'a right-hander',
  'braking into a right-hander',
  'braking',
  'braking into a left-hander',
  'a left-hander',
  'speeding up in a left-hander',
] as const;

const directionWords = (deg: number): string => DIRECTIONS[Math.round(deg / 45) % 8]!;

/** What holds of the tanks in every case. */
export function tankLayoutFindings(
  ready: ReadyCircuit,
  tanks: readonly TankUnderG[],
  cases: readonly Case[],
): FlowFinding[] {
  const say = teller(ready.drawn.circuit.id);
  return tanks.flatMap((tank) => [
    ...outletG(ready, tank, say),
    ...leastFillFindings(ready, tank, cases, say),
    ...airOver(ready, tank, say),
    ...panKeeps(tank, say),
  ]);
}

/** Oil below the lowest pick-up of a pan is out of the tank while the engine runs. */
function panKeeps(tank: TankUnderG, say: Say): FlowFinding[] {
  return tank.keeps.flatMap(({ vessel, belowM3, statedM3, overFloorMm, atFloorM3 }) => {
    const more = belowM3 - statedM3;
    if (more < LEAST_KEPT_M3) return [];
    return [
      say(
        'fix',
        'pan-keeps',
        `${vessel} keeps ${litres(belowM3, 2)} L below its pick-ups, as it is drawn, standing on the level; ${litres(statedM3, 2)} L is stated: ${litres(more, 2)} L less in ${tank.part}`,
        'geometry',
        {
          part: vessel,
          value: belowM3 * 1000,
          ...(statedM3 > 0 ? { limit: statedM3 * 1000 } : {}),
          unit: 'L',
          cures: [
            `pick-ups ${overFloorMm.toFixed(0)} mm lower, at the floor: ${vessel} keeps ${litres(atFloorM3, 2)} L, ${litres(belowM3 - Math.max(atFloorM3, statedM3), 2)} L more for ${tank.part}`,
          ],
        },
      ),
    ];
  });
}

/** Less than this is not worth a line. */
const LEAST_KEPT_M3 = 1e-4;

function outletG(ready: ReadyCircuit, tank: TankUnderG, say: Say): FlowFinding[] {
  const mouth = feedMouths(ready).find(({ spot }) => spot === tank.outlet);
  const told = tank.greatest.map(({ oilM3, rows }) => {
    const worst = rows.reduce((least, row) => (row.g < least.g ? row : least), rows[0]!);
    const others = rows
      .filter(({ directionDeg }) => directionDeg % 90 === 0 && directionDeg !== worst.directionDeg)
      .map(({ directionDeg, g, isAll }) => `${directionWords(directionDeg)} ${isAll ? 'over ' : ''}${g.toFixed(2)}`);
    const first = worst.isAll
      ? `no g up to ${worst.g.toFixed(0)} bares it`
      : `bared from ${worst.g.toFixed(2)} g (${directionWords(worst.directionDeg)}); ${others.join(', ')}`;
    return { words: `with ${litres(oilM3)} L ${first}`, worst, oilM3 };
  });
  const { worst, oilM3 } = told.find((row) => !row.worst.isAll) ?? told[0] ?? {};
  if (worst === undefined || oilM3 === undefined || mouth === undefined) return [];
  return [
    say('note', 'outlet-g', `${tank.outlet}, g held: ${told.map(({ words }) => words).join('; ')}`, 'fluid-statics', {
      part: tank.part,
      line: tank.line,
      value: worst.g,
      unit: 'g',
      cures: worst.isAll ? [] : outletCures(mouth, oilM3, worst),
    }),
  ];
}

function leastFillFindings(ready: ReadyCircuit, tank: TankUnderG, cases: readonly Case[], say: Say): FlowFinding[] {
  const { least, statedLeastM3: stated, runningM3 } = tank;
  const about = { part: tank.part, line: tank.line };
  if (least === null)
    return [
      say('stop', 'least-fill', `no fill keeps ${tank.outlet} covered in every case`, 'fluid-statics', {
        ...about,
        cures: coveredSomewhere(ready, tank.outlet, cases),
      }),
    ];
  const numbers = { value: least.oilM3 * 1000, unit: 'L' };
  const words = `${litres(least.oilM3)} L in ${tank.part} is the least that keeps ${tank.outlet} covered in every case (${least.case} asks for it)`;
  if (runningM3 < least.oilM3)
    return [
      say('stop', 'least-fill', `${words}; it runs with ${litres(runningM3)} L`, 'fluid-statics', {
        ...about,
        ...numbers,
        ...(runningM3 > 0 ? { limit: runningM3 * 1000 } : {}),
        cures: [moreOil(tank, least.oilM3 - runningM3), ...coveredSomewhere(ready, tank.outlet, cases)],
      }),
    ];
  if (stated !== null && stated < least.oilM3)
    return [
      say('fix', 'least-fill', `${words}; ${litres(stated)} L is stated as the least`, 'builder', {
        ...about,
        ...numbers,
        ...(stated > 0 ? { limit: stated * 1000 } : {}),
        cures: [`state ${litres(Math.ceil(least.oilM3 * 1e4) / 1e4)} L as the least`],
      }),
    ];
  return [
    say(
      'note',
      'least-fill',
      `${words}; ${litres(runningM3 - least.oilM3)} L may leave the tank before it draws air`,
      'fluid-statics',
      { ...about, ...numbers },
    ),
  ];
}

/** Less oil, where the outlet stays covered in every case all the same; and the tank that would hold it all. */
function lessOil(tank: TankUnderG, lessM3: number): string[] {
  const spare = tank.least === null ? undefined : tank.runningM3 - lessM3 - tank.least.oilM3;
  return [
    ...(spare === undefined || spare < 0
      ? []
      : [
          `${litres(lessM3)} L less oil: ${litres(spare)} L over the least that keeps ${tank.outlet} covered in every case`,
        ]),
    `a tank that holds ${litres(tank.holdsM3 + lessM3)} L instead of ${litres(tank.holdsM3)} L, with as much oil`,
  ];
}

/** A figure that a cure names must not fall short of its limit by its last digit [L]. */
const LEAST_SHORT_L = 1e-6;

function airOver(ready: ReadyCircuit, tank: TankUnderG, say: Say): FlowFinding[] {
  const { running, standing } = tank.airOverM3;
  const { value: limit, source, words } = guides.tankAir;
  const hidden = ready.drawn.circuit.hiddenL;
  const out: FlowFinding[] = [];
  if (running * 1000 < limit - LEAST_SHORT_L)
    out.push(
      say('fix', 'tank-air', `${litres(running)} L of ${words} ${tank.part}; ${limit} L is the least`, source, {
        part: tank.part,
        value: running * 1000,
        limit,
        unit: 'L',
        cures: [
          `${litres(limit / 1000 - running)} L less oil, or a tank that holds ${litres(tank.runningM3 + limit / 1000)} L`,
        ],
      }),
    );
  if (hidden !== undefined)
    out.push(
      say(
        standing < 0 ? 'stop' : 'note',
        'hidden-oil',
        standing < 0
          ? `the engine hides ${hidden.toFixed(1)} L while it runs; back in ${tank.part} it is ${litres(-standing)} L more than there is room for`
          : `the engine hides ${hidden.toFixed(1)} L while it runs: fill until ${tank.part} holds ${litres(tank.runningM3)} L running, which is ${litres(tank.runningM3 + hidden / 1000)} L with all of it back`,
        'builder',
        { part: tank.part, value: hidden, unit: 'L', cures: standing < 0 ? lessOil(tank, -standing) : [] },
      ),
    );
  return out;
}
