import { formatNumber } from '#units';
import type { Chain } from './chain.ts';
import { armFactorFor } from './arm-cures.ts';
import type { LeverFinding } from './lever-finding.ts';
import type { LeverOutput } from './lever-output.ts';
import { limits } from './limits.ts';
import type { Say } from './say.ts';

const deg = (value: number): string => `${formatNumber(value, Math.abs(value) < 10 ? 1 : 0)} deg`;
const mm = (value: number): string => `${formatNumber(value, Math.abs(value) < 20 ? 1 : 0)} mm`;

/** What is wrong with how a chain moves: locks, dead centres, flat arms, too much or too little travel at the end. */
export function movementFindings(chain: Chain, output: LeverOutput, say: Say): LeverFinding[] {
  return [...lockFindings(output, say), ...armFindings(output, say), ...endFindings(chain, output, say)];
}

function lockFindings(output: LeverOutput, say: Say): LeverFinding[] {
  return [
    ...output.lockUps.map((lock) =>
      say(
        'stop',
        'lever-locks',
        `${lock.link} is stretched straight at ${deg(lock.turnDeg)} and locks; ${deg(lock.missedDeg)} of the swing are left`,
        'geometry',
        {
          link: lock.link,
          value: lock.missedDeg,
          limit: 0,
          unit: 'deg',
          place: lock.atMm,
          cures: [
            `a stop at ${deg(lock.turnDeg * STOP_BEFORE)} on that side, or a longer arm where ${lock.link} ends: it turns less`,
          ],
        },
      ),
    ),
    ...output.deadCentres.map((dead) =>
      say(
        'stop',
        'lever-dead-centre',
        `${dead.link} goes over its dead centre at ${deg(dead.turnDeg)}: from there on the output comes back`,
        'geometry',
        {
          link: dead.link,
          value: dead.turnDeg,
          unit: 'deg',
          place: dead.atMm,
          cures: [
            `a stop at ${deg(dead.turnDeg * STOP_BEFORE)} on that side`,
            `turn the arm on its lever so that it stands square to ${dead.link} in the middle of the swing`,
          ],
        },
      ),
    ),
  ];
}

/** A stop stands this share of the way to where it locks. */
const STOP_BEFORE = 0.9;

function armFindings(output: LeverOutput, say: Say): LeverFinding[] {
  return output.arms.flatMap((arm): LeverFinding[] => {
    const [good, least] = [limits.goodArmDeg, limits.leastArmDeg];
    if (arm.leastDeg >= good.value) return [];
    const isWorst = arm.leastDeg < least.value;
    const limit = isWorst ? least : good;
    const [low, rest, high] = arm.angleDeg;
    return [
      say(
        isWorst ? 'fix' : 'note',
        'lever-arm-angle',
        `the arm on ${arm.on} stands ${deg(arm.leastDeg)} to ${arm.link} where it is worst (${deg(low)}, ${deg(rest)}, ${deg(high)} from end to end); ${deg(limit.value)} or more is usual`,
        limit.source,
        {
          link: arm.link,
          value: arm.leastDeg,
          limit: limit.value,
          unit: 'deg',
          place: arm.atMm,
          cures: [`turn the arm ${deg(turnToSquare(low, high))} on its lever: both ends of the swing then stand alike`],
        },
      ),
    ];
  });
}

/** Half of what the two ends differ by. */
const turnToSquare = (low: number, high: number): number => Math.max(1, Math.abs(high - low) / 2);

function endFindings(chain: Chain, output: LeverOutput, say: Say): LeverFinding[] {
  const { outputDeg, outputEndsDeg } = output;
  if (outputDeg === null || outputEndsDeg === null || chain.joints.length === 0) return [];
  const [low, high] = [Math.min(...outputDeg), Math.max(...outputDeg)];
  const [least, most] = outputEndsDeg;
  const short = Math.max(low - least, most - high);
  const over = Math.max(least - low, high - most);
  const tolerance = limits.endDeg;
  const link = chain.joints.at(-1)!.link.id;
  const about = { link, unit: 'deg', place: chain.end.pinMm } as const;
  const turns = `${deg(low)} to ${deg(high)}`;
  const out: LeverFinding[] = [];
  if (short > tolerance.value)
    out.push(
      say(
        'stop',
        'lever-short-travel',
        `${output.to} is turned ${turns}; its own travel is ${deg(least)} to ${deg(most)}: ${deg(short)} are missing`,
        'builder',
        { ...about, value: short, limit: tolerance.value, cures: travelCures(chain, [least, most], 'short') },
      ),
    );
  if (over > tolerance.value)
    out.push(
      say(
        'fix',
        'lever-over-travel',
        `${output.to} would be turned ${turns}; it ends at ${deg(least)} and ${deg(most)}, so the lever stops ${deg(over)} of it early and leans on ${link}`,
        'builder',
        { ...about, value: over, limit: tolerance.value, cures: travelCures(chain, [least, most], 'over') },
      ),
    );
  return out;
}

/** Arms that would give the travel wanted, worked out through the whole chain. */
function travelCures(chain: Chain, wantedDeg: readonly [number, number], kind: 'short' | 'over'): string[] {
  const found = armFactorFor(chain, wantedDeg);
  if (found === undefined)
    return [
      `${kind === 'short' ? 'a longer' : 'a shorter'} arm on ${chain.lever.name ?? chain.lever.id}, or more swing`,
    ];
  return [
    `the arm on ${chain.joints[0]!.from.name} ${mm(found.fromMm)} instead of ${mm(found.wasMm)} from its pivot: the travel is then as wanted; the handle's force at the output goes to ${formatNumber(100 / found.factor)} %`,
    `or the arm on ${chain.joints.at(-1)!.to.name} ${mm(found.farMm / found.factor)} instead of ${mm(found.farMm)}, about`,
  ];
}
