import { type BayPart, distanceToPart } from '#bay';
import { FUEL_BRAKE_FROM_HOT_MM, type Line, keepOffs, partKeepOffMm } from '#car';
import { type Vec, distance, norm, scale } from '#geometry';
import { type LinesWorld, type Way, type WayFail, chooseHoses, conditionsOf, directionWords } from '#lines';
import type { HoseRow } from '#standards';
import { partWords } from './part-words.ts';

/** What would cure a broken limit, as far as it can be told without planning again. */
export function curesOf(world: LinesWorld, line: Line, way: Way, fail: WayFail): string[] {
  switch (fail.limit) {
    case 'keep-off':
      return keepOffCures(world, line, fail, way);
    case 'bend':
      return bendCures(world, line, way);
    case 'pressure':
    case 'temperature':
    case 'vacuum':
    case 'fluid':
      return [...otherHoses(world, line, hosesOf(way, line)), ...realFigure(line, fail)];
    case 'mating':
      return matingCures(world, line, way);
    case 'fall':
      return fallCures(line, fail);
    case 'reach':
      if (way.pieces.length === 0) return ['move one of the ports, or give the space between them more room'];
      return [
        'let the clamps stand farther from the end that moves, or take another hose end so that the hose can be longer',
      ];
    case 'straight':
      return ['another hose end, or move one of the ports apart'];
    case 'self':
      return ['a clamp that holds the line apart from itself, or other hose ends'];
  }
}

/** How near a port counts as beside it here [mm]: a hose end and its first straight. */
const BESIDE_PORT_MM = 150;
const whole = (mm: number): string => Math.ceil(mm - 1e-6).toFixed(0);

export interface GapWanted {
  readonly part?: string | undefined;
  readonly valueMm?: number | undefined;
  readonly limitMm?: number | undefined;
  readonly atMm?: Vec | undefined;
}

/** For a gap too small: the port's own near setting, a shield, moving the part, the builder's own figure. */
export function keepOffCures(
  world: LinesWorld,
  line: Line,
  { part: id, valueMm, limitMm, atMm }: GapWanted,
  way?: Way,
): string[] {
  if (id === undefined || valueMm === undefined || limitMm === undefined) return [];
  if (id.startsWith('line '))
    return [
      `a clamp that holds ${line.id} and ${id.slice(5)} apart there, or move a port of one of them ${whole(limitMm - valueMm)} mm`,
    ];
  const part = world.bay.partById.get(id);
  if (part === undefined) return [];
  return [
    ...nearCure(world, line, part, { valueMm, limitMm, atMm }, way),
    ...shieldCure(world, line, part, valueMm, limitMm),
    ...moveCure(world, part, limitMm - valueMm, atMm),
    ...ownFigure(world, part, limitMm),
  ];
}

function nearCure(
  world: LinesWorld,
  line: Line,
  part: BayPart,
  { valueMm, limitMm, atMm }: GapWanted,
  way?: Way,
): string[] {
  if (atMm === undefined || valueMm === undefined || limitMm === undefined || valueMm < 1) return [];
  const ports = [line.from, line.to].flatMap((ref) => world.bay.ports.get(ref) ?? []);
  const beside = ports.find((port) => port.partId !== part.id && distance(port.at, atMm) < BESIDE_PORT_MM);
  if (beside === undefined) return [];
  const fromStart = beside.ref === line.from;
  const tight = way === undefined ? 0 : tightLengthMm(way, part, limitMm, fromStart);
  const mm = Math.ceil(Math.max(distance(beside.at, atMm), tight) / 10) * 10;
  return [
    `if less will do beside ${beside.ref}, say so on that port, with your reason: "near": { "parts": ["${part.id}"], "mm": ${mm}, "keepOffMm": ${Math.floor(valueMm)} }`,
  ];
}

/** A part this far along the line from its port is no longer beside it [mm]. */
const MOST_BESIDE_MM = 400;

/** Length of line from one end on to the last place, of those beside the port, where it stands nearer to a part than it should [mm]. */
function tightLengthMm(way: Way, part: BayPart, limitMm: number, fromStart: boolean): number {
  const bodies = fromStart ? way.bodies : [...way.bodies].reverse();
  let along = 0;
  let tight = 0;
  let last: Vec | null = null;
  for (const { pathMm, odMm } of bodies)
    for (const at of fromStart ? pathMm : [...pathMm].reverse()) {
      if (last !== null) along += distance(last, at);
      last = at;
      if (along > MOST_BESIDE_MM) return tight;
      if (distanceToPart(part, ...at) - odMm / 2 < limitMm) tight = along;
    }
  return tight;
}

function shieldCure(world: LinesWorld, line: Line, part: BayPart, valueMm: number, limitMm: number): string[] {
  if (part.class !== 'hot' || part.part.shielded === true || part.part.keepOffMm !== undefined) return [];
  const shielded = partKeepOffMm(world.car, { ...part.part, shielded: true }, line.duty);
  if (shielded >= limitMm)
    return limitMm <= FUEL_BRAKE_FROM_HOT_MM
      ? [`a shield does not lower it: fuel and brake lines want ${FUEL_BRAKE_FROM_HOT_MM} mm from anything hot`]
      : [];
  const short = valueMm < shielded ? `; that leaves ${whole(shielded - valueMm)} mm short` : '';
  return [
    `a shield or blanket on ${partWords(world.car, part.id)} ("shielded": true, with your reason): keep-off ${shielded} mm instead of ${limitMm}${short}`,
  ];
}

