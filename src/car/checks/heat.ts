import { finishes } from '#standards';
import type { Path } from '../fault.ts';
import { shown } from '../fault.ts';
import type { BaySpace, Case, HeatReading } from '../schema/car.ts';
import type { CarView, Tell } from './car-view.ts';
import { tellTwice } from './car-view.ts';
import { findNearest } from '../nearest.ts';
import { nearestOf } from './nearest-of.ts';
import { openingRefs } from './opening-refs.ts';

/** What the car's heat keys name: each id once, and cases, panels, openings, lines and parts that are on the car. */
export function checkHeat(view: CarView, sound: HeatLists, tell: Tell): void {
  const names = namesOf(view, sound);
  view.parts.forEach((part, i) => {
    checkFinish(part?.finish, ['parts', i, 'finish'], tell);
    checkFinish(part?.cover?.finish, ['parts', i, 'cover', 'finish'], tell);
    part?.surfaceByCase?.forEach((row, k) =>
      names.told('case', row.case, ['parts', i, 'surfaceByCase', k, 'case'], tell),
    );
    tellTwice(part?.surfaceByCase?.map((row) => row.case) ?? [], ['parts', i, 'surfaceByCase'], 'case', tell);
  });
  if (sound.cases) (view.car.cases ?? []).forEach((row, i) => checkCase(row, ['cases', i], names, tell));
  if (sound.panels)
    (view.car.panels ?? []).forEach((panel, i) => {
      checkFinish(panel.finish, ['panels', i, 'finish'], tell);
      checkFinish(panel.insideFinish, ['panels', i, 'insideFinish'], tell);
    });
  if (sound.bays) checkBays(view.car.bays ?? [], names, tell);
  if (sound.heatReadings) {
    const readings = view.car.heatReadings ?? [];
    tellTwice(
      readings.map((row) => row.id),
      ['heatReadings'],
      'id',
      tell,
    );
    readings.forEach((row, i) => checkReading(row, ['heatReadings', i], names, tell));
  }
}

/** Which of the lists are well-formed: what lies in a malformed one is not judged. */
export interface HeatLists {
  readonly cases: boolean;
  readonly panels: boolean;
  readonly bays: boolean;
  readonly heatReadings: boolean;
}

type Kind = 'case' | 'panel' | 'part' | 'line' | 'bay' | 'opening';

interface Names {
  /** Tells where no such thing is on the car. */
  readonly told: (kind: Kind, id: string, at: Path, tell: Tell) => void;
  readonly panels: ReadonlySet<string>;
  readonly caseOf: (id: string) => Case | undefined;
}

const WORDS: Readonly<Record<Kind, string>> = {
  case: 'a case',
  panel: 'a panel',
  part: 'a part',
  line: 'a line',
  bay: 'a bay',
  opening: 'an opening of a bay, "panel.window" or a panel',
};

function namesOf(view: CarView, sound: HeatLists): Names {
  const { car } = view;
  const ids = (rows: readonly { readonly id: string }[] | undefined) => new Set((rows ?? []).map((row) => row.id));
  const linesWhole = view.lines.every((line) => line !== undefined);
  const known: Readonly<Record<Kind, ReadonlySet<string> | undefined>> = {
    case: sound.cases ? ids(car.cases) : undefined,
    panel: sound.panels ? ids(car.panels) : undefined,
    part: view.judges('parts') ? new Set(view.parts.flatMap((part) => part?.id ?? [])) : undefined,
    line: linesWhole ? new Set(view.lines.flatMap((line) => line?.id ?? [])) : undefined,
    bay: sound.bays ? ids(car.bays) : undefined,
    opening: sound.bays && sound.panels ? openingRefs(car) : undefined,
  };
  return {
    told: (kind, id, at, tell) => {
      const those = known[kind];
      if (those === undefined || those.has(id) || (kind === 'part' && view.isMalformed(id))) return;
      tell(
        at,
        shown(id),
        nearestOf(WORDS[kind], id, () => [...those]),
      );
    },
    panels: known.panel ?? new Set(),
    caseOf: (id) => (sound.cases ? car.cases?.find((row) => row.id === id) : undefined),
  };
}

/** A finish that no table has would be taken as some other without a word. */
function checkFinish(id: string | undefined, at: Path, tell: Tell): void {
  const known: readonly string[] = finishes.map((row) => row.id);
  if (id === undefined || known.includes(id)) return;
  tell(at, shown(id), () => {
    const nearest = findNearest(id, known);
    return `one of ${known.join(', ')}; or emissivity in its place${nearest === undefined ? '' : ` (nearest: ${nearest})`}`;
  });
}

