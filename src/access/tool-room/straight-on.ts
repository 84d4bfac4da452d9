import { addScaled, cross, scale, type Vec } from '#geometry';
import { type ToolKind, usualDriver } from '#standards';
import { better, none, planeAt, pointing, type Slim, type Swing } from './handle-swing.ts';
import { columnMeets } from './swing.kernel.ts';
import type { Look } from './things.ts';
import type { ToolNut } from './tool-nut.ts';
import type { Tools } from './workshop.ts';

/** Something that goes on straight along the axis: a driver with its hand, or the hand alone. */
export function straightOn(tool: ToolKind, nut: ToolNut, look: Look, tools: Tools, slim: Slim): Swing {
  const own = tools.own(tool, nut.acrossFlatsMm);
  const blade = (usualDriver.bladeOdMm * slim) / 2;
  const handle = ((own?.headMm ?? usualDriver.handleOdMm) * slim) / 2;
  const fist = (tools.hand.thickMm * slim) / 2;
  const top = tool === 'hand' ? 0 : own === null || own.lengthMm === undefined ? usualDriver.bladeMm : own.lengthMm / 2;
  const gripMm = top + usualDriver.handleMm / 2;
  const met =
    (tool === 'hand' ? null : columnMeets(look, nut.at, nut.axis, [blade + 1, top], blade)) ??
    (tool === 'hand'
      ? null
      : columnMeets(look, nut.at, nut.axis, [top + handle, top + usualDriver.handleMm], handle)) ??
    columnMeets(look, nut.at, nut.axis, [top + fist, top + usualDriver.handleMm], fist);
  if (met !== null) return none(tool, met);
  const hand = addScaled(nut.at, nut.axis, gripMm);
  return { tool, freeDeg: 360, fingersDeg: 360, needDeg: 0, toward: nut.axis, hands: [hand], met: [] };
}

/** The screw of a hose clamp, at the best of the places round the hose, from either side. */
export function clampDriver(nut: ToolNut, look: Look, tools: Tools, slim: Slim): Swing {
  const PLACES = 12;
  const plane = planeAt(nut, (nut.flatsMm[0] + nut.flatsMm[1]) / 2);
  let best: Swing | null = null;
  const hands: Vec[] = [];
  for (let n = 0; n < PLACES; n++) {
    const out = pointing(plane, (n * 360) / PLACES);
    for (const side of [1, -1] as const) {
      const screw = { ...nut, at: addScaled(plane.at, out, nut.roundMm! + 2), axis: scale(cross(nut.axis, out), side) };
      const found = straightOn('driver', screw, look, tools, slim);
      hands.push(...found.hands);
      best = better(best, found);
    }
  }
  return { ...best!, hands };
}
