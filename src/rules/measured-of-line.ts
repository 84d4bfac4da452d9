import { type Line, LINE_STATES } from '#car';
import type { LinesWorld, Way } from '#lines';
import type { PanelLayout } from '#panels';
import { type Clause, type Measured, notMeasured } from './measured.ts';

/** What the measures of lines are taken from. */
export interface LineMeasure {
  readonly world: LinesWorld;
  readonly line: Line;
  /** As it lies; null: it has no way yet. */
  readonly way: Way | null;
  readonly layouts: readonly PanelLayout[];
  /** Hottest place of its wall or fluid in any case, where heat was worked out [degC]. */
  readonly hottestC?: number;
}

/** Parts are measured to by their class too. */
const CLASSES: ReadonlySet<string> = new Set(['hot', 'moving', 'fixed']);

/** What is farther off than this is not measured: it is at least so far [mm]. */
const LOOKED_MM = 150;

/** One measure of one line. */
export function measuredOfLine(of: LineMeasure, clause: Clause): Measured {
  const { line, way } = of;
  const { measure, to } = clause;
  if (measure === 'state') return { word: line.state, text: `it is ${line.state}` };
  if (measure === 'sleeve')
    return {
      word: line.sleeve ?? 'none',
      text: line.sleeve === undefined ? 'no sleeve is entered' : `sleeve: ${line.sleeve}`,
    };
  if (measure === 'temperature-c') return temperature(of);
  if (measure === 'bore-mm') return bore(of);
  if (clause.measure === 'sealed') return sealed(of, clause);
  if (way === null) return notMeasured('it has no way yet');
  switch (measure) {
    case 'gap-mm':
      return gapTo(of.world, way, to);
    case 'bend-share':
      return bendShare(way);
    case 'pressure-share':
      return pressureShare(of, way);
    case 'clamp-pitch-mm':
      return clampPitch(way);
    case 'length-mm':
      return { value: lengthOf(way), text: 'along its middle, from port face to port face' };
    case 'height-mm':
      return height(way);
    case 'wall-mm':
      return wall(way);
    case 'hole-clearance-mm':
      return holeClearance(of);
    case 'material':
      return material(of, way);
    default:
      return notMeasured('nothing measures it');
  }
}

function temperature({ line, hottestC }: LineMeasure): Measured {
  if (hottestC !== undefined) return { value: hottestC, text: 'its hottest place, worked out' };
  return line.temperatureC === undefined
    ? notMeasured('no temperature is entered')
    : { value: line.temperatureC, text: 'its fluid at most, as entered' };
}

function bore({ world, line, way }: LineMeasure): Measured {
  const bores = (way?.pieces ?? []).flatMap(({ hose, tube }) => {
    if (tube !== undefined) return [tube.odMm - 2 * tube.wallMm];
    return hose === undefined ? [] : (world.shelf.findHose(hose)?.boreMm ?? []);
  });
  if (bores.length > 0) return { value: Math.min(...bores), text: 'least bore of its hoses and tubes' };
  return line.boreMm === undefined ? notMeasured('it has no way yet') : { value: line.boreMm, text: 'as entered' };
}

function gapTo({ bay, car }: LinesWorld, way: Way, to: string | undefined): Measured {
  const rows = way.gaps.filter((gap) => to === undefined || gap.part === to || gap.class === to);
  const least = rows.toSorted((a, b) => a.gapMm - b.gapMm)[0];
  if (
    least === undefined &&
    to !== undefined &&
    !CLASSES.has(to) &&
    !bay.partById.has(to) &&
    !car.lines.some(({ id }) => id === to)
  )
    return notMeasured(`the car has no part "${to}" to measure to`);
  const what = to ?? 'anything';
  if (least === undefined)
    return { value: LOOKED_MM, isAtLeast: true, text: `nothing of ${what} within ${LOOKED_MM} mm` };
  return {
    value: least.gapMm,
    text: `${least.gapMm.toFixed(0)} mm from ${least.part} (${least.worstMm.toFixed(0)} to ${least.bestMm.toFixed(0)})`,
    atMm: least.atMm,
  };
}

function bendShare({ pieces }: Way): Measured {
  const shares = pieces.flatMap(({ tightestBendMm, minBendRadiusMm }) =>
    tightestBendMm > 0 && minBendRadiusMm > 0
      ? [{ share: tightestBendMm / minBendRadiusMm, tightestBendMm, minBendRadiusMm }]
      : [],
  );
  const least = shares.toSorted((a, b) => a.share - b.share)[0];
  if (least === undefined) return notMeasured('no bend of it is known');
  return { value: least.share, text: `bends to ${least.tightestBendMm} mm, ${least.minBendRadiusMm} mm allowed` };
}

