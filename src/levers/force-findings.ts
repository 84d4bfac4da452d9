import type { Lever, LeverCylinder } from '#car';
import { formatNumber } from '#units';
import type { CylinderAnswer } from './cylinder-answer.ts';
import type { LeverFinding } from './lever-finding.ts';
import type { LeverOutput } from './lever-output.ts';
import { limits } from './limits.ts';
import type { About, Say } from './say.ts';

const whole = (value: number): string => formatNumber(value);
const tenth = (value: number): string => formatNumber(value, 1);

/** What is wrong with a cylinder that a lever pushes: pressure, force, stroke. */
export function cylinderFindings(lever: Lever, cylinder: LeverCylinder, output: LeverOutput, say: Say): LeverFinding[] {
  const { cylinder: answer } = output;
  if (answer === null) return [];
  return [...pressureFindings(lever, cylinder, answer, output, say), ...strokeFindings(cylinder, answer, output, say)];
}

function pressureFindings(
  lever: Lever,
  cylinder: LeverCylinder,
  answer: CylinderAnswer,
  output: LeverOutput,
  say: Say,
): LeverFinding[] {
  const { wantedBar } = cylinder;
  if (wantedBar === undefined) return [];
  const at = { link: cylinder.id, place: output.arms.at(-1)?.atMm ?? cylinder.farMm } as const;
  return answer.bores.flatMap((bore): LeverFinding[] => {
    const [low, usual, high] = bore.pressureBar;
    const [least, most] = wantedBar;
    const which = answer.bores.length === 1 ? '' : ` in the bore of ${tenth(bore.boreMm)} mm`;
    const isShort = usual < least;
    if (!isShort && usual <= most) return handFindings(lever, bore.neededN?.[0], at, say);
    const limit = isShort ? least : most;
    const level = isShort ? (high < least ? 'stop' : 'fix') : low > most ? 'fix' : 'note';
    const range = high > low ? ` (${tenth(low)} to ${tenth(high)} bar over its range)` : '';
    const factor = Math.sqrt(usual / ((least + most) / 2));
    const ratio = (answer.leverRatio * (least + most)) / 2 / usual;
    return [
      say(
        level,
        'cylinder-pressure',
        `the usual force makes ${tenth(usual)} bar${which}${range}; ${tenth(least)} to ${tenth(most)} bar are wanted`,
        'builder',
        {
          ...at,
          value: usual,
          limit,
          unit: 'bar',
          cures: [
            `a bore of ${tenth(bore.boreMm * factor)} mm instead of ${tenth(bore.boreMm)}: the middle of the band, and ${formatNumber(1 / (factor * factor), 2)} times the stroke`,
            `a ratio of ${tenth(ratio)} : 1, not ${tenth(answer.leverRatio)} : 1: ${formatNumber(ratio / answer.leverRatio, 2)} times the travel of the handle`,
            ...(bore.neededN === null
              ? []
              : [`or ${whole(bore.neededN[0])} to ${whole(bore.neededN[1])} N at the handle`]),
          ],
          inputs: [
            { name: 'ratio there', value: formatNumber(answer.leverRatio, 2) },
            { name: 'bore', value: `${tenth(bore.boreMm)} mm` },
            { name: 'share of the force', value: formatNumber(bore.forceShare, 2) },
          ],
        },
      ),
      ...handFindings(lever, bore.neededN?.[0], at, say),
    ];
  });
}

type Place = { readonly link?: string; readonly place: readonly [number, number, number] };

