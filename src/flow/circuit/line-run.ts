import { findPort, type Car, type Line } from '#car';
import type { Vec } from '#geometry';
import type { Way, WayEnd } from '#lines';
import type { Catalogue } from '#standards';

/** One stretch of a line with one bore, in the order of its flow from `from` to `to`. */
export interface Stretch {
  readonly what: 'hose' | 'tube' | 'hose-end' | 'adapter' | 'joint';
  /** The row of the catalogue it is, where it has one. */
  readonly row?: string;
  readonly boreMm: number;
  readonly lengthMm: number;
  /** Its centreline [mm], at least two points. */
  readonly pathMm: readonly Vec[];
  /** How far it turns the flow, where that is not as its path lies [deg]: a cure that is tried. */
  readonly turnDeg?: number;
  /** It is choked on purpose to this bore [mm]. */
  readonly restrictorMm?: number;
  /** What the builder measured it to lose. */
  readonly measured?: MeasuredFitting;
}

/** A fitting's own curve [L/min, kPa], and how hot the fluid was. */
export interface MeasuredFitting {
  readonly curveLMinKpa: readonly (readonly [number, number])[];
  readonly curveAtC?: number | undefined;
}

/** A line as something that fluid runs through. */
export interface LineRun {
  readonly line: string;
  readonly from: string;
  readonly to: string;
  readonly stretches: readonly Stretch[];
  /** Smallest bore of its hoses and tubes [mm]. */
  readonly boreMm: number;
  readonly lengthMm: number;
  /** What stands in for what is not known yet, in words; empty for a taken way. */
  readonly assumed: readonly string[];
}

/** How a line is told of whose ways all break a limit. */
export const NO_WAY_HOLDS = 'has no way that holds';

/** A hose that has no way yet is taken as this much longer than straight across. Common practice, no source. */
const WANDERS = 1.3;
/** Bore of the fittings of a line without a way, to that of its hose. From memory: usual hose ends. */
const FITTING_TO_HOSE = 0.9;

/** The line as fluid sees it: along its way, or straight across where it has none. */
export function lineRun(car: Car, shelf: Catalogue, line: Line, way: Way | null): LineRun | null {
  const stretches = way === null || way.bodies.length === 0 ? null : stretchesOf(car, shelf, line, way);
  if (stretches === null || stretches.length === 0) return straightAcross(car, shelf, line);
  return {
    line: line.id,
    from: line.from,
    to: line.to,
    stretches,
    boreMm: Math.min(...stretches.filter(({ what }) => what === 'hose' || what === 'tube').map(({ boreMm }) => boreMm)),
    lengthMm: stretches.reduce((sum, { lengthMm }) => sum + lengthMm, 0),
    assumed: way?.feasible === false ? [`${line.id} ${NO_WAY_HOLDS}: as its least bad one lies`] : [],
  };
}

function stretchesOf(car: Car, shelf: Catalogue, line: Line, way: Way): Stretch[] | null {
  const out: Stretch[] = [];
  const ends: readonly WayEnd[] = [way.ends[0], ...way.joints, way.ends[1]];
  let piece = -1;
  let overTube = false;
  for (const body of way.bodies) {
    if (body.part === 'hose-over-tube') {
      overTube = true;
      continue;
    }
    const isPiece = body.part === 'hose' || body.part === 'tube';
    if (isPiece && !(out.at(-1)?.what === body.part && out.at(-1)?.row === body.row && !overTube)) piece++;
    overTube = false;
    const fitting = isPiece ? undefined : fittingRow(shelf, ends, piece, body.part, body.row);
    const boreMm = fitting?.boreMm ?? pieceBore(shelf, line, way, Math.max(0, piece));
    if (boreMm === undefined) return null;
    const what = isPiece ? (body.part as 'hose' | 'tube') : kindOf(body.part);
    out.push({
      what,
      ...(body.row === undefined ? {} : { row: body.row }),
      ...(fitting?.restrictorMm === undefined ? {} : { restrictorMm: fitting.restrictorMm }),
      ...measuredOf(car, fitting?.id),
      boreMm,
      lengthMm: lengthOf(body.pathMm),
      pathMm: body.pathMm,
    });
  }
  return out.some(({ what }) => what === 'hose' || what === 'tube') ? out : null;
}

