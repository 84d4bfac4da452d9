import { addScaled, dot, norm, type Point2, type Vec } from '#geometry';
import { keepOff, sheetRule } from '#standards';
import { growthWithHeat } from '../flat/bend-formulas.ts';
import { degOf } from '../flat/lines.ts';
import type { PlacedHole } from '../layout.ts';
import { drillOfAtLeast } from '../windows/drills.ts';
import { onFlat } from '../surface/facet-at.ts';
import type { Facet } from '../surface/facets.ts';
import type { FlatFrame } from '../surface/flat-frame.ts';
import type { PanelCrossing } from './panel-crossing.ts';

/** Room temperature that growth is counted from [degC]. */
const FITTED_AT_C = 20;

/** How far a crossing line leans from square to the sheet [deg]. */
export function slantDeg(frame: FlatFrame, along: Vec): number {
  return (Math.acos(Math.min(1, Math.abs(dot(along, frame.out)) / norm(along))) * 180) / Math.PI;
}

const isHot = (crossing: PanelCrossing): boolean => (crossing.surfaceC ?? 0) >= sheetRule('hot-pipe').value;

/** How far a pipe grows towards or along the panel when hot [mm]. */
export function crossingGrowth({ growsOverMm = 0, growthPerMk = 0, surfaceC = FITTED_AT_C }: PanelCrossing): number {
  return growthWithHeat(growthPerMk, growsOverMm, surfaceC - FITTED_AT_C);
}

/**
 * The hole that a line needs where it crosses a panel, with room to move and to grow. Slanted, its room is an ellipse: w / cos a long
 * where it leans by a, and t tan a more through the sheet; the slot of that length and width w holds it.
 */
export function crossingHole(crossing: PanelCrossing, facets: readonly Facet[], thicknessMm: number): PlacedHole {
  const { at, facet } = onFlat(facets, crossing.at);
  const { odMm, kind } = crossing;
  const hole = { id: crossing.line, for: crossing.line, line: crossing.line, at };
  if (kind === 'bulkhead-fitting')
    return {
      ...hole,
      diameterMm: crossing.holeMm ?? odMm + 1,
      fitted: 'bulkhead-fitting',
      ...seatOf(crossing),
      seal: crossing.seal ?? 'seal under the bulkhead fitting',
    };
  if (kind === 'grommet')
    return {
      ...hole,
      diameterMm: crossing.holeMm ?? odMm + 2 * sheetRule('grommet-wall').value,
      fitted: 'grommet',
      ...seatOf(crossing),
      seal: crossing.seal ?? `grommet for ${Number(odMm.toFixed(1))} mm`,
    };
  const hot = isHot(crossing);
  const clear = hot ? sheetRule('hot-through-panel').value : keepOff('fixed').mm;
  const lean = Math.min((slantDeg(facet.frame, crossing.along) * Math.PI) / 180, MOST_LEAN);
  const [shakes, grows] = [crossing.movesMm ?? 0, crossingGrowth(crossing)];
  const shift = (by: number): Point2 => throughSheet(facet.frame, crossing.along, crossing.movesAlong, 2 * by);
  const both = shift(shakes + grows);
  // What grows does so the way it moves; where that is hardly along the sheet, it may grow any way.
  const isAllRound = Math.hypot(both[0], both[1]) < 2 * grows;
  const needsMm =
    (crossing.holeMm ?? odMm) +
    2 * clear +
    (crossing.movesAlong === undefined ? 2 * (shakes + grows) : isAllRound ? 2 * grows : 0);
  const longer = needsMm * (1 / Math.cos(lean) - 1) + thicknessMm * Math.tan(lean);
  const stretch: Point2 = addTo(inSheet(facet.frame, crossing.along, longer), isAllRound ? shift(shakes) : both);
  const drawn = Math.hypot(stretch[0], stretch[1]);
  const diameterMm = drillOfAtLeast(needsMm)?.mm ?? needsMm;
  return {
    ...hole,
    diameterMm,
    ...(drawn < 0.5 ? {} : { longMm: diameterMm + drawn, turnDeg: degOf(stretch) }),
    ...(hot ? standOffRing(diameterMm, drawn) : { fitted: 'plain' as const }),
    ...(!hot && crossing.seal !== undefined ? { seal: crossing.seal } : {}),
  };
}

const seatOf = ({ seatMm }: PanelCrossing): Pick<PlacedHole, 'seatMm'> => (seatMm === undefined ? {} : { seatMm });

/** Round a hot pipe's opening, on spacers: it shades the sheet, the air between them carries the heat off. */
function standOffRing(diameterMm: number, drawnMm: number): Pick<PlacedHole, 'fitted' | 'seal' | 'seatMm'> {
  const seatMm = Math.ceil(diameterMm + 2 * sheetRule('stand-off-ring').value);
  const long = drawnMm < 0.5 ? '' : ` by ${Math.ceil(seatMm + drawnMm)}`;
  return { fitted: 'ring', seatMm, seal: `stand-off ring, ${seatMm}${long} mm outside, on spacers` };
}

const addTo = (a: Point2, b: Point2): Point2 =>
  // Two stretches that point against each other still both ask for room.
  a[0] * b[0] + a[1] * b[1] < 0 ? [a[0] - b[0], a[1] - b[1]] : [a[0] + b[0], a[1] + b[1]];

/** Beyond this a pipe runs along the sheet more than through it [rad]. */
const MOST_LEAN = Math.acos(0.2);

/** How far a movement shifts the place where a pipe meets the sheet: what of it goes along the pipe does not. */
function throughSheet(frame: FlatFrame, along: Vec, moves: Vec | undefined, mm: number): Point2 {
  if (moves === undefined || mm === 0) return [0, 0];
  const through = dot(along, frame.out);
  const steep = Math.max(Math.abs(through) / norm(along), Math.cos(MOST_LEAN)) * norm(along) * Math.sign(through || 1);
  const shift = addScaled(moves, along, -dot(moves, frame.out) / steep);
  return [(dot(shift, frame.x) * mm) / norm(moves), (dot(shift, frame.y) * mm) / norm(moves)];
}

/** A direction laid into the sheet, this long. */
function inSheet(frame: FlatFrame, along: Vec | undefined, long: number): Point2 {
  if (along === undefined || long === 0) return [0, 0];
  const flat = addScaled(along, frame.out, -dot(along, frame.out));
  const size = norm(flat);
  return size < 1e-6 ? [0, 0] : [(dot(flat, frame.x) / size) * long, (dot(flat, frame.y) / size) * long];
}