/** The force that is asked for against what people push and pull. */
export function handFindings(lever: Lever, neededN: number | undefined, at: Place, say: Say): LeverFinding[] {
  if (neededN === undefined || !Number.isFinite(neededN) || lever.acts === 'link') return [];
  const isHand = lever.acts === 'hand';
  const [usual, most] = isHand ? [limits.handUsualN, limits.handMostN] : [limits.footUsualN, limits.footMostN];
  if (neededN <= usual.value) return [];
  const limit = neededN > most.value ? most : usual;
  return [
    say(
      neededN > most.value ? 'stop' : 'note',
      'lever-force',
      `${whole(neededN)} N are needed at the ${isHand ? 'handle' : 'pad'}; ${whole(limit.value)} N is ${neededN > most.value ? 'the most' : 'usual for one'} ${isHand ? 'hand' : 'leg'}`,
      limit.source,
      {
        ...at,
        value: neededN,
        limit: limit.value,
        unit: 'N',
        cures: [
          `${formatNumber(neededN / limit.value, 2)} times the ratio, or a bore ${formatNumber(Math.sqrt(limit.value / neededN), 2)} times as wide`,
        ],
      },
    ),
  ];
}

function strokeFindings(
  cylinder: LeverCylinder,
  answer: CylinderAnswer,
  output: LeverOutput,
  say: Say,
): LeverFinding[] {
  const at = { link: cylinder.id, place: output.arms.at(-1)?.atMm ?? cylinder.farMm, unit: 'mm' } as const;
  if (answer.swingStrokeMm < NO_STROKE_MM) return [neverPushed(output, answer, at, say)];
  return [...strokeLeft(answer, at, say), ...strokeUsed(cylinder, answer, at, say)];
}

/** A piston that moves by less is not pushed [mm]. */
const NO_STROKE_MM = 0.05;

/** A swing entered the wrong way round pulls the rod out: pressures as drawn would look right. */
function neverPushed(
  { outputMm }: LeverOutput,
  { swingStrokeMm }: CylinderAnswer,
  at: Place & About,
  say: Say,
): LeverFinding {
  const away = -Math.min(...outputMm);
  return say(
    'stop',
    'cylinder-not-pushed',
    `its swing never pushes the piston${away < NO_STROKE_MM ? '' : `: the arm goes ${tenth(away)} mm away from the cylinder`}`,
    'builder',
    {
      ...at,
      value: swingStrokeMm,
      limit: NO_STROKE_MM,
      cures: ['turnDeg with its signs changed, or the axis the other way round: turns are right-handed about it'],
    },
  );
}

function strokeLeft(
  { swingStrokeMm: swing, strokeLeftMm: left }: CylinderAnswer,
  at: Place & About,
  say: Say,
): LeverFinding[] {
  if (left === null) return [];
  const whole100 = (share: number): string => whole(100 * share);
  const stroke = swing + left;
  if (left < 0)
    return [
      say(
        'stop',
        'cylinder-bottoms',
        `the swing pushes the piston ${tenth(swing)} mm; it has ${tenth(stroke)}: it bottoms before the lever ends`,
        'builder',
        {
          ...at,
          value: swing,
          limit: stroke,
          cures: [
            `a stop that ends the swing ${whole100(-left / swing)} % earlier, or an arm ${whole100(stroke / swing)} % as long`,
          ],
        },
      ),
    ];
  const least = limits.strokeLeftShare.value * stroke;
  if (left >= least) return [];
  return [
    say(
      'note',
      'cylinder-stroke-left',
      `${tenth(left)} mm of the cylinder's stroke are left at the end of the swing`,
      limits.strokeLeftShare.source,
      {
        ...at,
        value: left,
        limit: least,
        cures: ['less swing, or a shorter arm'],
      },
    ),
  ];
}

function strokeUsed(cylinder: LeverCylinder, answer: CylinderAnswer, at: Place & About, say: Say): LeverFinding[] {
  const { swingStrokeMm: swing, usedStrokeMm: used } = answer;
  if (used === null || answer.usedHandleMm !== null) return [];
  const times = used / Math.max(swing, 0.01);
  return [
    say(
      'stop',
      'cylinder-short',
      `${tenth(used)} mm of stroke are used before pressure stands; the whole swing gives ${tenth(swing)}`,
      'builder',
      {
        ...at,
        value: swing,
        limit: used,
        cures: [
          `${formatNumber(times, 2)} times the swing or the arm`,
          `a bore of ${tenth(cylinder.boreMm * Math.sqrt(times))} mm, with so much less pressure`,
        ],
      },
    ),
  ];
}
