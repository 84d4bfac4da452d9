import type { Json } from '../json-text.ts';
import { openingRefs } from '../checks/opening-refs.ts';
import type { Car, HeatReading } from '../schema/car.ts';
import type { Change, ChangePath } from './change.ts';

/** What comes off the car: exactly one of these. */
export interface Gone {
  readonly part?: string;
  readonly line?: string;
  readonly case?: string;
  readonly panel?: string;
  readonly bay?: string;
}

/**
 * What else names a thing that comes off the car and would hang in the air: temperatures read on it, what draws air from a bay there,
 * pressures outside its openings, cases that begin where it ends, what is screwed into it or sits on it, work planned on it. It goes in the same step, so that an undo brings all of it back.
 */
export function leftBehind(car: Car, gone: Gone): readonly Change[] {
  const isOf = (row: HeatReading) =>
    (['part', 'line', 'case', 'panel', 'bay'] as const).some(
      (kind) => gone[kind] !== undefined && row[kind] === gone[kind],
    );
  return [
    ...listWithout(['heatReadings'], car.heatReadings, (row) => !isOf(row)),
    ...(gone.part === undefined ? [] : byPart(car, gone.part)),
    ...(gone.case === undefined ? [] : byCase(car, gone.case)),
    ...(gone.panel === undefined ? [] : byPanel(car, gone.panel)),
    ...[gone.part, gone.line, gone.panel].flatMap((id) => (id === undefined ? [] : byStripDown(car, id))),
    ...(gone.bay === undefined
      ? []
      : byOpenings(car, { ...car, bays: car.bays?.filter((row) => row.id !== gone.bay) })),
  ];
}

/** Pressures and fans at windows and holes that a panel no longer has once this field of it is set. */
export function leftByOpenings(
  car: Car,
  edit: { readonly panel: string; readonly field: string; readonly value?: unknown },
): readonly Change[] {
  if (!['windows', 'holes', 'mirrorOf'].includes(edit.field)) return [];
  const panels = car.panels?.map((panel) => (panel.id === edit.panel ? { ...panel, [edit.field]: edit.value } : panel));
  return byOpenings(car, { ...car, panels } as Car);
}

const byPart = (car: Car, id: string): readonly Change[] =>
  (car.bays ?? []).flatMap((bay) =>
    listWithout(['bays', `#${bay.id}`, 'intakes'], bay.intakes, (row) => row.part !== id),
  );

/** What is screwed into it keeps its fasteners, what sat on it sits on the rest. */
function byStripDown(car: Car, id: string): readonly Change[] {
  const stays = (other: string): boolean => other !== id;
  const breaks = car.workshop?.breaks;
  return [
    ...car.parts
      .filter((part) => part.id !== id)
      .flatMap((part) => [
        ...listWithout(['parts', `#${part.id}`, 'sitsOn'], part.sitsOn, stays),
        ...listWithout(['parts', `#${part.id}`, 'comesAfter'], part.comesAfter, stays),
        ...(part.fasteners?.some(({ into }) => into === id)
          ? [
              withFasteners(
                part.id,
                part.fasteners.map(({ into, ...row }) => (into === undefined || into === id ? row : { ...row, into })),
              ),
            ]
          : []),
      ]),
    ...(breaks?.some(({ jobs }) => jobs?.includes(id))
      ? [
          {
            kind: 'set',
            at: ['workshop', 'breaks'],
            value: breaks.map(({ jobs, ...row }) =>
              jobs === undefined ? row : { ...row, jobs: jobs.filter(stays) },
            ) as unknown as Json,
          } as const,
        ]
      : []),
  ];
}

const withFasteners = (part: string, rows: readonly object[]): Change => ({
  kind: 'set',
  at: ['parts', `#${part}`, 'fasteners'],
  value: rows as unknown as Json,
});

const byCase = (car: Car, id: string): readonly Change[] => [
  ...car.parts.flatMap((part) =>
    listWithout(['parts', `#${part.id}`, 'surfaceByCase'], part.surfaceByCase, (row) => row.case !== id),
  ),
  ...(car.cases ?? [])
    .filter((row) => row.after === id && row.id !== id)
    .map((row): Change => ({ kind: 'set', at: ['cases', `#${row.id}`, 'after'] })),
];

const byPanel = (car: Car, id: string): readonly Change[] => [
  // An empty list stays: none is not the same as all that have a corner in the box.
  ...(car.bays ?? [])
    .filter((bay) => bay.panels?.includes(id))
    .map((bay): Change => {
      const value = bay.panels!.filter((panel) => panel !== id);
      return { kind: 'set', at: ['bays', `#${bay.id}`, 'panels'], value };
    }),
  ...(car.cases ?? []).flatMap((row) =>
    listWithout(['cases', `#${row.id}`, 'coversOff'], row.coversOff, (panel) => panel !== id),
  ),
  ...byOpenings(car, { ...car, panels: car.panels?.filter((panel) => panel.id !== id) }),
];

/** What names an opening that was there and is not after the step. */
function byOpenings(car: Car, then: Car): readonly Change[] {
  const was = openingRefs(car);
  const stays = openingRefs(then);
  const isLost = (ref: string | undefined) => ref !== undefined && was.has(ref) && !stays.has(ref);
  return [
    ...(car.cases ?? []).flatMap((row) =>
      listWithout(['cases', `#${row.id}`, 'pressures'], row.pressures, (pressure) => !isLost(pressure.at)),
    ),
    ...(then.bays ?? [])
      .filter((bay) => isLost(bay.fan?.opening))
      .map((bay): Change => ({ kind: 'set', at: ['bays', `#${bay.id}`, 'fan'] })),
  ];
}

/** The list without what goes; no list at all where nothing stays. */
function listWithout<T>(at: ChangePath, rows: readonly T[] | undefined, stays: (row: T) => boolean): readonly Change[] {
  const left = rows?.filter(stays) ?? [];
  if (rows === undefined || left.length === rows.length) return [];
  return [{ kind: 'set', at, ...(left.length === 0 ? {} : { value: left as unknown as Json }) }];
}
