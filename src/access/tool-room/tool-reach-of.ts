import { spannerSize } from '#units';
import type { Nut, NutReach, ToolReach } from '../tool-reach.ts';
import type { ToolAt } from './tool-at.ts';
import type { ToolNut } from './tool-nut.ts';
import type { NutRoom, ToolRoom } from './tool-room.ts';

/** No more sets of things are tried at one nut, and none larger. */
const MOST_TRIED = 16;
const MOST_OFF = 3;
/** Of what stands in the way, only what bars most is tried. */
const MOST_MET = 4;
/** Sets that are told of one nut. */
const MOST_SETS = 4;

/** What must be off for a tool to go on, of every nut that was looked at; worked out when it is asked for. */
export function toolReachOf(room: ToolRoom): ToolReach {
  const known = new Map<string, NutReach | undefined>();
  return (nut) => {
    const key = keyOf(nut);
    if (!known.has(key)) known.set(key, reachOf(room, nut));
    return known.get(key);
  };
}

/** As one word: the same for the same nut. */
export const keyOf = (nut: Nut): string =>
  nut.kind === 'fastener' ? `fastener ${nut.part}.${nut.fastener}` : `joint ${nut.line} ${nut.port}`;

/** What is undone where a line comes off its port: the nut that turns and what is held against it. */
export function reachOf(room: Pick<ToolRoom, 'nuts' | 'again'>, nut: Nut): NutReach | undefined {
  const rows = room.nuts.filter(({ nut: of }) => isOf(of, nut));
  if (rows.length === 0) return undefined;
  const worst = rows.reduce((a, b) => (rank[b.verdict] > rank[a.verdict] ? b : a));
  const sets = rows.map((row) => clearedBy(room, row)).reduce(both);
  return {
    reach: rows.every(({ coversOff }) => coversOff.length === 0) ? worst.verdict : 'no',
    clearedBy: sets,
    tool: toolWords(worst),
  };
}

/** Whether a place for a tool belongs to what is asked for. */
export const isOf = (of: ToolNut, nut: Nut): boolean =>
  nut.kind === 'fastener'
    ? of.part === nut.part && of.fastener === nut.fastener
    : of.line === nut.line && of.port === nut.port;

const rank = { yes: 0, tight: 1, no: 2 } as const;

/** The tool of a nut in words, with its size. */
export const toolWords = ({ nut, tool, with: bar }: Pick<NutRoom, 'nut' | 'tool' | 'with'>): string => {
  const size =
    nut.acrossFlatsMm > 0 && tool !== 'driver' && tool !== 'hand' ? ` ${spannerSize(nut.acrossFlatsMm)}` : '';
  return `${tool === 'hand' ? 'by hand' : tool}${size}${bar === undefined ? '' : ` with ${bar}`}`;
};

/** Either of the one with either of the other. */
function both(a: readonly (readonly string[])[], b: readonly (readonly string[])[]): readonly (readonly string[])[] {
  return least(a.flatMap((p) => b.map((q) => [...new Set([...p, ...q])].sort())));
}

/** Without sets that hold another, least first. */
function least(sets: readonly (readonly string[])[]): readonly (readonly string[])[] {
  const sorted = [...sets].sort((p, q) => p.length - q.length || (p.join() < q.join() ? -1 : 1));
  const kept: (readonly string[])[] = [];
  for (const set of sorted) if (!kept.some((other) => other.every((id) => set.includes(id)))) kept.push(set);
  return kept.slice(0, MOST_SETS);
}

function clearedBy(room: Pick<ToolRoom, 'again'>, row: NutRoom): readonly (readonly string[])[] {
  if (row.verdict !== 'no') return [row.coversOff];
  const { again } = room;
  const { nut } = row;
  const own = [nut.part, nut.line, nut.panel, partOfJoint(nut)];
  const mayGo = (id: string): boolean => !again.staysOn.has(id) && !own.includes(id);
  const found: (readonly string[])[] = [];
  const waiting: (readonly string[])[] = [[]];
  const seen = new Set<string>(['']);
  for (let tried = 0; tried < MOST_TRIED && waiting.length > 0; tried++) {
    const off = waiting.shift()!;
    const at = again.at(nut, new Set([...off, ...again.covers]));
    if (at.verdict !== 'no') {
      found.push(withCovers(room, nut, off, at));
      continue;
    }
    // The tool swings and only a hand is shut out: what shuts it out is known as a whole.
    if (at.toward !== null) {
      const shut = shutsOut(room, at).filter((set) => set.every(mayGo));
      found.push(...shut.map((set) => withCovers(room, nut, [...new Set([...off, ...set])], at)));
      continue;
    }
    for (const more of at.inTheWay
      .slice(0, MOST_MET)
      .map((id) => [id])
      .filter((set) => set.every(mayGo))) {
      const next = [...new Set([...off, ...more])].sort();
      if (next.length > MOST_OFF || seen.has(next.join()) || next.length === off.length) continue;
      seen.add(next.join());
      waiting.push(next);
    }
    waiting.sort((p, q) => p.length - q.length);
  }
  return least(found);
}

/** The part that a joint opens on: it does not come off before its line. */
export const partOfJoint = ({ port }: ToolNut): string | undefined =>
  port?.includes('.') === true ? port.slice(0, port.indexOf('.')) : undefined;

/** What shuts a hand out from the end of the tool, for some of the places it may be at. */
const shutsOut = ({ again }: Pick<ToolRoom, 'again'>, { grips }: ToolAt): readonly (readonly string[])[] => {
  const places = [0, 0.5, 1].map((share) => Math.round(share * (grips.length - 1)));
  return [...new Set(places)].flatMap((n) => {
    const grip = grips[n];
    if (grip === undefined) return [];
    const by = again.shutBy(grip);
    return by === null || by.length === 0 ? [] : [by];
  });
};

/** The set with the covers that are in the way of tool or hand besides. */
function withCovers(
  { again }: Pick<ToolRoom, 'again'>,
  nut: ToolNut,
  off: readonly string[],
  bare: ToolAt,
): readonly string[] {
  const shut = again.at(nut, new Set(off));
  const met = shut.verdict === 'no' ? shut.inTheWay.filter((id) => again.covers.has(id)) : [];
  const across = bare.hand === null ? [] : again.coversTo(bare.hand);
  return [...new Set([...off.filter((id) => !again.covers.has(id)), ...met, ...across])].sort();
}
