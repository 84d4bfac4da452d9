import type { Finding } from '#sources';
import type { BayPart } from './bay-part.ts';
import type { BayPort } from './bay-port.ts';

/** A port this far in under or off its own part's surface is taken to be in the wrong place [mm]. Own choice: twice the usual tape reading. */
export const PORT_OFF_MM = 10;
/** A place less deep than this in another part lies on it: rounding of the numbers in the car file [mm]. */
const TOUCH_MM = 0.05;

/** What is wrong with where a port stands: inside a solid, or off its own part. */
export function portInsideSolid(parts: readonly BayPart[], port: BayPort): readonly Finding[] {
  const findings: Finding[] = [];
  for (const part of parts) {
    if (part.solids.length === 0) continue;
    const d = distanceToPart(part, port.at[0], port.at[1], port.at[2]);
    if (part.id === port.partId) {
      if (d < -PORT_OFF_MM)
        findings.push(
          finding(
            port,
            'port-inside-own',
            `${port.ref} lies ${mm(-d)} mm inside its own part ${part.id}; its face should be at the surface`,
            d,
            part,
          ),
        );
      if (d > PORT_OFF_MM)
        findings.push(finding(port, 'port-off-part', `${port.ref} misses its part by ${mm(d)} mm`, d, part));
    } else if (d < -TOUCH_MM) {
      findings.push(
        finding(
          port,
          'port-inside',
          `${port.ref} lies ${mm(-d)} mm inside ${part.id}: nothing can be screwed on there`,
          d,
          part,
        ),
      );
    }
  }
  return findings;
}

/** The findings of every port. */
export function portsOutOfPlace(parts: readonly BayPart[], ports: Iterable<BayPort>): readonly Finding[] {
  return [...ports].flatMap((port) => portInsideSolid(parts, port));
}

/** Signed distance to the nearest of a part's solids [mm]; Infinity where it has none. */
export function distanceToPart(part: BayPart, x: number, y: number, z: number): number {
  let least = Infinity;
  for (const solid of part.solids) least = Math.min(least, solid.distanceWithin(x, y, z, least));
  return least;
}

const mm = (v: number): string => v.toFixed(v < 10 ? 1 : 0);

function finding(port: BayPort, code: string, text: string, d: number, part: BayPart): Finding {
  const isOff = code === 'port-off-part';
  return {
    code,
    level: isOff ? 'fix' : 'stop',
    text,
    value: Math.abs(d),
    limit: part.id === port.partId ? PORT_OFF_MM : 0,
    unit: 'mm',
    source: 'the car file',
    place: port.at,
  };
}
