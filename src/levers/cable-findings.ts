import type { LeverCable } from '#car';
import { formatNumber } from '#units';
import type { CableAnswer } from './cable-answer.ts';
import { angleBetweenDeg } from './cable-path.ts';
import type { LeverFinding } from './lever-finding.ts';
import type { LeverOutput } from './lever-output.ts';
import { limits } from './limits.ts';
import type { About, Say } from './say.ts';
import type { Vec } from '#geometry';

const whole = (value: number): string => formatNumber(value);
const places = (at: Vec): string => at.map((x) => formatNumber(x)).join(', ');

/** What is wrong with a cable: bends, ends, travel, force, slack, crossings. */
export function cableFindings(cable: LeverCable, answer: CableAnswer, output: LeverOutput, say: Say): LeverFinding[] {
  return [
    ...bendFindings(cable, answer, say),
    ...endFindings(answer, cable, say),
    ...travelFindings(cable, answer, output, say),
    ...crossingFindings(cable, answer, say),
  ];
}

function bendFindings(cable: LeverCable, answer: CableAnswer, say: Say): LeverFinding[] {
  const out: LeverFinding[] = [];
  const { largestRadiusMm: largest, wantedRadiusMm: wanted } = answer;
  if (largest !== null && largest < wanted - 0.5)
    out.push(
      say(
        cable.leastRadiusMm === undefined ? 'fix' : 'stop',
        'cable-radius',
        `${answer.name} has room for a bend of ${whole(largest)} mm radius at its tightest corner; ${whole(wanted)} is the least`,
        cable.leastRadiusMm === undefined ? limits.cableRadiusMm.source : 'builder',
        {
          link: cable.id,
          value: largest,
          limit: wanted,
          unit: 'mm',
          ...(answer.tightestMm === null ? {} : { place: answer.tightestMm }),
          cures: [
            `legs ${formatNumber(wanted / Math.max(largest, 1), 1)} times as long beside that corner, or less of a turn there`,
          ],
        },
      ),
    );
  const most = cable.mostBendDeg ?? limits.bendDeg.value;
  if (answer.bendDeg > most) {
    const sharp = sharpest(cable.pathMm);
    out.push(
      say(
        'fix',
        'cable-bends',
        `${answer.name} bends ${whole(answer.bendDeg)} deg in all; ${whole(most)} is the most: ${whole(100 * answer.passesShare)} % of the force comes out at the other end, seals aside`,
        cable.mostBendDeg === undefined ? limits.bendDeg.source : 'builder',
        {
          link: cable.id,
          value: answer.bendDeg,
          limit: most,
          unit: 'deg',
          ...(sharp === undefined ? {} : { place: sharp.atMm }),
          cures: [
            `straighten ${whole(answer.bendDeg - most)} deg of it${sharp === undefined ? '' : `; the corner at ${places(sharp.atMm)} alone turns ${whole(sharp.turnDeg)} deg`}`,
          ],
          inputs: [
            { name: 'friction of core on liner', value: String(cable.frictionRatio ?? limits.cableFriction.value) },
            { name: 'bends in all', value: `${whole(answer.bendDeg)} deg` },
          ],
        },
      ),
    );
  }
  return out;
}

