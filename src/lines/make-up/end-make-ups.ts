import {
  type Duty,
  type End,
  type HoseEndAngleDeg,
  type HoseEndRow,
  type HoseRow,
  describeEnd,
  endKey,
  mates,
} from '#standards';
import { boreGraceMm, boreLossMost, widestBore } from './bore-limit.ts';
import { linkClock } from './clock-setting.ts';
import type { EndMakeUp } from './end-make-up.ts';
import { builtMakeUp } from './built-make-up.ts';
import { type Link, exitOf, matingChains } from './mating-chains.ts';
import { cheapestOfEachShape } from './cheapest-of-each-shape.ts';
import { missingChain } from './missing-chain.ts';
import type { PortEnd } from './port-end.ts';
import type { Box, PartsShelf } from './parts-shelf.ts';

export interface MakeUpWish {
  readonly box?: Box;
  readonly duty?: Duty;
  /** Hose-end angles wanted; all that the catalogue has if absent. */
  readonly angles?: readonly HoseEndAngleDeg[];
  /** Elbow adapters and banjos with a straight end, besides bent ends; true if absent. */
  readonly allowElbowAdapters?: boolean;
}

export type MakeUps = { readonly makeUps: readonly EndMakeUp[] } | { readonly missing: string };

/** A drain or return runs on little or no pressure: its chain is the widest that the catalogue has. */
const boreMustHold: ReadonlySet<Duty> = new Set(['oil-drain', 'oil-return']);
/** A banjo's hollow bolt always narrows: never where the pump has to suck through it or oil has to fall through it. */
const noBanjo: ReadonlySet<Duty> = new Set(['oil-suction', 'oil-scavenge', 'oil-drain', 'oil-return', 'oil-vent']);

interface Question {
  readonly port: PortEnd;
  readonly hose: HoseRow;
  readonly shelf: PartsShelf;
  readonly wish: MakeUpWish;
  readonly ends: readonly HoseEndRow[];
  /** No adapter narrower than this [mm]. */
  readonly leastBoreMm: number;
}

/**
 * Every way to make up a line's end with the fewest adapters: from the port through up to three adapters to a hose end of this
 * hose, one for each hose-end angle; then, dearer, through one elbow adapter or banjo to a straight end. Cheapest first; what
 * lies in the box is cheaper. Only rows of the catalogue, only joints that mate. No adapter takes more than a tenth of the
 * hose's bore unless the catalogue has nothing wider for the port, or it is a banjo, whose bolt always does (and says so); a
 * restrictor only where the port asks for one. If there is no chain, the part that is missing.
 */
export function endMakeUps(port: PortEnd, hose: HoseRow, shelf: PartsShelf, wish: MakeUpWish): MakeUps {
  const ends = shelf.hoseEndsFor(hose);
  if (ends.length === 0) return { missing: `no hose end for ${hose.name} (${hose.family}) in the catalogue` };
  const widest = widestBore(port.end, shelf.adapters, goalOf(ends), plainOf(port));
  if (widest === 0)
    return {
      missing: missingChain(
        port,
        ends.map((row) => row.to),
      ),
    };
  const leastBoreMm = leastBore(port, hose, widest, wish.duty);
  const question: Question = { port, hose, shelf, wish, ends, leastBoreMm };
  const found = [...straightChains(question), ...elbowChains(question)];
  const makeUps = cheapestOfEachShape(found);
  return makeUps.length > 0 ? { makeUps } : { missing: missingAngle(port, hose, wish) };
}

const goalOf =
  (ends: readonly HoseEndRow[]) =>
  (end: End): boolean =>
    ends.some((row) => mates(end, row.to).ok);

/** Restrictors stay out unless this very orifice is asked. */
const plainOf =
  (port: PortEnd) =>
  ({ row }: Link): boolean =>
    row.restrictorMm === undefined || row.restrictorMm === port.restrictorMm;

function leastBore(port: PortEnd, hose: HoseRow, widestMm: number, duty: Duty | undefined): number {
  if (port.restrictorMm !== undefined) return 0;
  const share = duty !== undefined && boreMustHold.has(duty) ? 1 : 1 - boreLossMost;
  return Math.min(share * hose.boreMm, share * widestMm);
}

/** Angle by angle: a bent end with another seat than the straight one's has its own shortest chain. */
function straightChains(question: Question): readonly EndMakeUp[] {
  return groupsBySeat(wantedEnds(question)).flatMap((ends) =>
    chainsTo(question, ends, 0).flatMap((links) => finished(question, links, ends)),
  );
}

function elbowChains(question: Question): readonly EndMakeUp[] {
  const straightFound = chainsTo(question, question.ends, 0).length > 0;
  if (straightFound && question.wish.allowElbowAdapters === false) return [];
  // A port that only an elbow or banjo fits takes every hose-end angle behind it.
  const all = wantedEnds(question);
  const wanted = straightFound ? all.filter((row) => row.angleDeg === 0) : all;
  return groupsBySeat(wanted).flatMap((ends) =>
    chainsTo(question, ends, 1).flatMap((links) => finished(question, links, ends)),
  );
}

/** Ends of the angles that are to be had with the same seats, together: one search serves them all. */
function groupsBySeat(ends: readonly HoseEndRow[]): readonly (readonly HoseEndRow[])[] {
  const groups = new Map<string, HoseEndRow[]>();
  for (const angle of new Set(ends.map((row) => row.angleDeg))) {
    const ofAngle = ends.filter((row) => row.angleDeg === angle);
    const seats = [...new Set(ofAngle.map((row) => endKey(row.to)))].sort().join();
    groups.set(seats, [...(groups.get(seats) ?? []), ...ofAngle]);
  }
  return [...groups.values()];
}

const wantedEnds = ({ ends, wish }: Question): readonly HoseEndRow[] =>
  wish.angles === undefined ? ends : ends.filter((row) => wish.angles?.includes(row.angleDeg));

function chainsTo(question: Question, wanted: readonly HoseEndRow[], elbows: 0 | 1): readonly (readonly Link[])[] {
  const { port, shelf, wish, leastBoreMm } = question;
  const plain = plainOf(port);
  const allowed = (link: Link): boolean => {
    const { row } = link;
    if (!plain(link)) return false;
    if (row.angleDeg !== 0 && linkClock(link) === 'none') return false;
    if (row.clock === 'banjo') return wish.duty === undefined || !noBanjo.has(wish.duty);
    return row.restrictorMm !== undefined || row.boreMm + boreGraceMm >= leastBoreMm;
  };
  const chains = matingChains(port.end, shelf.adapters, { isGoal: goalOf(wanted), allowed, elbows });
  const restricted = chains.filter((links) => links.some((l) => l.row.restrictorMm !== undefined));
  return port.restrictorMm !== undefined && restricted.length > 0 ? restricted : chains;
}

/** The chain with each hose end that goes on it. */
function finished(question: Question, links: readonly Link[], wanted: readonly HoseEndRow[]): readonly EndMakeUp[] {
  const last = links.at(-1);
  const open = last === undefined ? question.port.end : exitOf(last);
  return wanted.filter((row) => mates(open, row.to).ok).map((row) => builtMakeUp(question.port, links, row, question));
}

function missingAngle(port: PortEnd, hose: HoseRow, wish: MakeUpWish): string {
  const angles = (wish.angles ?? []).map((a) => `${a}`).join(' or ');
  return `no ${angles} degree hose end for ${hose.name} that the catalogue can lead to ${describeEnd(port.end)}`;
}