function moveCure(world: LinesWorld, part: BayPart, missingMm: number, atMm: Vec | undefined): string[] {
  const away = atMm === undefined ? null : awayFrom(part, atMm);
  if (away === null || missingMm <= 0) return [];
  return [
    `move ${partWords(world.car, part.id)} ${whole(missingMm)} mm ${directionWords(scale(away, -1))}, or the line's ports as far ${directionWords(away)}`,
  ];
}

const PROBE_MM = 0.5;

/** Unit vector off the part's surface at a place beside it; null where it has no shape or the place is right inside. */
function awayFrom(part: BayPart, at: Vec): Vec | null {
  if (part.solids.length === 0) return null;
  const slope = (
    [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ] as const
  ).map(([x, y, z]) => {
    const d = (sign: number): number =>
      distanceToPart(part, at[0] + sign * x * PROBE_MM, at[1] + sign * y * PROBE_MM, at[2] + sign * z * PROBE_MM);
    return d(1) - d(-1);
  });
  const [x = 0, y = 0, z = 0] = slope;
  const size = norm([x, y, z]);
  return Number.isFinite(size) && size > PROBE_MM / 10 ? scale([x, y, z], 1 / size) : null;
}

function ownFigure(world: LinesWorld, part: BayPart, limitMm: number): string[] {
  if (part.part.keepOffMm !== undefined)
    return [`the ${part.part.keepOffMm} mm are your own figure on ${part.id}: change it if you have a reason`];
  return part.class === 'hot' || limitMm > keepOffs(world.car)[part.class]
    ? []
    : [`a keepOffMm of its own on ${part.id}, if less will do there, with your reason`];
}

const hosesOf = (way: Way, line: Line): string[] => {
  const used = way.pieces.flatMap((piece) => piece.hose ?? []);
  return used.length > 0 ? used : line.pieces.flatMap((piece) => piece.hose ?? []);
};

const MOST_HOSES = 3;
const named = (hoses: readonly HoseRow[]): string[] =>
  hoses.slice(0, MOST_HOSES).map((hose) => `another hose: ${hose.id} (${hose.name})`);

const figureOf = { pressure: 'pressureBar', vacuum: 'vacuumBar', temperature: 'temperatureC' } as const;

/** Where the line does not say its own pressure, vacuum or temperature, the duty's usual one counted. */
function realFigure(line: Line, { limit, value, unit = '' }: WayFail): string[] {
  if (limit !== 'pressure' && limit !== 'vacuum' && limit !== 'temperature') return [];
  const key = figureOf[limit];
  return line[key] !== undefined || value === undefined
    ? []
    : [`${value} ${unit} is the usual figure for ${line.duty}: if you know your own, give the line a ${key}`];
}

/** Hoses of the line's size without a broken limit, without those it has, and without a given kind of open point. */
export function otherHoses(world: LinesWorld, line: Line, not: readonly string[], withoutCode?: string): string[] {
  const { hoses } = chooseHoses(conditionsOf(line), world.shelf.hoses);
  return named(
    hoses.filter((c) => !not.includes(c.hose.id) && !c.findings.some((f) => f.code === withoutCode)).map((c) => c.hose),
  );
}

function bendCures(world: LinesWorld, line: Line, way: Way): string[] {
  const has = hosesOf(way, line);
  const now = Math.min(...has.map((id) => world.shelf.findHose(id)?.minBendRadiusMm ?? Number.POSITIVE_INFINITY));
  const { hoses } = chooseHoses(conditionsOf(line), world.shelf.hoses);
  const tighter = hoses.map((c) => c.hose).filter((hose) => hose.minBendRadiusMm < now && !has.includes(hose.id));
  return [
    ...tighter.slice(0, MOST_HOSES).map((hose) => `a hose that bends tighter: ${hose.id} (${hose.minBendRadiusMm} mm)`),
    'turn one of the ports, or move them farther apart',
  ];
}

function matingCures(world: LinesWorld, line: Line, way: Way): string[] {
  const has = hosesOf(way, line);
  const unknown = has.filter((id) => world.shelf.findHose(id) === undefined);
  if (unknown.length > 0) return otherHoses(world, line, has);
  return [
    "add the part you have to the car's catalogue, with its measured dimensions",
    'another thread or size on the port, or another size of line',
  ];
}

function fallCures(line: Line, fail: WayFail): string[] {
  if (fail.valueMm !== undefined && line.rises !== true)
    return [`raise ${line.from} or lower ${line.to}, by ${whole(fail.valueMm)} mm and more`];
  if (fail.valueMm !== undefined)
    return [`lower ${line.from} or raise ${line.to}, by ${whole(fail.valueMm)} mm and more`];
  if (fail.value !== undefined && fail.limitValue !== undefined)
    return [`turn ${line.from} ${whole(fail.value - fail.limitValue)} degrees nearer to straight down`];
  return [];
}
