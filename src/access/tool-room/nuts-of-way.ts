import type { Line, TakenWay } from '#car';
import { distance, sub, unit, type Vec } from '#geometry';
import type { Way } from '#lines';
import { type AdapterRow, type Catalogue, flareEndMm, hexHeightMm, type HoseEndRow } from '#standards';
import type { NutRole, ToolNut } from './tool-nut.ts';

type AnyWay = Pick<Way | TakenWay, 'bodies' | 'pieces'>;

/** One thing screwed on the next, with its bodies from the line's start on. */
interface Item {
  readonly part: string;
  readonly row: string | undefined;
  readonly bodies: readonly number[];
  readonly start: Pose;
  readonly end: Pose;
}

/** A place of the line and the way out of the item there. */
interface Pose {
  readonly at: Vec;
  readonly out: Vec;
}

/** How much of a nut lies over the male end it is screwed on, and beyond its seat by its hexagon: usual proportions. Source: generic-dimensions. */
const OVER_MALE = 0.8;
const BEYOND_SEAT = 0.2;
/** A worm clamp's screw: hexagon, its axis so far out of the hose, so far from the hose's end [mm]. Source: generic-dimensions. */
const CLAMP = { acrossFlatsMm: 7, outMm: 7, inMm: 10 } as const;

/** Every nut and hexagon of a way as it lies: nuts of hose ends and tubes, adapters' hexagons and locknuts, bolts of banjos, clamps. */
export function nutsOfWay(line: Pick<Line, 'id' | 'from' | 'to'>, way: AnyWay, shelf: Catalogue): readonly ToolNut[] {
  const items = itemsOf(way);
  const ends = endRows(way, shelf);
  const nuts: ToolNut[] = [];
  items.forEach((item, n) => {
    const at = (atStart: boolean): string => portAt(line, items, n, atStart);
    const before = { item: items[n - 1], isStart: true };
    const after = { item: items[n + 1], isStart: false };
    const end = item.part === 'hose-end' ? ends.get(item.row ?? '') : undefined;
    if (end !== undefined && end.nutHexMm > 0) {
      const isStart = !isHose(before.item);
      nuts.push(swivelNut(line.id, at(isStart), item, isStart, (isStart ? before : after).item, end));
    }
    const adapter = adapterOf(item, shelf);
    if (adapter !== undefined && adapter.hexMm > 0) {
      // Counted from the port that is nearer along the line.
      const isStart = item.part === 'adapter' ? !items.slice(0, n).some(isLong) : true;
      nuts.push(...adapterNuts(line.id, at(isStart), item, isStart, adapter));
    }
    if (item.part === 'hose' || item.part === 'hose-over-tube' || adapter?.hexMm === 0)
      nuts.push(...clampsOf(line.id, at, item, n, items, way));
  });
  return named(nuts);
}

/** Two of a kind at one joint are told apart by number. */
function named(nuts: readonly ToolNut[]): readonly ToolNut[] {
  const seen = new Map<string, number>();
  return nuts.map((nut) => {
    const times = (seen.get(nut.id) ?? 0) + 1;
    seen.set(nut.id, times);
    return times === 1 ? nut : { ...nut, id: `${nut.id} ${times}` };
  });
}

const isHose = (item: Item | undefined): boolean => item?.part === 'hose' || item?.part === 'hose-over-tube';
const isLong = (item: Item): boolean => isHose(item) || item.part === 'tube';

/** The port at that side of an item where no hose or tube lies between; else the joint, by its place along the line. */
function portAt({ from, to }: Pick<Line, 'from' | 'to'>, items: readonly Item[], n: number, atStart: boolean): string {
  const between = atStart ? items.slice(0, n) : items.slice(n + 1);
  if (!between.some(isLong)) return atStart ? from : to;
  const joint = items.slice(0, n + (atStart ? 0 : 1)).filter(isLong).length;
  return `joint ${joint}`;
}

/** Bodies of one row in a row are one item. */
function itemsOf({ bodies }: AnyWay): readonly Item[] {
  const groups: { part: string; row: string | undefined; bodies: number[] }[] = [];
  bodies.forEach((body, n) => {
    const row = typeof body['row' as never] === 'string' ? (body['row' as never] as string) : undefined;
    const last = groups.at(-1);
    const isSame = last !== undefined && last.part === body.part && last.row === row && body.part === 'hose-end';
    if (isSame) last.bodies.push(n);
    else groups.push({ part: body.part, row, bodies: [n] });
  });
  return groups.map(({ part, row, bodies: own }) => {
    const first = bodies[own[0]!]!.pathMm;
    const last = bodies[own.at(-1)!]!.pathMm;
    return {
      part,
      row,
      bodies: own,
      start: { at: first[0]!, out: away(first[1] ?? first[0]!, first[0]!) },
      end: { at: last.at(-1)!, out: away(last.at(-2) ?? last.at(-1)!, last.at(-1)!) },
    };
  });
}

const away = (from: Vec, to: Vec): Vec => (distance(from, to) < 1e-9 ? [0, 0, 1] : unit(sub(to, from)));
const inwards = ({ out }: Pose): Vec => [-out[0], -out[1], -out[2]];

