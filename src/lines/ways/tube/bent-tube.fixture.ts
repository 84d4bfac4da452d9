/** A tube bent on a bench, walked from its table by someone who knows nothing of how the table was made. */
export interface BentTube {
  /** Its end, and the way it points there, seen from its start: X along the first straight, Z to the side of the first bend, Y square. */
  readonly end: readonly [number, number, number];
  readonly along: readonly [number, number, number];
}

type Place = [number, number, number];

/**
 * The bender stands still: the tube lies along X, the shoe pulls what is beyond the die up towards Z. What has been bent already
 * hangs on the near side and is turned about X, clockwise as seen from behind (from the start, looking along the tube); after a
 * bend the whole tube is laid back so that the rest lies along X again. Points of the bent part are kept in the bender's frame.
 */
export function bentTube(
  bends: readonly { markMm: number; turnDeg: number; bendDeg: number; radiusMm: number }[],
  lengthMm: number,
): BentTube {
  // Three marks painted on the tube at its start: the start itself, a place ahead of it, a place on its side towards Z.
  let marks: Place[] = [
    [0, 0, 0],
    [1, 0, 0],
    [0, 0, 1],
  ];
  let used = 0;
  for (const bend of bends) {
    const pushed = bend.markMm - used;
    marks = marks.map(([x, y, z]) => [x - pushed, y, z]);
    const t = (bend.turnDeg * Math.PI) / 180;
    // Clockwise looking along +X is right-handed about X: Y goes towards Z.
    marks = marks.map(([x, y, z]) => [x, y * Math.cos(t) - z * Math.sin(t), y * Math.sin(t) + z * Math.cos(t)]);
    const a = (bend.bendDeg * Math.PI) / 180;
    // The rest now leaves at (R sin a, 0, R (1 - cos a)) along (cos a, 0, sin a): lay it back along X from the origin.
    const [px, pz] = [bend.radiusMm * Math.sin(a), bend.radiusMm * (1 - Math.cos(a))];
    marks = marks.map(([x, y, z]) => {
      const [u, w] = [x - px, z - pz];
      return [u * Math.cos(a) + w * Math.sin(a), y, -u * Math.sin(a) + w * Math.cos(a)];
    });
    used = bend.markMm + bend.radiusMm * a;
  }
  const rest = lengthMm - used;
  const [start, ahead, side] = marks as [Place, Place, Place];
  const x = less(ahead, start);
  const z = less(side, start);
  const y: Place = [z[1] * x[2] - z[2] * x[1], z[2] * x[0] - z[0] * x[2], z[0] * x[1] - z[1] * x[0]];
  const inTube = (v: Place): Place => [x, y, z].map((e) => e[0] * v[0] + e[1] * v[1] + e[2] * v[2]) as Place;
  return { end: inTube(less([rest, 0, 0], start)), along: inTube([1, 0, 0]) };
}

const less = (p: Place, q: Place): Place => [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