function checkCase(row: Case, at: Path, names: Names, tell: Tell): void {
  row.pressures?.forEach((pressure, k) => names.told('opening', pressure.at, [...at, 'pressures', k, 'at'], tell));
  tellTwice(row.pressures?.map((pressure) => pressure.at) ?? [], [...at, 'pressures'], 'at', tell);
  row.coversOff?.forEach((id, k) => names.told('panel', id, [...at, 'coversOff', k], tell));
  if (row.after === undefined) return;
  if (row.after === row.id) tell([...at, 'after'], shown(row.after), 'another case than itself');
  else names.told('case', row.after, [...at, 'after'], tell);
  if (row.engineRpm !== 0)
    tell([...at, 'after'], `${shown(row.after)} at ${row.engineRpm} rpm`, 'after only in a case with engineRpm 0');
  const before = names.caseOf(row.after);
  if (before?.after !== undefined && before !== row)
    tell(
      [...at, 'after'],
      `${shown(row.after)}, which is itself after ${shown(before.after)}`,
      'a case that is running',
    );
}

function checkBays(bays: readonly BaySpace[], names: Names, tell: Tell): void {
  tellTwice(
    bays.map((bay) => bay.id),
    ['bays'],
    'id',
    tell,
  );
  const closedBy = new Map<string, string>();
  bays.forEach((bay, i) => {
    const at = ['bays', i] as const;
    checkBox(bay, at, tell);
    bay.panels?.forEach((id, k) => {
      names.told('panel', id, [...at, 'panels', k], tell);
      const other = closedBy.get(id);
      if (other !== undefined)
        tell([...at, 'panels', k], `${shown(id)}, which closes ${shown(other)}`, 'one bay a panel');
      else closedBy.set(id, bay.id);
    });
    const openings = bay.openings ?? [];
    tellTwice(
      openings.map((opening) => opening.id),
      [...at, 'openings'],
      'id',
      tell,
    );
    openings.forEach((opening, k) => {
      if (names.panels.has(opening.id))
        tell([...at, 'openings', k, 'id'], shown(opening.id), 'an id that no panel has');
    });
    if (bay.fan?.opening !== undefined) names.told('opening', bay.fan.opening, [...at, 'fan', 'opening'], tell);
    bay.intakes?.forEach((row, k) => names.told('part', row.part, [...at, 'intakes', k, 'part'], tell));
  });
}

function checkBox({ minMm, maxMm }: BaySpace, at: Path, tell: Tell): void {
  if (minMm.some((low, k) => low >= maxMm[k]!))
    tell(at, `minMm ${shown(minMm)}, maxMm ${shown(maxMm)}`, 'each of minMm less than that of maxMm');
}

function checkReading(row: HeatReading, at: Path, names: Names, tell: Tell): void {
  names.told('case', row.case, [...at, 'case'], tell);
  for (const kind of ['line', 'part', 'panel', 'bay'] as const)
    if (row[kind] !== undefined) names.told(kind, row[kind], [...at, kind], tell);
  if (row.alongMm !== undefined && row.line === undefined)
    tell([...at, 'alongMm'], shown(row.alongMm), 'that only beside line; a place on a part or panel is atMm');
  if (row.atMm !== undefined && row.part === undefined && row.panel === undefined)
    tell([...at, 'atMm'], shown(row.atMm), 'that only beside part or panel; a place on a line is alongMm');
  if (row.readC === undefined && row.belowC === undefined)
    tell(at, 'neither readC nor belowC', 'readC, belowC of a strip or paint, or both');
  if (row.belowC !== undefined && row.means !== 'strip' && row.means !== 'paint')
    tell([...at, 'belowC'], `${shown(row.belowC)} beside means ${shown(row.means)}`, 'that only of a strip or paint');
  if (row.readC !== undefined && row.belowC !== undefined && row.belowC <= row.readC)
    tell([...at, 'belowC'], `${row.belowC} beside readC ${row.readC}`, 'a mark above the last one that turned');
  if (row.atMin !== undefined && names.caseOf(row.case)?.engineRpm !== 0 && names.caseOf(row.case) !== undefined)
    tell(
      [...at, 'atMin'],
      `${row.atMin} in ${shown(row.case)}, which is running`,
      'that only in a case with engineRpm 0',
    );
}