function endRows({ pieces }: AnyWay, shelf: Catalogue): ReadonlyMap<string, HoseEndRow> {
  const hoses = pieces.flatMap(({ hose }) => (hose === undefined ? [] : (shelf.findHose(hose) ?? [])));
  return new Map(hoses.flatMap((hose) => shelf.hoseEndsFor(hose).map((row) => [row.id, row] as const)));
}

const adapterOf = ({ part, row }: Item, shelf: Catalogue): AdapterRow | undefined =>
  part === 'adapter'
    ? shelf.adapters.find(({ id }) => id === row)
    : part === 'bulkhead-fitting'
      ? shelf.bulkheadFittings.find(({ id }) => id === row)
      : undefined;

/** The nut of a hose end: over the male end of what it is screwed on, and a little beyond its seat. */
function swivelNut(
  line: string,
  port: string,
  item: Item,
  isStart: boolean,
  on: Item | undefined,
  row: HoseEndRow,
): ToolNut {
  const pose = isStart ? item.start : item.end;
  const hex = row.nutHexMm;
  const overMm = on === undefined ? 0 : OVER_MALE * flareEndMm(row.to.dash ?? 6);
  const own = isStart ? item.bodies[0]! : item.bodies.at(-1)!;
  return {
    ...about(line, port, 'swivel nut', pose.at, inwards(pose)),
    flatsMm: [-overMm, on === undefined ? Math.min(row.nutMm, 0.5 * hex) : BEYOND_SEAT * hex],
    acrossFlatsMm: hex,
    isUsualSize: row.measure,
    tools: ['open-end', 'crow-foot'],
    ownBodies: on === undefined ? [own] : [own, isStart ? on.bodies.at(-1)! : on.bodies[0]!],
  };
}

const about = (line: string, port: string, role: NutRole, at: Vec, axis: Vec) => ({
  id: `${line} ${port} ${role}`,
  role,
  line,
  port,
  at,
  axis,
});

/** What there is to hold or turn on an adapter. */
function adapterNuts(line: string, port: string, item: Item, isStart: boolean, row: AdapterRow): readonly ToolNut[] {
  const pose = isStart ? item.start : item.end;
  const axis = inwards(pose);
  const common = { acrossFlatsMm: row.hexMm, isUsualSize: row.measure, ownBodies: item.bodies };
  const flat = (role: NutRole, flatsMm: readonly [number, number], tools: ToolNut['tools']): ToolNut => ({
    ...about(line, port, role, pose.at, axis),
    ...common,
    flatsMm,
    tools,
  });
  const high = hexHeightMm(row.hexMm);
  if (item.part === 'bulkhead-fitting') {
    const mid = row.lengthMm / 2;
    const half = (row.lengthMm - 2 * flareEndMm(row.a.dash ?? 6)) / 2;
    return [
      flat('adapter hex', [mid - half, mid - half + high], ['open-end', 'crow-foot']),
      flat('locknut', [mid + half - high, mid + half], ['open-end', 'crow-foot']),
    ];
  }
  if ([row.a, row.b].some(({ type }) => type === 'tube-socket'))
    return [flat('tube nut', [0, row.lengthMm], ['open-end', 'crow-foot'])];
  if (row.clock === 'banjo') {
    const top = 2 * (row.aLegMm ?? high);
    return [flat('banjo bolt', [top, top + high], ['ratchet', 'ring', 'open-end'])];
  }
  if (row.angleDeg !== 0) {
    const role = row.clock === 'locknut' ? 'locknut' : 'adapter hex';
    return [flat(role, [1, 1 + high], ['open-end', 'crow-foot'])];
  }
  const noseMm = row.b.type === 'flare37-male' ? flareEndMm(row.b.dash ?? 6) : 0;
  const topMm = Math.max(high, row.lengthMm - noseMm);
  return [flat('adapter hex', [Math.max(0, topMm - high), topMm], ['open-end', 'crow-foot'])];
}

/** Clamps of a hose that is pushed over something at its ends. */
function clampsOf(
  line: string,
  at: (atStart: boolean) => string,
  item: Item,
  n: number,
  items: readonly Item[],
  { bodies }: AnyWay,
): readonly ToolNut[] {
  const clamp = (port: string, pose: Pose): ToolNut => ({
    ...about(line, port, 'hose clamp', pose.at, inwards(pose)),
    flatsMm: [CLAMP.inMm - 3, CLAMP.inMm + 3],
    acrossFlatsMm: CLAMP.acrossFlatsMm,
    isUsualSize: true,
    tools: ['driver'],
    ownBodies: item.bodies,
    roundMm: bodies[item.bodies[0]!]!.odMm / 2 + CLAMP.outMm,
  });
  if (item.part === 'hose-over-tube') return [clamp(at(true), item.start)];
  const isFirst = n === 0 && items[0]!.part !== 'hose-end';
  const isLast = n === items.length - 1;
  return [...(isFirst ? [clamp(at(true), item.start)] : []), ...(isLast ? [clamp(at(false), item.end)] : [])];
}
