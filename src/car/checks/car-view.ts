import type { Path } from '../fault.ts';
import { placeOf, shown } from '../fault.ts';
import type { Json } from '../json-text.ts';
import type { PlacedFault } from '../schema-faults.ts';
import type { Car, Line, Mover, Origin, Part } from '../schema/car.ts';

/** Tells one fault. What is allowed may be given as a function, called only if the fault will be shown. */
export type Tell = (path: Path, stands: string, allowed: string | (() => string)) => void;

/**
 * A car of which some entries may be malformed. Those stand as `undefined`, so that places keep their numbers and the
 * sound rest can still be checked; what refers to a malformed part is not judged.
 */
export interface CarView {
  readonly car: Car;
  readonly parts: readonly (Part | undefined)[];
  readonly movers: readonly (Mover | undefined)[];
  readonly lines: readonly (Line | undefined)[];
  readonly origins: readonly (Origin | undefined)[];
  readonly moverIds: ReadonlySet<string>;
  readonly originById: ReadonlyMap<string, Origin>;
  /** Reference points as "origin.point". */
  readonly knownPoints: ReadonlySet<string>;
  /** False where so much is malformed that a reference may well be right. */
  readonly judges: (list: 'parts' | 'movers' | 'origins') => boolean;
  readonly soundPart: (id: string) => Part | undefined;
  readonly isMalformed: (partId: string) => boolean;
}

export function viewOf(file: { [key: string]: Json }, broken: readonly PlacedFault[]): CarView {
  const sound = <T>(list: string): (T | undefined)[] => {
    if (broken.some(({ path }) => path[0] === list && path.length === 1)) return [];
    const bad = new Set(broken.filter(({ path }) => path[0] === list).map(({ path }) => path[1]));
    const entries = file[list];
    return Array.isArray(entries) ? entries.map((entry, i) => (bad.has(i) ? undefined : (entry as unknown as T))) : [];
  };
  const parts = sound<Part>('parts');
  const malformedIds = new Set<string>();
  let nameless = false;
  const vague = new Set(broken.map(({ path }) => path[0]));
  const rawParts = Array.isArray(file['parts']) ? file['parts'] : [];
  parts.forEach((part, i) => {
    const raw = rawParts[i];
    const id =
      part === undefined && typeof raw === 'object' && raw !== null && !Array.isArray(raw) ? raw['id'] : undefined;
    if (typeof id === 'string') malformedIds.add(id);
    else if (part === undefined) nameless = true;
  });
  const partById = new Map(parts.flatMap((part) => (part === undefined ? [] : [[part.id, part] as const])));
  const movers = sound<Mover>('movers');
  const origins = sound<Origin>('origins').filter((origin) => origin !== undefined);
  return {
    car: file as unknown as Car,
    parts,
    movers,
    moverIds: new Set(movers.flatMap((mover) => mover?.id ?? [])),
    originById: new Map(origins.map((origin) => [origin.id, origin])),
    knownPoints: new Set(origins.flatMap((origin) => origin.points.map((point) => `${origin.id}.${point.name}`))),
    lines: sound<Line>('lines'),
    origins: sound<Origin>('origins'),
    judges: (list) => !vague.has(list) || (list === 'parts' && malformedIds.size > 0 && !nameless),
    soundPart: (id) => partById.get(id),
    isMalformed: (id) => malformedIds.has(id),
  };
}

/** Tells every entry whose id stands a second time. */
export function tellTwice(ids: readonly (string | undefined)[], at: Path, key: string, tell: Tell): void {
  const first = new Map<string, number>();
  ids.forEach((id, i) => {
    if (id === undefined) return;
    const earlier = first.get(id);
    if (earlier === undefined) first.set(id, i);
    else tell([...at, i, key], `${shown(id)} a second time (first at ${placeOf([...at, earlier])})`, 'each id once');
  });
}