function pressureShare({ world, line }: LineMeasure, { pieces }: Way): Measured {
  if (line.pressureBar === undefined || line.pressureBar <= 0) return notMeasured('no working pressure is entered');
  const stands = pieces.flatMap(({ hose, tube }) => {
    const row = hose === undefined ? undefined : world.shelf.findHose(hose);
    const ofTube =
      tube === undefined ? undefined : world.shelf.tubes.find((t) => t.odMm === tube.odMm && t.wallMm === tube.wallMm);
    return [row?.pressureBar ?? ofTube?.pressureBar].filter((bar) => bar !== undefined);
  });
  if (stands.length === 0) return notMeasured('nothing says what its hoses stand');
  const least = Math.min(...stands);
  return { value: least / line.pressureBar, text: `stands ${least} bar, works at ${line.pressureBar}` };
}

/** The longest stretch between two things that hold it: ends, clamps, fittings in a bulkhead. */
function clampPitch(way: Way): Measured {
  const fittings = way.bodies.flatMap(({ part }, n) =>
    part === 'bulkhead-fitting' ? [lengthOf({ bodies: way.bodies.slice(0, n + 1) })] : [],
  );
  const held = [0, ...way.clamps.map(({ alongMm }) => alongMm), ...fittings, lengthOf(way)].sort((a, b) => a - b);
  let longest = 0;
  let after = 0;
  for (let n = 1; n < held.length; n++)
    if (held[n]! - held[n - 1]! > longest) [longest, after] = [held[n]! - held[n - 1]!, held[n - 1]!];
  return { value: longest, text: `longest stretch between what holds it, from ${after.toFixed(0)} mm on` };
}

export const lengthOf = ({ bodies }: Pick<Way, 'bodies'>): number =>
  bodies.reduce((sum, { pathMm }) => {
    let own = 0;
    for (let n = 1; n < pathMm.length; n++)
      own += Math.hypot(
        pathMm[n]![0] - pathMm[n - 1]![0],
        pathMm[n]![1] - pathMm[n - 1]![1],
        pathMm[n]![2] - pathMm[n - 1]![2],
      );
    return sum + own;
  }, 0);

function height({ bodies }: Way): Measured {
  let low = { z: Infinity, at: [0, 0, 0] as (typeof bodies)[number]['pathMm'][number] };
  for (const { pathMm, odMm } of bodies)
    for (const at of pathMm) if (at[2] - odMm / 2 < low.z) low = { z: at[2] - odMm / 2, at };
  return { value: low.z, text: "its lowest place over the car's zero", atMm: low.at };
}

function wall({ pieces }: Way): Measured {
  const walls = pieces.flatMap(({ tube }) => (tube === undefined ? [] : [tube.wallMm]));
  return walls.length === 0
    ? notMeasured('it has no hard tube')
    : { value: Math.min(...walls), text: 'thinnest wall of its tubes' };
}

/** All round the line in the holes it goes through. */
function holeClearance({ line, way, layouts }: LineMeasure): Measured {
  const holes = layouts.flatMap(({ panel, holes: all }) =>
    all.filter((hole) => hole.line === line.id).map((hole) => ({ panel: panel.id, hole })),
  );
  const odMm = way?.pieces[0]?.odMm;
  if (holes.length === 0 || odMm === undefined) return notMeasured('no hole of it is drawn');
  const [most] = holes
    .map(({ panel, hole }) => ({ panel, gap: (hole.diameterMm - odMm) / 2, seal: hole.seal }))
    .sort((a, b) => b.gap - a.gap);
  return {
    value: most!.gap,
    text: `hole in ${most!.panel}, line ${odMm} mm${most!.seal === undefined ? '' : `; closed by: ${most!.seal}`}`,
  };
}

function material({ world }: LineMeasure, { pieces }: Way): Measured {
  const words = pieces.flatMap(({ hose, tube }) => {
    if (tube !== undefined)
      return [world.shelf.tubes.find((t) => t.odMm === tube.odMm && t.wallMm === tube.wallMm)?.material ?? 'hard tube'];
    return hose === undefined ? [] : (world.shelf.findHose(hose)?.family ?? hose);
  });
  return words.length === 0
    ? notMeasured('its material is not known')
    : { word: words.join(', '), text: `made of ${words.join(', ')}` };
}

/** A bulkhead fitting fills its hole; a grommet has to be looked at. */
/** A tee is passed by nothing; where parts are named only the holes in these are asked about. */
function sealed({ line }: LineMeasure, { about, parts }: Clause): Measured {
  const passed = line.through.filter(
    ({ kind, part }) => kind !== 'tee' && (about !== 'bulkhead' || parts === undefined || parts.includes(part)),
  );
  if (passed.length === 0) return notMeasured('it passes nothing');
  if (passed.every(({ kind }) => kind === 'bulkhead-fitting'))
    return { word: 'yes', text: 'bulkhead fittings fill their holes' };
  return notMeasured(
    `passes ${passed.map(({ part, kind }) => `${part} by a ${kind}`).join(', ')}: look that it closes`,
  );
}

/** A state and all that come after it. */
export const isAtLeastState = (state: string, asked: string): boolean =>
  LINE_STATES.indexOf(state as Line['state']) >= LINE_STATES.indexOf(asked as Line['state']);
