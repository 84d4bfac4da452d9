import type { Lengths } from '#units';

/** How places and turns are to be read, at the head of every card. */
export const conventionsIn = (lengths: Lengths): string =>
  `Places are X rearward of the front axle line, Y to the car's right, Z up [${lengths.unit}]. Clocks are seen looking into the port, 12 = up; forward where the port faces within 30° of straight up or down.`;
