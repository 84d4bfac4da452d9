import { bodiesOfWay } from '#lines';
import type { Nut, NutReach, ToolReach } from '../tool-reach.ts';
import { nutsOfParts } from './nuts-of-parts.ts';
import { nutsOfWay } from './nuts-of-way.ts';
import { Look, thingsOf } from './things.ts';
import { toolAt, type ToolAt } from './tool-at.ts';
import type { ToolNut } from './tool-nut.ts';
import { isOf, keyOf, reachOf } from './tool-reach-of.ts';
import { type Again, type NutRoom, thingsFor, TOOL_REACH_MM, type ToolRoomAsk } from './tool-room.ts';
import { toolsOf } from './workshop.ts';

/** Whether a hand comes to the end of the tool is asked elsewhere. */
const EVERYWHERE = { reaches: () => true };
const none: ReadonlySet<string> = new Set();
const rank = { yes: 0, tight: 1, no: 2 } as const;

/**
 * Whether a tool goes on and swings at each nut of lines and parts, and what lets it where none does; looked at when it is asked, a nut at a
 * time: without the hand's way to it, which strip-down looks for itself.
 */
export function swingReach({ bay, shelf, ways }: Pick<ToolRoomAsk, 'bay' | 'shelf' | 'ways'>): ToolReach {
  const { car } = bay;
  const tools = toolsOf(car.workshop);
  const things = thingsOf(bay, new Map([...ways].map(([id, way]) => [id, bodiesOfWay(way)])));
  const covers = new Set((car.panels ?? []).filter(({ removable }) => removable === true).map(({ id }) => id));
  const byOwner = new Map<string, readonly ToolNut[]>();
  const nutsOf = (nut: Nut): readonly ToolNut[] => {
    const owner = nut.kind === 'fastener' ? nut.part : nut.line;
    let nuts = byOwner.get(owner);
    if (nuts === undefined) {
      const line = nut.kind === 'joint' ? car.lines.find(({ id }) => id === nut.line) : undefined;
      const way = line === undefined ? undefined : ways.get(line.id);
      const part = car.parts.find(({ id }) => id === owner);
      nuts =
        line !== undefined && way !== undefined
          ? nutsOfWay(line, way, shelf)
          : nut.kind === 'fastener' && part !== undefined
            ? nutsOfParts({ ...car, parts: [part] })
            : [];
      byOwner.set(owner, nuts);
    }
    return nuts.filter((one) => isOf(one, nut));
  };
  const at = (nut: ToolNut, off: ReadonlySet<string>): ToolAt =>
    toolAt(nut, Look.about(thingsFor(nut, things, off), nut.at, TOOL_REACH_MM), tools, EVERYWHERE);
  const again: Again = {
    at,
    staysOn: new Set(car.parts.flatMap(({ id, staysOn }) => (staysOn === true ? [id] : []))),
    shutBy: () => null,
    coversTo: () => [],
    covers,
  };
  const room = (nut: ToolNut): NutRoom => {
    const shut = at(nut, none);
    const bare = shut.verdict === 'yes' || covers.size === 0 ? shut : at(nut, covers);
    const isBetter = rank[bare.verdict] < rank[shut.verdict];
    const coversOff = isBetter ? shut.inTheWay.filter((id) => covers.has(id)).toSorted() : [];
    return { nut, ...(isBetter ? bare : shut), coversOff, isInSight: true, isMeasured: false };
  };
  const known = new Map<string, NutReach | undefined>();
  return (nut) => {
    const key = keyOf(nut);
    if (!known.has(key)) known.set(key, reachOf({ nuts: nutsOf(nut).map(room), again }, nut));
    return known.get(key);
  };
}