const kindOf = (part: string): Stretch['what'] =>
  part === 'hose-end' ? 'hose-end' : part === 'adapter' ? 'adapter' : 'joint';

function pieceBore(shelf: Catalogue, line: Line, way: Way, at: number): number | undefined {
  const made = way.pieces[Math.min(at, way.pieces.length - 1)];
  if (made?.tube !== undefined) return made.tube.odMm - 2 * made.tube.wallMm;
  return (made?.hose === undefined ? undefined : shelf.findHose(made.hose)?.boreMm) ?? line.boreMm;
}

/** The builder's own row may carry a measured curve; without one the loss is reckoned. */
function measuredOf(car: Car, id: string | undefined): { readonly measured?: MeasuredFitting } {
  const row = [...(car.catalogue?.hoseEnds ?? []), ...(car.catalogue?.adapters ?? [])].find((own) => own.id === id);
  // The row itself, so that stretches of one fitting are known as one.
  return row?.curveLMinKpa === undefined || row.curveLMinKpa.length < 2 ? {} : { measured: row as MeasuredFitting };
}

interface FittingRow {
  readonly id: string;
  readonly boreMm: number;
  readonly restrictorMm?: number;
}

/** The narrowest row of what stands at the end after `piece` pieces. */
function fittingRow(
  shelf: Catalogue,
  ends: readonly WayEnd[],
  piece: number,
  part: string,
  row: string | undefined,
): FittingRow | undefined {
  const end = ends[Math.min(piece + 1, ends.length - 1)];
  const ids = row === undefined ? (end?.parts ?? []).filter(({ kind }) => kind === part).map(({ id }) => id) : [row];
  return ids
    .flatMap((id) => rowNamed(shelf, id) ?? [])
    .toSorted((a, b) => a.boreMm - b.boreMm)
    .at(0);
}

function rowNamed(shelf: Catalogue, id: string): FittingRow | undefined {
  const fitting = [...shelf.adapters, ...shelf.bulkheadFittings, ...shelf.hoseEnds].find((row) => row.id === id);
  if (fitting !== undefined) return fitting;
  for (const hose of shelf.hoses) {
    const end = shelf.hoseEndsFor(hose).find((row) => row.id === id);
    if (end !== undefined) return end;
  }
  return undefined;
}

const lengthOf = (path: readonly Vec[]): number => {
  let sum = 0;
  for (let i = 1; i < path.length; i++) {
    const [a, b] = [path[i - 1]!, path[i]!];
    sum += Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
  }
  return sum;
};

function straightAcross(car: Car, shelf: Catalogue, line: Line): LineRun | null {
  const [from, to] = [findPort(car, line.from), findPort(car, line.to)];
  if (from === undefined || to === undefined) return null;
  const hose = line.hose ?? line.pieces.find((row) => row.hose !== undefined)?.hose;
  const tube = line.pieces.find((row) => row.tube !== undefined)?.tube;
  const boreMm =
    (hose === undefined ? undefined : shelf.findHose(hose)?.boreMm) ??
    (tube === undefined ? undefined : tube.odMm - 2 * tube.wallMm) ??
    line.boreMm ??
    shelf.hoses.find((row) => row.dash === line.dash)?.boreMm;
  if (boreMm === undefined) return null;
  return {
    ...straightRun(line, from.port.atMm, to.port.atMm, boreMm),
    assumed: [`${line.id} has no way yet: taken as ${WANDERS} times straight across, two straight ends`],
  };
}

/** A hose between two places that has no way: somewhat longer than straight across, two straight ends. */
export function straightRun(
  line: { readonly id: string; readonly from: string; readonly to: string },
  fromMm: Vec,
  toMm: Vec,
  boreMm: number,
): LineRun {
  const pathMm: Vec[] = [fromMm, toMm];
  const lengthMm = WANDERS * lengthOf(pathMm);
  const fitting = (at: Vec): Stretch => ({
    what: 'hose-end',
    boreMm: FITTING_TO_HOSE * boreMm,
    lengthMm: 2 * boreMm,
    pathMm: [at, at],
  });
  return {
    line: line.id,
    from: line.from,
    to: line.to,
    stretches: [fitting(fromMm), { what: 'hose', boreMm, lengthMm, pathMm }, fitting(toMm)],
    boreMm,
    lengthMm,
    assumed: [],
  };
}
