import type { TakenWay } from '#car';
import type { Way } from '#lines';

/** What is kept of a way when it is taken: what to make and where it lies. Gaps and costs are results and are worked out again. */
export function takenFrom({ ends, joints, pieces, clamps, bodies }: Way): TakenWay {
  return JSON.parse(JSON.stringify({ ends, joints, pieces, clamps, bodies })) as TakenWay;
}
