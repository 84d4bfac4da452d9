import type { Body } from '#geometry';

/** A stretch of a line as `ways` prints it and the car file keeps it. */
export interface WrittenBody {
  readonly part: string;
  readonly pathMm: readonly (readonly [number, number, number])[];
  readonly odMm: number;
}

/** Written stretches of a line as solids, for obstacles and gaps. */
export function solidBodies(bodies: readonly WrittenBody[]): Body[] {
  return bodies
    .filter((body) => body.pathMm.length > 1)
    .map((body) => ({ part: body.part, path: Float64Array.from(body.pathMm.flat()), radiusMm: body.odMm / 2 }));
}
