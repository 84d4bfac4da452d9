import { isInOutline, type Outline, outlineArea, type Point2, readyOutline, reversedOutline } from '#geometry';
import { type Divided, dividedField, openOf } from './divided-field.ts';
import { drills } from './drills.ts';
import { type Clear, type FieldQuad, inTheWay, quadMiddle, readyClear, scaledQuad } from './field-quad.ts';
import { distancesOf, type EdgeFrame, inFrame, laidField, pointInFrame } from './laid-field.ts';
import { fillingQuad, mostShare, sizedQuad } from './tapered-field.ts';
import type { Cell } from './window-cells.ts';
import { type FieldRules, fieldRules } from './window-rules.ts';
import type { KeepClear, WindowAnswer, WindowField, WindowSpec } from './window-spec.ts';

/** A free area is met to within this share. */
const FREE_WITHIN = 1e-4;

/**
 * A field of openings in a panel, clear of its outline and of what else is on it: as its spec says, and what that leaves open
 * chosen so that it fills the panel, or has the free area asked for. Edges, webs and corners are measured on what comes out.
 */
export function windowField(panelOutline: Outline, keepClear: readonly KeepClear[], spec: WindowSpec): WindowAnswer {
  const isLattice = spec.shape !== 'trapezoid' && spec.shape !== 'slot';
  if (!isLattice || spec.ends !== undefined) return fieldWithEnds(panelOutline, keepClear, spec);
  const square = fieldWithEnds(panelOutline, keepClear, { ...spec, ends: 'square' });
  // Rows that end level are the plainer ones where they have what is asked for.
  if (square.ok && spec.freeMm2 !== undefined) return square;
  const leaning = fieldWithEnds(panelOutline, keepClear, { ...spec, ends: 'leaning' });
  return openOfMost(leaning) > openOfMost(square) * (1 + 1e-9) || (leaning.ok && !square.ok) ? leaning : square;
}

/** The field between ends that stand as its spec says. */
function fieldWithEnds(panelOutline: Outline, keepClear: readonly KeepClear[], spec: WindowSpec): WindowAnswer {
  const leftward = outlineArea(panelOutline) < 0 ? reversedOutline(panelOutline) : panelOutline;
  const frame = edgeFrame(leftward, spec);
  const panel = readyOutline(inFrame(frame, leftward));
  const rules = fieldRules(spec);
  const clears = keepClear.map((clear) => readyClear(clearInFrame(frame, clear), rules.edgeMm));
  const at = {
    shape: spec.shape,
    ...(spec.ends === undefined ? {} : { ends: spec.ends }),
    ...(spec.centreAlongMm === undefined
      ? {}
      : { centreAlongMm: frame.isTurned ? frame.long - spec.centreAlongMm : spec.centreAlongMm }),
    ...(spec.centreAcrossMm === undefined ? {} : { centreAcrossMm: spec.centreAcrossMm }),
  };
  const filling = fillingQuad(panel, rules.edgeMm, clears, at);
  if ('why' in filling) return { ok: false, why: `window ${spec.id}: ${filling.why}` };
  const ground: Ground = { frame, panel, rules, clears, spec };
  if (spec.sizeMm === undefined) return heldIn(laidIn(ground, filling), filling, ground);
  const middle: Point2 = [at.centreAlongMm ?? quadMiddle(filling)[0], at.centreAcrossMm ?? quadMiddle(filling)[1]];
  const sized = sizedQuad(filling, middle, spec.sizeMm);
  const way = inTheWay(sized, panel, rules.edgeMm, clears);
  if (way === undefined) return laidIn(ground, sized);
  const share = mostShare(
    (s) => s > 0 && inTheWay(scaledQuad(sized, middle, s), panel, rules.edgeMm, clears) === undefined,
  );
  const most = share === 0 ? undefined : laidIn(ground, scaledQuad(sized, middle, share));
  const words =
    share === 0
      ? 'there is no room about its middle'
      : `${spec.sizeMm.map((x) => (x * share).toFixed(1)).join(' x ')} mm fits there`;
  return {
    ok: false,
    why: `window ${spec.id}: a field of ${spec.sizeMm.join(' x ')} mm is too near to ${way}; ${words}`,
    ...(most?.ok ? { most: most.field } : {}),
  };
}

