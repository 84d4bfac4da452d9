import type { Car, Lever, LeverCable } from '#car';
import type { Vec } from '#geometry';
import { formatNumber } from '#units';
import { type BracketAnswer, bracketAnswer } from './bracket.ts';
import { bracketFindings } from './bracket-findings.ts';
import { cableFindings } from './cable-findings.ts';
import { type Chain, chainRun, chainsOf } from './chain.ts';
import { leverCrank } from './crank.ts';
import { cylinderFindings, handFindings } from './force-findings.ts';
import type { LeverFinding } from './lever-finding.ts';
import { type LeverOutput, leverOutput } from './lever-output.ts';
import { limits } from './limits.ts';
import { type Moved, movedFindings, moved } from './moved.ts';
import { movementFindings } from './output-findings.ts';
import { reach } from './reach.ts';
import { type Say, sayOf } from './say.ts';
import { driveMm, swing } from './travel.ts';

/** What a lever does: how far, how hard, and what is open about it. */
export interface LeverAnswer {
  readonly lever: string;
  readonly name: string;
  readonly acts: Lever['acts'];
  readonly turnDeg: readonly [number, number];
  /** Of what takes hold: from its pivot [mm]. */
  readonly handleRadiusMm: number | null;
  /** Along its arc to both ends, and straight from end to end [mm]. */
  readonly handleMm: readonly [number, number] | null;
  readonly handleStraightMm: number | null;
  readonly handleFromMm: Vec | null;
  readonly handleToMm: Vec | null;
  /** From the wheel's rim at low end, rest, high end; null where no wheel is given [mm]. */
  readonly reachMm: readonly [number, number, number] | null;
  readonly outputs: readonly LeverOutput[];
  /** Against how it was; null where nothing is said of that. */
  readonly moved: Moved | null;
  /** The plate that carries it; null where none is given, its sheet is not known, or nothing pulls on its pivot. */
  readonly bracket: BracketAnswer | null;
  readonly findings: readonly LeverFinding[];
  readonly cautions: readonly string[];
}

/** What a lever does by itself; gaps to other things are worked out where solids are known. */
export function leverAnswer(car: Pick<Car, 'levers' | 'movers' | 'parts'>, lever: Lever): LeverAnswer {
  const say = sayOf(lever);
  const pairs = chainsOf(car, lever).map((chain) => ({ chain, output: leverOutput(car, chain, chainRun(chain)) }));
  const outputs = pairs.flatMap(({ output }) => output ?? []);
  const drive = driveMm(lever);
  const travel = drive === undefined ? null : swing(leverCrank(lever), drive);
  const was = lever.was === undefined ? null : moved(car, lever, outputs);
  const bracket = bracketOf(lever, outputs, travel?.radiusMm ?? 0);
  return {
    lever: lever.id,
    name: lever.name ?? lever.id,
    acts: lever.acts,
    turnDeg: lever.turnDeg,
    handleRadiusMm: travel?.radiusMm ?? null,
    handleMm: travel?.travelMm ?? null,
    handleStraightMm: travel?.straightMm ?? null,
    handleFromMm: travel?.fromMm ?? null,
    handleToMm: travel?.toMm ?? null,
    reachMm: reach(lever),
    outputs,
    moved: was,
    bracket,
    findings: [
      ...pairs.flatMap(({ chain, output }) => chainFindings(chain, output, say)),
      ...stopFindings(lever, say),
      ...reachFindings(lever, say),
      ...usualForce(lever, say),
      ...(was === null ? [] : movedFindings(was, say)),
      ...(bracket === null ? [] : bracketFindings(bracket, lever.bracket!.thicknessMm, say)),
    ].filter(isFirst),
    cautions: cautionsOf(lever, outputs),
  };
}

/** Under the most that bears on the pivot of all that it moves. */
function bracketOf(lever: Lever, outputs: readonly LeverOutput[], radiusMm: number): BracketAnswer | null {
  const pivotN = Math.max(0, ...outputs.map((output) => output.pivotN ?? 0));
  const handN = Math.max(lever.force?.usualN ?? 0, ...(lever.force?.rangeN ?? []));
  if (lever.bracket === undefined || pivotN === 0 || handN === 0) return null;
  return bracketAnswer(lever.bracket, pivotN, handN, lever.bracket.pin.atMm[1] + radiusMm);
}

/** Two chains that share a cable say the same of it: once is enough. */
const isFirst = (finding: LeverFinding, i: number, all: readonly LeverFinding[]): boolean =>
  all.findIndex((other) => other.code === finding.code && other.text === finding.text) === i;

