import { type End, type HoseEndRow, type HoseRow, describeEnd, mates } from '#standards';
import { linkClock } from './clock-setting.ts';
import type { EndMakeUp } from './end-make-up.ts';
import { cheapestOfEachShape } from './cheapest-of-each-shape.ts';
import type { MakeUps, MakeUpWish } from './end-make-ups.ts';
import { missingChain } from './missing-chain.ts';
import type { PortEnd } from './port-end.ts';
import { builtMakeUp } from './built-make-up.ts';
import { type Link, exitOf, matingChains } from './mating-chains.ts';
import type { PartsShelf } from './parts-shelf.ts';

/** What a make-up must know of a hard tube. */
export interface TubeEnd {
  readonly odMm: number;
  readonly wallMm: number;
}

/**
 * Every way to lead a port to a hard tube with the fewest fittings: through adapters to a nut and sleeve, or another socket that
 * takes the tube; dearer, through one elbow adapter. The tube runs into its nut as far as the nut is long.
 */
export function tubeEndMakeUps(port: PortEnd, tube: TubeEnd, shelf: PartsShelf, wish: MakeUpWish): MakeUps {
  const end: End = { type: 'plain-tube', odMm: tube.odMm };
  const isGoal = (open: End): boolean => open.type === 'tube-socket' && mates(open, end).ok;
  const allowed = (link: Link): boolean =>
    (link.row.restrictorMm === undefined || link.row.restrictorMm === port.restrictorMm) &&
    (link.row.angleDeg === 0 || linkClock(link) !== 'none');
  const elbowCounts = wish.allowElbowAdapters === false ? ([0] as const) : ([0, 1] as const);
  const chains = elbowCounts.flatMap((elbows) => matingChains(port.end, shelf.adapters, { isGoal, allowed, elbows }));
  const makeUps = cheapestOfEachShape(chains.map((links) => tubeMakeUp(port, links, tube, shelf, wish)));
  return makeUps.length > 0 ? { makeUps } : { missing: missingChain(port, [end]) };
}

/** A tube's end where a hose goes over its bead: nothing to buy but the hose's clamp, and a bead to roll. */
export function beadedTubeEnd(tube: TubeEnd, shelf: PartsShelf): EndMakeUp {
  const makeUp = builtMakeUp({ end: { type: 'tube-socket', odMm: tube.odMm } }, [], bareEnd(tube), {
    hose: asHose(tube),
    shelf,
    wish: {},
  });
  return { ...makeUp, remarks: ['roll a bead on the tube end: a hose creeps off a plain one'] };
}

function tubeMakeUp(
  port: PortEnd,
  links: readonly Link[],
  tube: TubeEnd,
  shelf: PartsShelf,
  wish: MakeUpWish,
): EndMakeUp {
  const makeUp = builtMakeUp(port, links, bareEnd(tube), { hose: asHose(tube), shelf, wish });
  const last = links.at(-1);
  const insertMm = last !== undefined && exitOf(last).type === 'tube-socket' ? last.row.lengthMm : 0;
  return { ...makeUp, insertMm };
}

const boreOf = (tube: TubeEnd): number => tube.odMm - 2 * tube.wallMm;

/** A tube's own end has no part of its own: it stands in no parts list and adds no length. */
const bareEnd = (tube: TubeEnd): HoseEndRow => ({
  id: 'tube',
  name: describeEnd({ type: 'plain-tube', odMm: tube.odMm }),
  source: 'builder',
  measure: false,
  families: [],
  to: { type: 'plain-tube', odMm: tube.odMm },
  angleDeg: 0,
  fixing: 'reusable',
  nutMm: 0,
  bendRadiusMm: 0,
  afterBendMm: 0,
  socketMm: 0,
  socketOdMm: tube.odMm,
  neckOdMm: tube.odMm,
  nutHexMm: 0,
  insertMm: 0,
  boreMm: boreOf(tube),
  reusable: true,
  canTurn: false,
});

/** Only the outside and the bore are read of it. */
const asHose = (tube: TubeEnd): Pick<HoseRow, 'odMm' | 'boreMm'> => ({ odMm: tube.odMm, boreMm: boreOf(tube) });