function sharpest(path: readonly Vec[]): { readonly atMm: Vec; readonly turnDeg: number } | undefined {
  const corners = path.slice(1, -1).map((atMm, i) => {
    const [before, after] = [path[i]!, path[i + 2]!];
    const way = (a: Vec, b: Vec): Vec => [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
    return { atMm, turnDeg: angleBetweenDeg(way(before, atMm), way(atMm, after)) };
  });
  return corners.toSorted((a, b) => b.turnDeg - a.turnDeg)[0];
}

function endFindings(answer: CableAnswer, cable: LeverCable, say: Say): LeverFinding[] {
  const ends = [
    { deg: answer.nearLeadDeg, at: cable.pathMm[0]!, words: 'at the lever' },
    { deg: answer.farLeadDeg, at: cable.pathMm.at(-1)!, words: 'at its other end' },
  ];
  return ends.flatMap(({ deg, at, words }): LeverFinding[] =>
    deg <= answer.leadLimitDeg
      ? []
      : [
          say(
            'fix',
            'cable-lead-in',
            `the core of ${answer.name} stands ${formatNumber(deg, 1)} deg off the line of its conduit ${words}; ${formatNumber(answer.leadLimitDeg)} is the most: it rubs and wears there`,
            cable.leadInDeg === undefined ? limits.leadInDeg.source : 'builder',
            {
              link: cable.id,
              value: deg,
              limit: answer.leadLimitDeg,
              unit: 'deg',
              place: at,
              cures: [
                "turn the conduit's end so that it points at the middle of the arc of the pin",
                `hold the conduit ${formatNumber(Math.tan((deg * Math.PI) / 180) / Math.tan((answer.leadLimitDeg * Math.PI) / 180), 2)} times as far from the pin as now`,
              ],
            },
          ),
        ],
  );
}

function travelFindings(cable: LeverCable, answer: CableAnswer, output: LeverOutput, say: Say): LeverFinding[] {
  const about = { link: cable.id, place: cable.pathMm[0]! } as const;
  const seals =
    cable.sealDragN === undefined
      ? [
          say(
            'note',
            'cable-seals',
            `drag of the end seals of ${answer.name} is not given and not counted; it can be more than that of the bends`,
            'builders-reports',
            { ...about, cures: ['pull the free core with a spring balance and enter half of it as sealDragN'] },
          ),
        ]
      : [];
  return [
    ...strokeFindings(cable, answer, about, say),
    ...coreFindings(cable, answer, output, about, say),
    ...seals,
    ...slackFindings(cable, output, about, say),
  ];
}

function strokeFindings(cable: LeverCable, answer: CableAnswer, about: About, say: Say): LeverFinding[] {
  const core = answer.coreMm[1] - answer.coreMm[0];
  if (cable.strokeMm === undefined || core <= cable.strokeMm) return [];
  return [
    say(
      'stop',
      'cable-stroke',
      `the core of ${answer.name} is moved ${whole(core)} mm; its ends allow ${whole(cable.strokeMm)}`,
      'builder',
      {
        ...about,
        value: core,
        limit: cable.strokeMm,
        unit: 'mm',
        cures: [
          `an arm ${whole((100 * cable.strokeMm) / core)} % as long as now, or a cable with ${whole(Math.ceil(core / 5) * 5)} mm of travel`,
        ],
      },
    ),
  ];
}

function coreFindings(
  cable: LeverCable,
  answer: CableAnswer,
  output: LeverOutput,
  about: About,
  say: Say,
): LeverFinding[] {
  const most = output.effort.at(-1);
  const linkN = most?.linkN[output.id.split(' > ').indexOf(cable.id)];
  if (cable.coreLimitN === undefined || most === undefined || linkN === undefined || linkN <= cable.coreLimitN)
    return [];
  return [
    say(
      'stop',
      'cable-core',
      `${whole(most.handN)} N at the handle put ${whole(linkN)} N on the core of ${answer.name}; it takes ${whole(cable.coreLimitN)}`,
      'builder',
      {
        ...about,
        value: linkN,
        limit: cable.coreLimitN,
        unit: 'N',
        cures: [
          `an arm ${formatNumber(linkN / cable.coreLimitN, 1)} times as long, or a stop that takes the force before the cable does`,
        ],
      },
    ),
  ];
}

function slackFindings(cable: LeverCable, output: LeverOutput, about: About, say: Say): LeverFinding[] {
  if (output.lostOutputMm === null || cable.slackMm === undefined) return [];
  const share = output.lostOutputMm / Math.max(1e-9, Math.abs(output.outputMm[1] - output.outputMm[0]));
  if (share <= limits.slackShare.value) return [];
  return [
    say(
      'note',
      'cable-slack',
      `${formatNumber(output.lostOutputMm, 1)} mm at the output, ${whole(output.lostHandleMm ?? Number.NaN)} mm at the handle, are lost to slack: ${whole(100 * share)} % of the travel`,
      limits.slackShare.source,
      {
        ...about,
        value: share,
        limit: limits.slackShare.value,
        unit: '-',
        cures: ['longer arms at both ends of the cable, in proportion: the same slack is less of more travel'],
      },
    ),
  ];
}

/** A path that passes farther from its hole than this does not go through it [mm]. */
const OFF_HOLE_MM = 5;

function crossingFindings(cable: LeverCable, answer: CableAnswer, say: Say): LeverFinding[] {
  return answer.crossings.flatMap((row, i): LeverFinding[] => {
    const about = { link: cable.id, part: row.part, place: row.atMm, unit: 'mm' } as const;
    const out: LeverFinding[] = [];
    if (row.offMm > OFF_HOLE_MM)
      out.push(
        say(
          'fix',
          'cable-off-hole',
          `${answer.name} passes ${whole(row.offMm)} mm from where it is to go through ${row.part}`,
          'builder',
          {
            ...about,
            value: row.offMm,
            limit: OFF_HOLE_MM,
            cures: [`a corner of its path at ${places(cable.crossing![i]!.atMm)}, or the hole at ${places(row.atMm)}`],
          },
        ),
      );
    if (row.hasHoleMm !== null && row.hasHoleMm < row.clearHoleMm - 0.05)
      out.push(
        say(
          'fix',
          'cable-hole',
          `${answer.name} wants a hole of ${formatNumber(row.clearHoleMm, 1)} mm in ${row.part}${row.slantDeg === null ? '' : `, at ${whole(row.slantDeg)} deg to square`}; it is ${formatNumber(row.hasHoleMm, 1)}`,
          'geometry',
          {
            ...about,
            value: row.hasHoleMm,
            limit: row.clearHoleMm,
            cures: [`open it to ${whole(Math.ceil(row.clearHoleMm))} mm and close the gap round the cable again`],
          },
        ),
      );
    return out;
  });
}
