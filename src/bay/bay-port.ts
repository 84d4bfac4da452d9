import { type Part, type Port, type PortEnd, partTolerance } from '#car';
import { unit, type Vec } from '#geometry';

/** One port as it stands in the car. */
export interface BayPort {
  /** "part.port" */
  readonly ref: string;
  readonly partId: string;
  readonly at: Vec;
  /** Unit vector out of the part. */
  readonly faces: Vec;
  readonly end: PortEnd;
  readonly knownToMm: number;
  readonly facingKnownDeg: number;
  readonly near: Port['near'];
  readonly port: Port;
}

/** A port of the car file, with what it leaves unsaid taken from its part. */
export function bayPort(part: Part, port: Port): BayPort {
  const usual = partTolerance(part);
  return {
    ref: `${part.id}.${port.id}`,
    partId: part.id,
    at: port.atMm,
    faces: unit(port.faces),
    end: port.end,
    knownToMm: port.knownToMm ?? usual.knownToMm,
    facingKnownDeg: port.facingKnownDeg ?? usual.facingKnownDeg,
    near: port.near,
    port,
  };
}