function chainFindings(chain: Chain, output: LeverOutput | undefined, say: Say): LeverFinding[] {
  if (output === undefined)
    return [
      say(
        'stop',
        'lever-not-standing',
        'its rods or cables do not stand as drawn: a pin is where its rod or core has no length',
        'geometry',
        {
          ...(chain.joints[0] === undefined ? {} : { link: chain.joints[0].link.id }),
          place: chain.end.pinMm,
          cures: ['measure the arms and the ends of the conduit again'],
        },
      ),
    ];
  const cables = output.cables.flatMap((answer) => {
    const link = chain.joints.find((joint) => joint.link.id === answer.cable)!.link as LeverCable;
    return cableFindings(link, answer, output, say);
  });
  const cylinder = chain.end.kind === 'cylinder' ? cylinderFindings(chain.lever, chain.end.cylinder, output, say) : [];
  return [...movementFindings(chain, output, say), ...cables, ...cylinder];
}

function stopFindings(lever: Lever, say: Say): LeverFinding[] {
  const { stopsDeg, turnDeg } = lever;
  if (lever.acts === 'link') return [];
  const place = driveMm(lever) ?? lever.pivotMm;
  if (stopsDeg === undefined)
    return [
      say(
        'note',
        'lever-no-stops',
        'no hard stops are named: without them cable, rod or cylinder ends the swing and takes the force',
        'common-practice',
        {
          place,
          cures: [`stops at ${formatNumber(turnDeg[0])} and ${formatNumber(turnDeg[1])} deg, entered as stopsDeg`],
        },
      ),
    ];
  const short = Math.max(stopsDeg[0] - turnDeg[0], turnDeg[1] - stopsDeg[1]);
  if (short <= 0) return [];
  return [
    say(
      'fix',
      'lever-stops-early',
      `its stops end the swing ${formatNumber(short, 1)} deg before the ${formatNumber(turnDeg[1] - turnDeg[0], 1)} that were reckoned with`,
      'builder',
      {
        value: short,
        limit: 0,
        unit: 'deg',
        place,
        cures: ['move the stop, or enter the swing that it leaves as turnDeg'],
      },
    ),
  ];
}

function reachFindings(lever: Lever, say: Say): LeverFinding[] {
  const mm = reach(lever);
  if (mm === null) return [];
  const [far, near] = [Math.max(...mm), Math.min(...mm)];
  const words = `the knob is ${formatNumber(near)} to ${formatNumber(far)} mm from the wheel's rim over its swing`;
  const say1 = (value: number, limit: typeof limits.reachMm | typeof limits.reachLeastMm, cure: string): LeverFinding =>
    say(
      'note',
      'lever-reach',
      `${words}; ${limits.reachLeastMm.value} to ${limits.reachMm.value} is usual`,
      limit.source,
      {
        value,
        limit: limit.value,
        unit: 'mm',
        place: lever.handle!.atMm,
        cures: [cure],
      },
    );
  if (far > limits.reachMm.value)
    return [say1(far, limits.reachMm, `the knob ${formatNumber(far - limits.reachMm.value)} mm nearer to the wheel`)];
  if (near < limits.reachLeastMm.value)
    return [
      say1(
        near,
        limits.reachLeastMm,
        `the knob ${formatNumber(limits.reachLeastMm.value - near)} mm farther from the wheel: knuckles want room`,
      ),
    ];
  return [];
}

/** The usual force itself may be more than people give. */
function usualForce(lever: Lever, say: Say): LeverFinding[] {
  const place = driveMm(lever) ?? lever.pivotMm;
  return handFindings(lever, lever.force?.usualN, { place }, say).map((finding) => ({
    ...finding,
    code: 'lever-usual-force',
    text: finding.text.replace('are needed', 'are reckoned with'),
    cures: ['enter the force that the driver was measured to give'],
  }));
}

function cautionsOf(lever: Lever, outputs: readonly LeverOutput[]): readonly string[] {
  const isBrake = outputs.some(({ kind }) => kind === 'cylinder');
  return [
    ...(isBrake || lever.acts === 'foot'
      ? [
          "Brakes and pedals: have lever, bracket and cylinder checked by a qualified person; the event's rules decide what may be fitted.",
        ]
      : []),
    'A control that jams or lets go takes the car with it: locked fastenings, no play at the pins, tried through its whole swing with somebody looking on before the car moves.',
    'Forces are worked out from the lengths entered; springs, dry cables and worn pins add to them. Measure the first one with a spring balance.',
  ];
}
