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
import type { Look } from './things.ts';
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
    const ring = { fromMm: cornerMm(nut), toMm: Math.max(cornerMm(nut), radius - thick / 2), halfThickMm: thick / 2 };
    const met = ringMeets(look, plane, ring);
    const found =
      met !== null
        ? none(tool, met)
        : handleSwing(tool, { plane, fromMm: radius, lengthMm, widthMm, thickMm }, look, tools.hand, slim);
    best = better(best, found);
    if (isEnough(best)) break;
  }
  return best!;
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
