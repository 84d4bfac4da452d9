import type { Path } from '../fault.ts';
import { shown } from '../fault.ts';
import { splitPortRef } from '../lookups.ts';
import type { Line, TakenWay, Through } from '../schema/car.ts';
import type { CarView, Tell } from './car-view.ts';
import { tellTwice } from './car-view.ts';
import { nearestOf } from './nearest-of.ts';

/** What is wrong with the lines: ids twice, ports unknown or used twice, pieces, crossings, and ways that belong to another line. */
export function checkLines(view: CarView, tell: Tell): void {
  tellTwice(
    view.lines.map((line) => line?.id),
    ['lines'],
    'id',
    tell,
  );
  const usedBy = new Map<string, string>();
  view.lines.forEach((line, i) => {
    if (line !== undefined) checkLine(line, ['lines', i], usedBy, view, tell);
  });
}

function checkLine(line: Line, at: Path, usedBy: Map<string, string>, view: CarView, tell: Tell): void {
  for (const key of ['from', 'to'] as const) checkPortRef(line[key], [...at, key], view, tell);
  if (line.from === line.to) {
    tell([...at, 'to'], `${shown(line.to)}, where the line also begins`, 'another port than from');
  } else {
    for (const key of ['from', 'to'] as const) {
      const other = usedBy.get(line[key]);
      if (other !== undefined)
        tell([...at, key], `${shown(line[key])}, which line ${shown(other)} already uses`, 'one line a port');
      else usedBy.set(line[key], line.id);
    }
  }
  if (line.hose !== undefined && line.pieces.length > 0)
    tell([...at, 'hose'], 'hose beside pieces', 'hose for one hose piece, or pieces');
  line.pieces.forEach((piece, i) => {
    const count = Number(piece.hose !== undefined) + Number(piece.tube !== undefined);
    if (count !== 1)
      tell(
        [...at, 'pieces', i],
        count === 0 ? 'neither hose nor tube' : 'hose and tube together',
        'exactly one of hose, tube',
      );
    if (piece.tube !== undefined && piece.tube.wallMm * 2 >= piece.tube.odMm) {
      tell(
        [...at, 'pieces', i, 'tube'],
        `wallMm ${piece.tube.wallMm} in odMm ${piece.tube.odMm}`,
        'a wall less than half the outside diameter',
      );
    }
  });
  line.through.forEach((through, i) => checkThrough(through, [...at, 'through', i], view, tell));
  if (line.taken !== undefined && line.taken !== null) checkTaken(line, line.taken, [...at, 'taken'], tell);
}

function checkPortRef(ref: string, at: Path, view: CarView, tell: Tell): void {
  if (!view.judges('parts')) return;
  const ids = splitPortRef(ref);
  const part = view.soundPart(ids.part);
  if (part === undefined) {
    if (!view.isMalformed(ids.part)) {
      tell(
        at,
        `${shown(ref)}: there is no part ${shown(ids.part)}`,
        nearestOf('a port', ref, () =>
          view.parts.flatMap((candidate) => candidate?.ports.map((port) => `${candidate.id}.${port.id}`) ?? []),
        ),
      );
    }
  } else if (!part.ports.some((port) => port.id === ids.port)) {
    tell(
      at,
      `${shown(ref)}: part ${shown(ids.part)} has no port ${shown(ids.port)}`,
      nearestOf('a port', ref, () => part.ports.map((port) => `${part.id}.${port.id}`)),
    );
  }
}

function checkThrough(through: Through, at: Path, view: CarView, tell: Tell): void {
  // A panel may be passed as its holes are fitted; which panels there are is judged by their own check.
  if ((Array.isArray(view.car.panels) ? view.car.panels : []).some((panel) => panel?.id === through.part)) return;
  const part = view.soundPart(through.part);
  if (part === undefined) {
    if (!view.judges('parts') || view.isMalformed(through.part)) return;
    tell(
      [...at, 'part'],
      shown(through.part),
      nearestOf('a crossable part', through.part, () =>
        view.parts.filter((p) => p?.crossable !== undefined).map((p) => p?.id),
      ),
    );
    return;
  }
  const ways = part.crossable ?? [];
  if (ways.length === 0)
    tell(
      [...at, 'part'],
      `${shown(through.part)}, which is not crossable`,
      'a part with crossable, such as ["grommet"]',
    );
  else if (!ways.includes(through.kind))
    tell([...at, 'kind'], shown(through.kind), `what ${shown(through.part)} lets through: ${ways.join(', ')}`);
}

/** A way that was taken rebuilds a made hose, so it must be this line's: same ports, same run of hoses and tubes. */
function checkTaken(line: Line, taken: TakenWay, at: Path, tell: Tell): void {
  const ports = taken.ends.map((end) => end.port);
  if (ports[0] !== line.from || ports[1] !== line.to) {
    tell(
      [...at, 'ends'],
      ports.length === 0 ? 'no ends' : `ends on ${ports.join(' and ')}`,
      `ends on ${line.from} and ${line.to}, as the line has them`,
    );
  }
  const wanted =
    line.pieces.length > 0
      ? line.pieces.map((piece) => (piece.tube === undefined ? 'hose' : 'tube'))
      : line.hose === undefined
        ? undefined
        : ['hose'];
  const made = taken.pieces.map((piece) => (piece.tube === undefined ? 'hose' : 'tube'));
  const fittings = line.through.filter((through) => through.kind !== 'grommet').length;
  if (wanted !== undefined && !isRunOf(wanted, made, fittings)) {
    tell([...at, 'pieces'], made.join(', ') || 'no pieces', `${wanted.join(', ')}, as the line has them`);
  }
  taken.bodies.forEach((body, i) => {
    if (body.pathMm.length < 2)
      tell([...at, 'bodies', i, 'pathMm'], `${body.pathMm.length} points`, 'at least two points');
  });
}

/** Is what was made what the line wants, when each fitting on the way may divide one length into two of its kind? */
function isRunOf(wanted: readonly string[], made: readonly string[], fittings: number): boolean {
  if (made.length < wanted.length || made.length > wanted.length + fittings) return false;
  let next = 0;
  for (const kind of made) {
    if (kind === wanted[next]) next++;
    else if (next === 0 || kind !== wanted[next - 1]) return false;
  }
  return next === wanted.length;
}
