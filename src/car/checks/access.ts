import { workMinutes } from '#standards';
import type { Path } from '../fault.ts';
import { shown } from '../fault.ts';
import type { Part } from '../schema/car.ts';
import type { CarView, Tell } from './car-view.ts';
import { tellTwice } from './car-view.ts';
import { findNearest } from '../nearest.ts';
import { nearestOf } from './nearest-of.ts';

/** What strip-down is told of the car: fasteners' ids, what they go into, what sits on what and in which order, jobs of the breaks. */
export function checkAccess(view: CarView, tell: Tell): void {
  view.parts.forEach((part, i) => {
    if (part !== undefined) checkPartAccess(part, ['parts', i], view, tell);
  });
  checkWorkshop(view, tell);
  checkRound(view, 'sitsOn', tell);
  checkRound(view, 'comesAfter', tell);
  const lineIds = new Set(view.lines.map((line) => line?.id));
  view.car.workshop?.breaks?.forEach(({ jobs }, i) =>
    jobs?.forEach((job, k) => {
      if (!view.judges('parts') || lineIds.has(job) || isThere(view, job)) return;
      tell(
        ['workshop', 'breaks', i, 'jobs', k],
        shown(job),
        nearestOf('a part, panel or line', job, () => [...knownIds(view), ...lineIds]),
      );
    }),
  );
}

/** Kinds of work that nobody knows the usual minutes of, or told twice; heads of spanners that would not go round their nut. */
function checkWorkshop({ car }: CarView, tell: Tell): void {
  const rows = car.workshop?.minutes ?? [];
  tellTwice(
    rows.map(({ work }) => work),
    ['workshop', 'minutes'],
    'work',
    tell,
  );
  rows.forEach(({ work }, i) => {
    if (WORK.includes(work)) return;
    const nearest = findNearest(work, WORK);
    tell(
      ['workshop', 'minutes', i, 'work'],
      shown(work),
      () => `one of ${WORK.join(', ')}${nearest === undefined ? '' : ` (nearest: ${nearest})`}`,
    );
  });
  car.workshop?.tools?.forEach(({ kind, acrossFlatsMm, headMm }, i) => {
    if (!ROUND_IT.includes(kind) || acrossFlatsMm === undefined || headMm === undefined) return;
    if (headMm <= acrossFlatsMm)
      tell(['workshop', 'tools', i, 'headMm'], `${headMm}`, `more than its acrossFlatsMm, ${acrossFlatsMm}`);
  });
}

const WORK: readonly string[] = workMinutes.map(({ work }) => work);
/** Tools whose head goes round the nut. */
const ROUND_IT: readonly string[] = ['open-end', 'ring', 'ratchet', 'crow-foot'];

const knownIds = (view: CarView): (string | undefined)[] => [
  ...view.parts.map((part) => part?.id),
  ...(view.car.panels ?? []).map(({ id }) => id),
];

const isThere = (view: CarView, id: string): boolean =>
  view.soundPart(id) !== undefined || view.isMalformed(id) || (view.car.panels ?? []).some((panel) => panel.id === id);

function checkPartAccess(part: Part, at: Path, view: CarView, tell: Tell): void {
  const { fasteners } = part;
  if (fasteners !== undefined)
    tellTwice(
      fasteners.map(({ id }) => id),
      [...at, 'fasteners'],
      'id',
      tell,
    );
  const named = (id: string, path: Path, what: string) => {
    if (id === part.id) tell(path, shown(id), `another ${what} than the part itself`);
    else if (view.judges('parts') && !isThere(view, id))
      tell(
        path,
        shown(id),
        nearestOf('a part or panel', id, () => knownIds(view)),
      );
  };
  fasteners?.forEach(({ into }, k) => {
    if (into !== undefined) named(into, [...at, 'fasteners', k, 'into'], 'part or panel');
  });
  for (const list of ['sitsOn', 'comesAfter'] as const)
    part[list]?.forEach((id, k) => named(id, [...at, list, k], 'part or panel'));
}

/** Told once for each ring: what sits on itself by way of others, or comes off after itself. */
function checkRound(view: CarView, list: 'sitsOn' | 'comesAfter', tell: Tell): void {
  const isDone = new Set<string>();
  const way: string[] = [];
  const follow = (id: string): void => {
    const at = way.indexOf(id);
    if (at >= 0) {
      const ring = [...way.slice(at), id];
      const i = view.parts.findIndex((part) => part?.id === id);
      tell(
        ['parts', i, list],
        `a ring: ${ring.join(list === 'sitsOn' ? ' on ' : ' after ')}`,
        'an order with a beginning',
      );
      return;
    }
    if (isDone.has(id)) return;
    isDone.add(id);
    way.push(id);
    // A part that names itself is told as such.
    for (const next of view.soundPart(id)?.[list] ?? []) if (next !== id) follow(next);
    way.pop();
  };
  for (const part of view.parts) if (part !== undefined) follow(part.id);
}
