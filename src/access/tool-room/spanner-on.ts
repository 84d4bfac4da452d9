import type { ToolKind } from '#standards';
import {
  better,
  cornerMm,
  handleSwing,
  heightsOn,
  isEnough,
  none,
  planeAt,
  type Slim,
  type Swing,
} from './handle-swing.ts';
import { crowFootSwing, ratchetSwing } from './ratchet-on.ts';
import { clampDriver, straightOn } from './straight-on.ts';
import { columnMeets, ringMeets } from './swing.kernel.ts';
import type { Look, Thing } from './things.ts';
import type { ToolNut } from './tool-nut.ts';
import type { Tools } from './workshop.ts';

/** Every tool on its nut, a nut on its own: what swing it has among the things of a look. */
export function swingOf(tool: ToolKind, nut: ToolNut, look: Look, tools: Tools, slim: Slim = 1): Swing {
  if (tool === 'open-end' || tool === 'ring') return spannerSwing(tool, nut, look, tools, slim);
  if (tool === 'ratchet') return ratchetSwing(nut, look, tools, slim);
  if (tool === 'crow-foot') return crowFootSwing(nut, look, tools, slim);
  if (tool === 'hex-key') return keySwing(nut, look, tools, slim);
  return nut.roundMm === undefined ? straightOn(tool, nut, look, tools, slim) : clampDriver(nut, look, tools, slim);
}

function spannerSwing(tool: 'open-end' | 'ring', nut: ToolNut, look: Look, tools: Tools, slim: Slim): Swing {
  const { headMm, thickMm, widthMm, lengthMm } = tools.spanner(tool, nut.acrossFlatsMm);
  const thick = thickMm * slim;
  const radius = Math.max((headMm * slim) / 2, cornerMm(nut) + 1);
  let best: Swing | null = null;
  for (const z of heightsOn(nut.flatsMm, thick)) {
    const plane = planeAt(nut, z);
    const met = headMeets(nut, look, z, radius, thick);
    const found =
      met !== null
        ? none(tool, met)
        : handleSwing(tool, { plane, fromMm: radius, lengthMm, widthMm, thickMm }, look, tools.hand, slim);
    best = better(best, found);
    if (isEnough(best)) break;
  }
  return best!;
}

/** What the head round the nut meets: from its corners out to its radius, no further, in all its thickness. */
function headMeets(nut: ToolNut, look: Look, z: number, radius: number, thick: number): Thing | null {
  const fromMm = cornerMm(nut);
  const halfThickMm = Math.min(thick / 2, radius - fromMm);
  const ring = { fromMm, toMm: radius - halfThickMm, halfThickMm };
  const faceMm = thick / 2 - halfThickMm;
  const rows = 1 + Math.ceil(faceMm / halfThickMm);
  for (let n = 0; n < rows; n++) {
    const met = ringMeets(look, planeAt(nut, z + (rows === 1 ? 0 : faceMm * ((2 * n) / (rows - 1) - 1))), ring);
    if (met !== null) return met;
  }
  return null;
}

function keySwing(nut: ToolNut, look: Look, tools: Tools, slim: Slim): Swing {
  const { shortMm, longMm } = tools.hexKey(nut.acrossFlatsMm);
  const radius = cornerMm(nut) * slim;
  let best: Swing | null = null;
  for (const [inMm, outMm] of [
    [shortMm, longMm],
    [longMm, shortMm],
  ] as const) {
    const met = columnMeets(look, nut.at, nut.axis, [radius + 0.5, inMm - radius], radius);
    const plane = planeAt(nut, inMm - radius);
    const handle = { plane, fromMm: radius, lengthMm: outMm, widthMm: 2 * radius, thickMm: 2 * radius };
    const found =
      met === null ? withFingers(handleSwing('hex-key', handle, look, tools.hand, slim)) : none('hex-key', met);
    best = better(best, found);
    if (isEnough(best)) break;
  }
  return best!;
}

/** A key is turned with the fingers: no fist goes round it. */
const withFingers = (swing: Swing): Swing => ({ ...swing, freeDeg: swing.fingersDeg });
