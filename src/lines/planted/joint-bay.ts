import { type Vec, distance } from '#geometry';
import { chance } from './chance.ts';
import { BayWork, type PlantedBay } from './planted-bay.ts';
import { type PlantedLine, plantedLine } from './planted-line.ts';

/** Slim hoses: thirty of them fit a bay. */
const HOSES = ['ptfe-steel-4', 'ptfe-steel-5', 'ptfe-steel-6', 'rubber-braid-4'] as const;
const TRIES = 3000;
/** Half the side of the cube that a line has to itself [mm]: less than it is long, so that lines cross each other. */
const ROOM_MM = 85;
/** Room between planted lines beyond the 3 mm that lines keep off each other [mm]. */
const APART_MM = 3 + 2;

/** A bay of many lines planted together: none comes near another, nor near what stands about. */
export function jointBay(lines: number, things: number, seed: number): PlantedBay {
  const draw = chance(90_000 + seed);
  const planted: PlantedLine[] = [];
  // The bay grows with the number of lines: about so much room a line.
  const half = ROOM_MM * Math.cbrt(lines);
  for (let n = 0; planted.length < lines; n++) {
    if (n > TRIES) throw new Error(`joint bay: only ${planted.length} of ${lines} lines found room`);
    const at: Vec = [draw.between(-half, half), draw.between(-half, half), draw.between(-half / 2, half / 2) + 500];
    const line = plantedLine(draw, at, HOSES);
    if (planted.some((other) => areNear(line, other))) continue;
    if (new BayWork(draw, [...planted, line], true).portsStand()) planted.push(line);
  }
  const bay = new BayWork(draw, planted, true);
  for (let k = 0; k < things; k++) bay.addThing(draw.between(60, 200), [4, 15]);
  return bay.bay(`planted together ${lines} ${seed}`);
}

/** Do two planted lines come nearer than they may? Every second ball tells, with a bit to spare; boxes round them first. */
function areNear(p: PlantedLine, q: PlantedLine): boolean {
  const [a, b] = [boxOf(p), boxOf(q)];
  if ([0, 1, 2].some((k) => a.min[k]! > b.max[k]! || b.min[k]! > a.max[k]!)) return false;
  const isIn = ({ at }: { readonly at: Vec }): boolean =>
    [0, 1, 2].every((k) => at[k]! > a.min[k]! && at[k]! < a.max[k]! && at[k]! > b.min[k]! && at[k]! < b.max[k]!);
  const [mine, theirs] = [p, q].map((line) => line.balls.filter((ball, i) => i % 2 === 0 && isIn(ball)));
  return mine!.some((s) => theirs!.some((t) => distance(s.at, t.at) < s.radiusMm + t.radiusMm + APART_MM + 1));
}

/** Round a line with half the room that two lines keep, and more than any fitting's radius. */
const boxOf = ({ balls }: PlantedLine) => ({
  min: [0, 1, 2].map((k) => Math.min(...balls.map((ball) => ball.at[k]!)) - BOX_MM),
  max: [0, 1, 2].map((k) => Math.max(...balls.map((ball) => ball.at[k]!)) + BOX_MM),
});

const BOX_MM = 60;
