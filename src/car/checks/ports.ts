import type { EndType } from '#standards';
import type { Path } from '../fault.ts';
import { shown } from '../fault.ts';
import type { Part, Port, PortEnd } from '../schema/car.ts';
import type { CarView, Tell } from './car-view.ts';
import { tellTwice } from './car-view.ts';
import { nearestOf } from './nearest-of.ts';
import { checkReadings } from './readings.ts';
import { checkShape } from './shapes.ts';

/** What is wrong with the parts: ids twice, solids, ports, and references to movers, parts and origins. */
export function checkParts(view: CarView, tell: Tell): void {
  tellTwice(
    view.parts.map((part) => part?.id),
    ['parts'],
    'id',
    tell,
  );
  view.parts.forEach((part, i) => {
    if (part !== undefined) checkPart(part, ['parts', i], view, tell);
  });
}

function checkPart(part: Part, at: Path, view: CarView, tell: Tell): void {
  part.shapes.forEach((shape, i) => {
    checkShape(shape, [...at, 'shapes', i], tell);
    if (shape.from !== undefined) checkFrame(shape.from, [...at, 'shapes', i, 'from'], view, tell);
  });
  tellTwice(
    part.ports.map((port) => port.id),
    [...at, 'ports'],
    'id',
    tell,
  );
  checkLeader(part.follows, part.id, [...at, 'follows'], view, tell);
  part.ports.forEach((port, i) => {
    checkPort(port, [...at, 'ports', i], view, tell);
    checkLeader(port.follows, part.id, [...at, 'ports', i, 'follows'], view, tell);
  });
  if (part.movesWith !== undefined && view.judges('movers') && !view.moverIds.has(part.movesWith)) {
    tell(
      [...at, 'movesWith'],
      shown(part.movesWith),
      nearestOf('a mover', part.movesWith, () => [...view.moverIds]),
    );
  }
}

/** What it follows is on the car, and is not itself. */
function checkLeader(follows: string | undefined, own: string, at: Path, view: CarView, tell: Tell): void {
  if (follows === undefined || !view.judges('parts')) return;
  const [id = '', port] = follows.split('.');
  const part = view.soundPart(id);
  if (id === own) tell(at, shown(follows), 'another part, or a port on one');
  else if (part === undefined) {
    if (view.isMalformed(id)) return;
    tell(
      at,
      shown(follows),
      nearestOf('a part', id, () => view.parts.map((one) => one?.id)),
    );
  } else if (port !== undefined && !part.ports.some((one) => one.id === port))
    tell(
      at,
      shown(follows),
      nearestOf('a port', follows, () => part.ports.map((one) => `${id}.${one.id}`)),
    );
}

function checkPort(port: Port, at: Path, view: CarView, tell: Tell): void {
  checkEnd(port.end, [...at, 'end'], tell);
  if (port.measured !== undefined) checkReadings(port.measured, [...at, 'measured'], view, tell);
  port.near?.parts.forEach((id, i) => {
    if (!view.judges('parts') || view.soundPart(id) !== undefined || view.isMalformed(id)) return;
    tell(
      [...at, 'near', 'parts', i],
      shown(id),
      nearestOf('a part', id, () => view.parts.map((part) => part?.id)),
    );
  });
}

function checkFrame(from: string, at: Path, view: CarView, tell: Tell): void {
  if (view.judges('origins') && view.originById.get(from)?.kind !== 'points')
    tell(
      at,
      shown(from),
      nearestOf('an origin of kind points', from, () =>
        view.origins.filter((origin) => origin?.kind === 'points').map((origin) => origin?.id),
      ),
    );
}

type Size = 'dash' | 'thread' | 'pipe' | 'odMm';
const DASHED: readonly Size[] = ['dash', 'thread'];
const BY_OUTSIDE: readonly Size[] = ['odMm', 'dash'];
const SIZES: Partial<Record<EndType, readonly Size[]>> = {
  'inverted-flare': ['thread', 'dash', 'odMm'],
  'inverted-flare-nut': ['thread', 'dash', 'odMm'],
  'npt-male': ['pipe'],
  'npt-female': ['pipe'],
  bspp: ['pipe'],
  'bspp-stud': ['pipe'],
  'metric-orb': ['thread'],
  'metric-orb-stud': ['thread'],
  'metric-washer': ['thread'],
  'metric-washer-stud': ['thread'],
  bead: BY_OUTSIDE,
  barb: BY_OUTSIDE,
  'plain-tube': BY_OUTSIDE,
  'tube-socket': BY_OUTSIDE,
  'hose-bore': BY_OUTSIDE,
};
const THREAD = /^(M\d{1,3}(\.\d{1,2})?x\d(\.\d{1,2})?|(\d+ )?(\d+\/\d+|\d+)-\d{1,2})( ?[A-Z]{1,5})?$/;
const PIPE = /^(\d+ )?(\d+\/\d+|\d+)$/;

function checkEnd(end: PortEnd, at: Path, tell: Tell): void {
  const sizes = SIZES[end.type] ?? DASHED;
  const isFlange = end.type === 'flange2' || end.type === 'flange2-foot';
  if (!isFlange && !sizes.some((size) => end[size] !== undefined)) {
    tell(at, shown(end), `the size of "${end.type}" by ${sizes.join(' or ')}`);
  }
  if (end.thread !== undefined && !THREAD.test(end.thread))
    tell([...at, 'thread'], shown(end.thread), 'a thread such as M14x1.5 or 7/8-14');
  if (end.pipe !== undefined && !PIPE.test(end.pipe))
    tell([...at, 'pipe'], shown(end.pipe), 'a pipe size such as 1/8 or 1 1/4');
}
