import type { Bay } from '#bay';
import type { Line, TakenWay } from '#car';
import { bodiesOfWay, type Way } from '#lines';
import type { PanelLayout } from '#panels';
import type { Catalogue, ToolKind } from '#standards';
import type { Vec } from '#geometry';
import { HAND_CELL_MM } from './hand-cells.kernel.ts';
import { type HandRoom, handRoom } from './hand-room.ts';
import { nutsOfPanels, nutsOfParts } from './nuts-of-parts.ts';
import { nutsOfWay } from './nuts-of-way.ts';
import { inSight } from './witness-mark.ts';
import { Look, type Thing, thingsOf } from './things.ts';
import type { ToolNut } from './tool-nut.ts';
import { toolAt, type ToolAt } from './tool-at.ts';
import { toolsOf } from './workshop.ts';

/** What the tool room of a car is asked of. */
export interface ToolRoomAsk {
  readonly bay: Bay;
  readonly shelf: Catalogue;
  /** The way of each line that has one. */
  readonly ways: ReadonlyMap<string, Way | TakenWay>;
  readonly layouts: readonly PanelLayout[];
  /** Only these nuts; absent: all. */
  readonly only?: (nut: ToolNut) => boolean;
  readonly watch?: (done: number, total: number) => boolean;
}

/** One nut with the best tool on it. */
export interface NutRoom {
  readonly nut: ToolNut;
  /** `tight`: a tool or a swing less by 15 % would do, or fingers alone turn it. */
  readonly verdict: 'yes' | 'tight' | 'no';
  readonly tool: ToolKind;
  /** The bar behind it, in words. */
  readonly with?: string;
  readonly freeDeg: number;
  readonly needDeg: number;
  /** From the nut to the hand; null where the tool does not go on. */
  readonly toward: Vec | null;
  /** A hand comes to the end of the tool. */
  readonly isHandThere: boolean;
  /** In words why it is not a plain yes; empty where it is. */
  readonly why: string;
  /** Parts, panels and lines in the way, most in the way first. */
  readonly inTheWay: readonly string[];
  /** Covers that must be off first. */
  readonly coversOff: readonly string[];
  /** Tool and hand were measured by the builder; else one of them is a usual one, recalled. */
  readonly isMeasured: boolean;
  /** A mark across it is seen from outside. */
  readonly isInSight: boolean;
}

/** The tool room of a car: every nut, and the means to ask again with something off. */
export interface ToolRoom {
  readonly nuts: readonly NutRoom[];
  /** The watch stopped it: the nuts so far. */
  readonly isStopped: boolean;
  readonly again: Again;
}

/** A nut asked again with things off. */
export interface Again {
  readonly staysOn: ReadonlySet<string>;
  at(nut: ToolNut, off: ReadonlySet<string>): ToolAt;
  /** What shuts a hand out from a place; null: what never comes off. */
  shutBy(at: Vec): readonly string[] | null;
  /** Covers across the way of a hand to a place that it comes to with them off. */
  coversTo(at: Vec): readonly string[];
  readonly covers: ReadonlySet<string>;
}

/** A nut is looked at with everything this near [mm]: the longest handle and a hand. */
export const TOOL_REACH_MM = 700;

/**
 * What tool goes on every nut of every line that has a way, every fastener of every part and every fixing of every panel, with
 * everything else in place; where that is only a cover in the way, with the cover off.
 */
