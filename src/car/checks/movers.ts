import type { Path } from '../fault.ts';
import { shown } from '../fault.ts';
import type { Mover } from '../schema/car.ts';
import type { CarView, Tell } from './car-view.ts';
import { tellTwice } from './car-view.ts';

/** What is wrong with the movers: ids twice, no movement, a swing without its axis, limits the wrong way round. */
export function checkMovers(view: CarView, tell: Tell): void {
  tellTwice(
    view.movers.map((mover) => mover?.id),
    ['movers'],
    'id',
    tell,
  );
  view.movers.forEach((mover, i) => {
    if (mover !== undefined) checkMover(mover, ['movers', i], tell);
  });
}

function checkMover(mover: Mover, at: Path, tell: Tell): void {
  if (mover.turnDeg === undefined && mover.slideMm === undefined) tell(at, 'no movement', 'turnDeg or slideMm');
  if (mover.turnDeg !== undefined) {
    if (mover.pivotMm === undefined) tell([...at, 'pivotMm'], 'nothing', 'a point on the axis of the swing');
    if (mover.axis === undefined) tell([...at, 'axis'], 'nothing', 'the direction of the axis of the swing');
    if (mover.turnDeg[0] > mover.turnDeg[1]) tell([...at, 'turnDeg'], shown(mover.turnDeg), 'the lower angle first');
  }
}
