import { openHeadMm, socketOdMm, type ToolKind } from '#standards';
import {
  barOf,
  better,
  cornerMm,
  handleSwing,
  heightsOn,
  isEnough,
  needOf,
  none,
  planeAt,
  type Slim,
  type Swing,
  tally,
} from './handle-swing.ts';
import { Directions, blockDirections, columnMeets, freeArcs, ringMeets } from './swing.kernel.ts';
import type { Look } from './things.ts';
import type { ToolNut } from './tool-nut.ts';
import type { Tools } from './workshop.ts';

export function ratchetSwing(nut: ToolNut, look: Look, tools: Tools, slim: Slim): Swing {
  const drive = tools.drive(nut.acrossFlatsMm);
  const radius = Math.max((socketOdMm(nut.acrossFlatsMm) * slim) / 2, cornerMm(nut) + 0.5);
  const base = Math.max(nut.flatsMm[0], nut.flatsMm[1] - drive.socketMm / 2);
  // No thicker than the socket's own wall: it stands out past neither the corners nor the socket.
  const RIM_MM = 4;
  const halfThickMm = Math.min(RIM_MM / 2, radius - cornerMm(nut));
  const rim = ringMeets(look, planeAt(nut, base + halfThickMm), {
    fromMm: cornerMm(nut),
    toMm: radius - halfThickMm,
    halfThickMm,
  });
  if (rim !== null) return none('ratchet', rim);
  const top = base + drive.socketMm;
  const socket = columnMeets(look, nut.at, nut.axis, [Math.min(base + radius, top - radius), top - radius], radius);
  if (socket !== null) return none('ratchet', socket);
  let best: Swing | null = null;
  for (const bar of drive.bars) {
    const meets = bar === 0 ? null : columnMeets(look, nut.at, nut.axis, [top, top + bar], (drive.barOdMm * slim) / 2);
    const found = meets === null ? ratchetHandle('ratchet', nut, top + bar, look, tools, slim) : none('ratchet', meets);
    best = better(best, bar === 0 ? found : { ...found, with: `a ${bar} mm bar` });
    if (isEnough(best) || meets !== null) break;
  }
  return best!;
}

/** A ratchet whose square stands at that height on the axis. */
function ratchetHandle(
  tool: ToolKind,
  nut: ToolNut,
  squareMm: number,
  look: Look,
  tools: Tools,
  slim: Slim,
  outwards = 1,
): Swing {
  const drive = tools.drive(nut.acrossFlatsMm);
  const deep = drive.ratchetDeepMm * slim;
  const plane = planeAt(nut, squareMm + (outwards * deep) / 2);
  const head = (drive.ratchetHeadMm * slim) / 2;
  const halfThickMm = Math.min(deep / 2, head);
  const met = ringMeets(look, plane, { fromMm: 0, toMm: Math.max(0.1, head - halfThickMm), halfThickMm });
  if (met !== null) return none(tool, met);
  const handle = { plane, fromMm: head, lengthMm: drive.lengthMm, widthMm: drive.handleMm, thickMm: drive.handleMm };
  return handleSwing(tool, handle, look, tools.hand, slim);
}

export function crowFootSwing(nut: ToolNut, look: Look, tools: Tools, slim: Slim): Swing {
  const drive = tools.drive(nut.acrossFlatsMm);
  const own = tools.own('crow-foot', nut.acrossFlatsMm);
  const thick = (own?.thickMm ?? Math.max(drive.barOdMm, 0.35 * nut.acrossFlatsMm)) * slim;
  const radius = ((own?.headMm ?? openHeadMm(nut.acrossFlatsMm)) * slim) / 2;
  const squareMm = radius + drive.barOdMm / 2 + 1;
  let best: Swing | null = null;
  for (const z of heightsOn(nut.flatsMm, thick).slice(0, 3)) {
    const plane = planeAt(nut, z);
    const met = ringMeets(look, plane, {
      fromMm: cornerMm(nut),
      toMm: Math.max(cornerMm(nut), radius - thick / 2),
      halfThickMm: thick / 2,
    });
    if (met !== null) {
      best = better(best, none('crow-foot', met));
      continue;
    }
    const lug = {
      plane,
      fromMm: radius,
      lengthMm: squareMm + drive.barOdMm,
      widthMm: 2 * drive.barOdMm,
      thickMm: thick,
    };
    const turned = new Directions();
    blockDirections(look, plane, barOf(lug, slim), turned);
    for (const side of [1, -1] as const)
      for (const bar of drive.bars) {
        const orbit = new Directions(turned);
        blockBar(look, nut, [z, z + side * bar], { squareMm, radiusMm: (drive.barOdMm * slim) / 2 }, orbit);
        best = better(best, withCrow(nut, orbit, z + side * (bar + thick / 2), side, bar, look, tools, slim));
        if (isEnough(best)) return best;
      }
  }
  return best!;
}

/** Crow-foot and bar turn through one stretch, the ratchet behind them clicks through its own. */
function withCrow(
  nut: ToolNut,
  orbit: Directions,
  squareMm: number,
  side: 1 | -1,
  bar: number,
  look: Look,
  tools: Tools,
  slim: Slim,
): Swing {
  const arc = freeArcs(orbit)[0]?.widthDeg ?? 0;
  const needDeg = needOf('crow-foot');
  if (arc < needDeg) return { ...none('crow-foot', null), fingersDeg: arc, met: tally(orbit) };
  const handle = ratchetHandle('ratchet', nut, squareMm, look, tools, slim, side);
  const words = bar === 0 ? {} : { with: `a ${bar} mm bar` };
  const isFree = handle.freeDeg >= handle.needDeg;
  const isFingers = handle.fingersDeg >= handle.needDeg;
  return {
    ...handle,
    tool: 'crow-foot',
    needDeg,
    freeDeg: isFree ? arc : 0,
    fingersDeg: isFingers ? arc : 0,
    ...words,
  };
}

/** The bar behind a crow-foot goes round with it: a ring of balls at every height. */
function blockBar(
  look: Look,
  nut: ToolNut,
  [from, to]: readonly [number, number],
  { squareMm, radiusMm }: { readonly squareMm: number; readonly radiusMm: number },
  blocked: Directions,
): void {
  const steps = Math.ceil(Math.abs(to - from) / radiusMm);
  for (let n = 1; n <= steps; n++)
    blockDirections(
      look,
      planeAt(nut, from + ((to - from) * n) / steps),
      { fromMm: squareMm, toMm: squareMm, halfWidthMm: 0, halfThickMm: radiusMm },
      blocked,
    );
}