export function toolRoom(ask: ToolRoomAsk): ToolRoom {
  const { bay, ways, watch } = ask;
  const { car } = bay;
  const tools = toolsOf(car.workshop);
  const things = thingsOf(bay, new Map([...ways].map(([id, way]) => [id, bodiesOfWay(way)])));
  const covers = new Set((car.panels ?? []).filter(({ removable }) => removable === true).map(({ id }) => id));
  const staysOn = new Set(car.parts.flatMap(({ id, staysOn: stays }) => (stays === true ? [id] : [])));
  const closed = handRoom(things, tools.hand);
  const isCovered = things.some(({ id }) => covers.has(id));
  const open = isCovered
    ? handRoom(
        things.filter(({ id }) => !covers.has(id)),
        tools.hand,
      )
    : closed;
  const lookAt = (nut: ToolNut, off: ReadonlySet<string>): Look =>
    Look.about(thingsFor(nut, things, off), nut.at, TOOL_REACH_MM);
  const nuts: NutRoom[] = [];
  const all = nutsOf(ask).filter((nut) => ask.only?.(nut) ?? true);
  let isStopped = false;
  for (const nut of all) {
    if (watch?.(nuts.length, all.length) === false) {
      isStopped = true;
      break;
    }
    const shut = toolAt(nut, lookAt(nut, none), tools, closed);
    // A cover lifts off before anyone reaches for a nut under it.
    const isHelped = shut.verdict !== 'yes' && isCovered;
    const bare = isHelped ? toolAt(nut, lookAt(nut, covers), tools, open) : shut;
    const isBetter = isHelped && rank[bare.verdict] < rank[shut.verdict];
    const found = isBetter ? bare : shut;
    const off = isBetter ? coversBetween(shut, bare, closed, open, covers) : [];
    nuts.push({
      nut,
      ...found,
      coversOff: off,
      isMeasured: tools.hand.isOwn && (found.tool === 'hand' || tools.isMeasured(found.tool, nut.acrossFlatsMm)),
      isInSight: inSight(nut, lookAt(nut, isBetter ? covers : none), isBetter ? open : closed),
    });
  }
  const again: Again = {
    staysOn,
    at: (nut, off) => toolAt(nut, lookAt(nut, off), tools, open),
    shutBy: (at) => open.shutBy(at, staysOn),
    coversTo: (at) => coversTo(at, closed, open, covers),
    covers,
  };
  return { nuts, isStopped, again };
}

const none: ReadonlySet<string> = new Set();
const rank = { yes: 0, tight: 1, no: 2 } as const;

/** Every place for a tool, in the order of the car file. */
export function nutsOf({ bay, shelf, ways, layouts }: Omit<ToolRoomAsk, 'only' | 'watch'>): readonly ToolNut[] {
  const ofLines = bay.car.lines.flatMap((line: Line) => {
    const way = ways.get(line.id);
    return way === undefined ? [] : nutsOfWay(line, way, shelf);
  });
  return [...ofLines, ...nutsOfParts(bay.car), ...nutsOfPanels(layouts)];
}

/** The things about a nut: not itself, nor what it is screwed on, nor the panel that a fixing holds. */
export const thingsFor = (nut: ToolNut, things: readonly Thing[], off: ReadonlySet<string>): readonly Thing[] =>
  things.filter(
    ({ id, kind, body }) =>
      !off.has(id) &&
      !(kind === 'line' && id === nut.line && nut.ownBodies?.includes(body!) === true) &&
      !(kind === 'panel' && id === nut.panel),
  );

/** Covers that a tool met, and those that lie across the hand's way. */
function coversBetween(
  shut: ToolAt,
  bare: ToolAt,
  closed: HandRoom,
  open: HandRoom,
  covers: ReadonlySet<string>,
): readonly string[] {
  const met = shut.inTheWay.filter((id) => covers.has(id));
  return [...new Set([...met, ...(bare.hand === null ? [] : coversTo(bare.hand, closed, open, covers))])].sort();
}

const coversTo = (hand: Vec, closed: HandRoom, open: HandRoom, covers: ReadonlySet<string>): readonly string[] =>
  closed.reaches(hand) ? [] : [...new Set(open.wayOut(hand).flatMap((at) => coverAt(closed, at, covers)))].sort();

function coverAt({ cells }: HandRoom, at: Vec, covers: ReadonlySet<string>): string[] {
  const [i, j, k] = [0, 1, 2].map((n) => Math.floor((at[n]! - cells.min[n]!) / HAND_CELL_MM)) as [
    number,
    number,
    number,
  ];
  const thing = cells.nearest[i + cells.counts[0] * (j + cells.counts[1] * k)] ?? 0;
  const id = thing > 0 ? cells.things[thing - 1]!.id : '';
  return covers.has(id) ? [id] : [];
}
