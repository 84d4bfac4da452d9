/** A picture as drawn on paper: how dark each dot is. */
export interface Ink {
  readonly width: number;
  readonly height: number;
  readonly dotsPerMm: number;
  /** 0 bare paper to 255 black. */
  readonly dark: (x: number, y: number) => number;
}

/** A grey picture in the plain form that pdftoppm writes (PGM, P5). */
export function inkOfPgm(bytes: Buffer, dotsPerMm: number): Ink {
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/u.exec(bytes.subarray(0, 40).toString('latin1'));
  if (head === null) throw new Error('not a P5 picture');
  const [all, width, height] = [head[0], Number(head[1]), Number(head[2])];
  return { width, height, dotsPerMm, dark: (x, y) => 255 - bytes[all.length + y * width + x]! };
}

/** Middle and width of a stretch of ink [mm]. */
export interface Stretch {
  readonly atMm: number;
  readonly wideMm: number;
}

const THRESHOLD = 60;

/** The stretches of ink met along a level line at `yMm`, weighed by how dark they are. */
export function acrossAt(ink: Ink, yMm: number, fromMm = 0, toMm = ink.width / ink.dotsPerMm): Stretch[] {
  const y = Math.floor(yMm * ink.dotsPerMm);
  return stretches(ink, Math.round(fromMm * ink.dotsPerMm), Math.round(toMm * ink.dotsPerMm), (x) => ink.dark(x, y));
}

/** The same along an upright line at `xMm`. */
export function downAt(ink: Ink, xMm: number, fromMm = 0, toMm = ink.height / ink.dotsPerMm): Stretch[] {
  const x = Math.floor(xMm * ink.dotsPerMm);
  return stretches(ink, Math.round(fromMm * ink.dotsPerMm), Math.round(toMm * ink.dotsPerMm), (y) => ink.dark(x, y));
}

function stretches(ink: Ink, from: number, to: number, dark: (at: number) => number): Stretch[] {
  const found: Stretch[] = [];
  let [weight, moment, count] = [0, 0, 0];
  for (let at = from; at <= to; at++) {
    const here = at < to ? dark(at) : 0;
    if (here > THRESHOLD) {
      weight += here;
      moment += here * (at + 0.5);
      count++;
    } else if (count > 0) {
      found.push({ atMm: moment / weight / ink.dotsPerMm, wideMm: count / ink.dotsPerMm });
      [weight, moment, count] = [0, 0, 0];
    }
  }
  return found;
}