/** Hardly larger than the field that fills the room: what the room ends at is in its way. */
const A_LITTLE_MORE = 1.02;

/** A refusal says which hole, bend or fixing the room about its middle ends at. */
function heldIn(answer: WindowAnswer, filling: FieldQuad, { panel, clears }: Ground): WindowAnswer {
  if (answer.ok) return answer;
  const larger = scaledQuad(filling, quadMiddle(filling), A_LITTLE_MORE);
  const way = clears.find((clear) => inTheWay(larger, panel, 0, [clear]) === clear.name)?.name;
  return way === undefined ? answer : { ...answer, why: `${answer.why}; ${way} ends the room about its middle` };
}

interface Ground {
  readonly frame: EdgeFrame;
  readonly panel: ReturnType<typeof readyOutline>;
  readonly rules: FieldRules;
  readonly clears: readonly Clear[];
  readonly spec: WindowSpec;
}

/** The frame of the edge; taken from its other end where the panel lies to its right. */
function edgeFrame(panel: Outline, { along }: WindowSpec): EdgeFrame {
  const long = Math.hypot(along.to[0] - along.from[0], along.to[1] - along.from[1]);
  const beside = (from: Point2, to: Point2): Point2 => {
    const [x, y] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
    return [x - ((to[1] - from[1]) / long) * 1e-3, y + ((to[0] - from[0]) / long) * 1e-3];
  };
  const isTurned =
    !isInOutline(panel, beside(along.from, along.to)) && isInOutline(panel, beside(along.to, along.from));
  const [from, to] = isTurned ? [along.to, along.from] : [along.from, along.to];
  return { from, turn: Math.atan2(to[1] - from[1], to[0] - from[0]), long, isTurned };
}

function clearInFrame(frame: EdgeFrame, clear: KeepClear): KeepClear {
  const { shape } = clear;
  if ('from' in shape)
    return { ...clear, shape: { from: pointInFrame(frame, shape.from), to: pointInFrame(frame, shape.to) } };
  if ('radiusMm' in shape) return { ...clear, shape: { at: pointInFrame(frame, shape.at), radiusMm: shape.radiusMm } };
  return { ...clear, shape: inFrame(frame, shape) };
}

/**
 * Openings in a field that is clear. A slot is as wide as what its ends are sawn with: where none is named, it is the smallest with
 * which the free area is had.
 */
function laidIn(ground: Ground, quad: FieldQuad): WindowAnswer {
  const { spec, rules } = ground;
  let answer = laidWith(ground, quad);
  if (spec.shape !== 'slot' || spec.cornerDrillMm !== undefined || spec.freeMm2 === undefined) return answer;
  for (const { mm } of spec.drills ?? drills) {
    if (answer.ok) break;
    if (mm <= rules.drillMm) continue;
    const wider = laidWith({ ...ground, rules: { ...rules, drillMm: mm } }, quad);
    if (wider.ok || openOfMost(wider) > openOfMost(answer)) answer = wider;
  }
  return answer;
}

const openOfMost = (answer: WindowAnswer): number => (answer.ok ? answer.field.openMm2 : (answer.most?.openMm2 ?? 0));

