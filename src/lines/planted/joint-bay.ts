import { type Vec, distance } from '#geometry';
import { chance } from './chance.ts';
import { BayWork, type PlantedBay } from './planted-bay.ts';
import { type PlantedLine, plantedLine } from './planted-line.ts';

/** Slim hoses: thirty of them fit a bay. */
const HOSES = ['ptfe-steel-4', 'ptfe-steel-5', 'ptfe-steel-6', 'rubber-braid-4'] as const;
const TRIES = 3000;
/** Room between planted lines beyond the 3 mm that lines keep off each other [mm]. */
const APART_MM = 3 + 2;

/** A bay of many lines planted together: none comes near another, nor near what stands about. */
export function jointBay(lines: number, things: number, seed: number): PlantedBay {
  const draw = chance(90_000 + seed);
  const planted: PlantedLine[] = [];
  // The bay grows with the number of lines: about so much room a line.
  const half = 190 * Math.cbrt(lines);
  for (let n = 0; planted.length < lines; n++) {
    if (n > TRIES) throw new Error(`joint bay: only ${planted.length} of ${lines} lines found room`);
    const at: Vec = [draw.between(-half, half), draw.between(-half, half), draw.between(-half / 2, half / 2) + 500];
    const line = plantedLine(draw, at, HOSES);
    if (planted.some((other) => areNear(line, other))) continue;
    const work = new BayWork(chance(seed + n), [...planted, line]);
    if (work.portsStand()) planted.push(line);
  }
  for (let n = 0; ; n++) {
    // The blocks behind the ports are drawn by chance too: drawn until all stand.
    const bay = new BayWork(chance(seed + 1000 * (n + 1)), planted);
    if (!bay.portsStand()) {
      if (n > 50) throw new Error('joint bay: the ports of its lines do not stand');
      continue;
    }
    for (let k = 0; k < things; k++) bay.addThing(draw.between(60, 200), [4, 15]);
    return bay.bay(`planted together ${lines} ${seed}`);
  }
}

/** Do two planted lines come nearer than they may? Every second ball tells, with a bit to spare. */
function areNear(p: PlantedLine, q: PlantedLine): boolean {
  return p.balls.some(
    (a, i) =>
      i % 2 === 0 &&
      q.balls.some((b, j) => j % 2 === 0 && distance(a.at, b.at) < a.radiusMm + b.radiusMm + APART_MM + 1),
  );
}