/** Divided, and brought to the free area asked for. */
function laidWith(ground: Ground, quad: FieldQuad): WindowAnswer {
  const { spec, rules } = ground;
  const share = spec.meshShare ?? 1;
  const divided = dividedField(quad, spec, rules);
  if ('why' in divided) return { ok: false, why: `window ${spec.id}: ${divided.why}` };
  const full = (): WindowAnswer => fieldOf(ground, quad, divided, divided.cells);
  if (spec.freeMm2 === undefined) return full();
  const most = openOf(divided.cells) * share;
  if (most < spec.freeMm2 * (1 - FREE_WITHIN)) {
    const asIs = full();
    return {
      ok: false,
      why: `window ${spec.id}: ${cm2(spec.freeMm2)} wanted, ${cm2(most)} is the most that fits in this shape`,
      ...(asIs.ok ? { most: asIs.field } : {}),
    };
  }
  return soughtArea(ground, quad, divided, spec.freeMm2 / share) ?? full();
}

const cm2 = (mm2: number): string => `${(mm2 / 100).toFixed(1)} cm2`;

/** Openings made smaller until they have the area; undefined where they have it already. */
function soughtArea(ground: Ground, quad: FieldQuad, divided: Divided, wanted: number): WindowAnswer | undefined {
  if (openOf(divided.cells) <= wanted * (1 + FREE_WITHIN)) return undefined;
  return madeSmaller(ground, divided, wanted) ?? fewer(ground, quad, divided, wanted);
}

function madeSmaller(ground: Ground, divided: Divided, wanted: number): WindowAnswer | undefined {
  const found = divided.ofArea?.(wanted);
  if (found === undefined || Math.abs(openOf(found.cells) / wanted - 1) > FREE_WITHIN) return undefined;
  const { cells, quad, ...own } = found;
  const answer = fieldOf(ground, quad, { ...divided, ...own }, cells);
  return answer.ok ? answer : undefined;
}

/** Fewer openings where making them smaller does not get there: then the number that comes nearest from above. */
function fewer(ground: Ground, quad: FieldQuad, divided: Divided, wanted: number): WindowAnswer {
  const { spec } = ground;
  const { freeMm2: _, ...rest } = spec;
  let best: { divided: Divided; open: number } | undefined;
  for (let rows = spec.rows ?? divided.rows; rows >= (spec.rows ?? 1); rows--)
    for (let count = spec.count ?? divided.count; count >= (spec.count ?? 1); count--) {
      const now = dividedField(quad, { ...rest, count, rows }, ground.rules);
      if ('why' in now) continue;
      const open = openOf(now.cells);
      if (open >= wanted * (1 - FREE_WITHIN) && (best === undefined || open < best.open)) best = { divided: now, open };
    }
  if (best === undefined || (spec.count !== undefined && spec.rows !== undefined)) {
    const full = fieldOf(ground, quad, divided, divided.cells);
    return {
      ok: false,
      why: `window ${spec.id}: ${divided.count} x ${divided.rows} of these openings cannot have as little as ${cm2(wanted)}`,
      ...(full.ok ? { most: full.field } : {}),
    };
  }
  const smaller = madeSmaller(ground, best.divided, wanted);
  if (smaller !== undefined) return smaller;
  const over = `${cm2(best.open)} of openings: the least of this size that has ${cm2(wanted)}`;
  return fieldOf(ground, quad, { ...best.divided, notes: [...best.divided.notes, over] }, best.divided.cells);
}

/** The openings measured and named; a refusal where one of them is too near to something after all. */
function fieldOf(ground: Ground, quad: FieldQuad, divided: Divided, cells: readonly Cell[]): WindowAnswer {
  const { spec, rules, panel, clears, frame } = ground;
  const distances = distancesOf(cells, panel, clears, rules);
  const field: WindowField = laidField(frame, quad, cells, distances, {
    id: spec.id,
    count: divided.count,
    rows: divided.rows,
    drillMm: divided.drillMm,
    meshShare: spec.meshShare ?? 1,
    notes: divided.notes,
  });
  const { broken } = distances;
  if (broken === undefined) return { ok: true, field };
  const name = field.openings[broken.opening]!.name;
  return {
    ok: false,
    why: `window ${spec.id}: ${name} is ${broken.mm.toFixed(1)} mm from ${broken.from}`,
    most: field,
  };
}
