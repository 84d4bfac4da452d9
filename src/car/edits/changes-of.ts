import { sub, type Vec } from '#geometry';
import type { Json } from '../json-text.ts';
import { findLine, findPort, splitPortRef } from '../lookups.ts';
import type { Car, Port } from '../schema/car.ts';
import { CarEditError } from './car-edit-error.ts';
import type { Change, ChangePath } from './change.ts';
import type { Edit } from './edit.ts';
import { followersOf } from './followers.ts';
import { leftBehind, leftByOpenings } from './left-behind.ts';
import { movedPart, movedPort, partMotion } from './moved-part.ts';

type EditOf<Do extends Edit['do']> = Extract<Edit, { do: Do }>;
type Simple = Exclude<Edit, { do: 'several' }>;

/** Lists that an edit sets whole, by the edit. */
const wholeLists = {
  'set-fluids': 'fluids',
  'set-sheets': 'sheets',
  'set-box': 'box',
  'set-accepted': 'accepted',
  'set-rule-packs': 'rulePacks',
  'set-run-days': 'runDays',
} as const;

const isWholeList = (edit: Simple): edit is EditOf<keyof typeof wholeLists> => edit.do in wholeLists;

const END = Number.MAX_SAFE_INTEGER;

/** An edit as the smallest steps that make it up, against the car as it stands. */
export function changesOf(car: Car, edit: Simple): readonly Change[] {
  if (isWholeList(edit)) return [set([wholeLists[edit.do]], edit.rows)];
  switch (edit.do) {
    case 'restore':
      return edit.changes;
    case 'set-name':
      return [set(['name'], edit.name)];
    case 'set-part':
      return [set(['parts', `#${edit.part}`, edit.field], edit.value)];
    case 'set-port':
      return portField(car, edit);
    case 'set-line':
      return [set(['lines', `#${edit.line}`, edit.field], edit.value)];
    case 'set-mover':
      return [set(['movers', `#${edit.mover}`, edit.field], edit.value)];
    case 'set-origin':
      return [set(['origins', `#${edit.origin}`, edit.field], edit.value)];
    case 'set-case':
      return [set(['cases', `#${edit.case}`, edit.field], edit.value)];
    case 'set-circuit':
      return [set(['circuits', `#${edit.circuit}`, edit.field], edit.value)];
    case 'set-panel':
      return [set(['panels', `#${edit.panel}`, edit.field], edit.value), ...leftByOpenings(car, edit)];
    case 'set-lever':
      return [set(['levers', `#${edit.lever}`, edit.field], edit.value)];
    case 'set-bay':
      return [set(['bays', `#${edit.bay}`, edit.field], edit.value)];
    case 'set-heat-reading':
      return [set(['heatReadings', `#${edit.reading}`, edit.field], edit.value)];
    case 'set-workshop':
      return [set(['workshop'], edit.value)];
    case 'set-state':
      return [set(['lines', `#${edit.line}`, 'state'], edit.state)];
    case 'take-way':
      return [set(['lines', `#${edit.line}`, 'taken'], edit.way)];
    case 'set-keep-off':
      return inGroup(car, 'keepOffMm', edit.class, edit.keepOffMm);
    case 'set-catalogue':
      return inGroup(car, 'catalogue', edit.table, edit.rows);
    case 'move-part':
      return moving(car, edit);
    case 'swap-ports':
      return swapping(car, edit);
    default:
      return entryChanges(car, edit);
  }
}

type EntryEdit = Extract<Edit, { do: `add-${string}` | `remove-${string}` }>;

function entryChanges(car: Car, edit: EntryEdit): readonly Change[] {
  switch (edit.do) {
    case 'add-part':
      return [put(['parts'], edit.part, edit.index)];
    case 'remove-part':
      return [...leftBehind(car, { part: edit.part }), { kind: 'remove', at: ['parts', `#${edit.part}`] }];
    case 'add-port':
      return [put(['parts', `#${edit.part}`, 'ports'], edit.port, edit.index)];
    case 'remove-port':
      return [{ kind: 'remove', at: portPath(edit.port) }];
    case 'add-line':
      return [put(['lines'], edit.line, edit.index)];
    case 'remove-line':
      return [...leftBehind(car, { line: edit.line }), { kind: 'remove', at: ['lines', `#${edit.line}`] }];
    case 'add-mover':
      return [put(['movers'], edit.mover, edit.index)];
    case 'remove-mover':
      return [{ kind: 'remove', at: ['movers', `#${edit.mover}`] }];
    case 'add-origin':
      return [...(car.origins === undefined ? [set(['origins'], [])] : []), put(['origins'], edit.origin, edit.index)];
    case 'remove-origin':
      return [{ kind: 'remove', at: ['origins', `#${edit.origin}`] }];
    case 'add-case':
      return [...(car.cases === undefined ? [set(['cases'], [])] : []), put(['cases'], edit.case, edit.index)];
    case 'remove-case':
      return [...leftBehind(car, { case: edit.case }), { kind: 'remove', at: ['cases', `#${edit.case}`] }];
    case 'add-circuit':
      return [
        ...(car.circuits === undefined ? [set(['circuits'], [])] : []),
        put(['circuits'], edit.circuit, edit.index),
      ];
    case 'remove-circuit':
      return [{ kind: 'remove', at: ['circuits', `#${edit.circuit}`] }];
    case 'add-panel':
      return [...(car.panels === undefined ? [set(['panels'], [])] : []), put(['panels'], edit.panel, edit.index)];
    case 'remove-panel':
      return [...leftBehind(car, { panel: edit.panel }), { kind: 'remove', at: ['panels', `#${edit.panel}`] }];
    case 'add-lever':
      return [...(car.levers === undefined ? [set(['levers'], [])] : []), put(['levers'], edit.lever, edit.index)];
    case 'remove-lever':
      return [{ kind: 'remove', at: ['levers', `#${edit.lever}`] }];
    default:
      return heatEntryChanges(car, edit);
  }
}

function heatEntryChanges(car: Car, edit: EntryEdit): readonly Change[] {
  switch (edit.do) {
    case 'add-bay':
      return [...(car.bays === undefined ? [set(['bays'], [])] : []), put(['bays'], edit.bay, edit.index)];
    case 'remove-bay':
      return [...leftBehind(car, { bay: edit.bay }), { kind: 'remove', at: ['bays', `#${edit.bay}`] }];
    case 'add-heat-reading':
      return [
        ...(car.heatReadings === undefined ? [set(['heatReadings'], [])] : []),
        put(['heatReadings'], edit.reading, edit.index),
      ];
    case 'remove-heat-reading':
      return [{ kind: 'remove', at: ['heatReadings', `#${edit.reading}`] }];
    default:
      throw new CarEditError([], `"${String((edit as { do: unknown }).do)}" is no edit`);
  }
}

function set(at: ChangePath, value: unknown): Change {
  return value === undefined ? { kind: 'set', at } : { kind: 'set', at, value: value as Json };
}

function put(at: ChangePath, value: unknown, index = END): Change {
  return { kind: 'insert', at, index, value: value as Json };
}

function portPath(ref: string): ChangePath {
  const { part, port } = splitPortRef(ref);
  return ['parts', `#${part}`, 'ports', `#${port}`];
}

/** A place set by hand ends the measurements; the place they gave stays until it is set. */
function portField(car: Car, edit: EditOf<'set-port'>): readonly Change[] {
  const path = portPath(edit.port);
  const port = findPort(car, edit.port)?.port;
  if (port === undefined) throw new CarEditError(path, `there is no port ${edit.port}`);
  const own = set([...path, edit.field], edit.value);
  const along =
    edit.field === 'atMm' && edit.value !== undefined ? shifting(car, edit.port, sub(edit.value, port.atMm)) : [];
  if (port.measured === undefined || (edit.field !== 'atMm' && edit.field !== 'knownToMm')) return [own, ...along];
  const end = set([...path, 'measured'], undefined);
  return edit.field === 'atMm' ? [end, own, set([...path, 'knownToMm'], undefined), ...along] : [end, own];
}

/** What follows a port goes with it by as much as it was measured to be elsewhere. */
export function shifting(car: Car, port: string, byMm: Vec): readonly Change[] {
  if (byMm.every((mm) => mm === 0)) return [];
  const { parts, ports } = followersOf(car, port);
  return [...[...parts].flatMap((id) => partMoving(car, id, { byMm })), ...portsMoving(car, ports, { byMm })];
}

function inGroup(car: Car, group: 'keepOffMm' | 'catalogue', key: string, value: unknown): readonly Change[] {
  return [...(car[group] === undefined ? [set([group], {})] : []), set([group, key], value)];
}

interface Motion {
  readonly byMm: Vec;
  readonly turnDeg?: Vec;
  readonly aboutMm?: Vec;
}

function moving(car: Car, edit: EditOf<'move-part'>): readonly Change[] {
  const { parts, ports } = followersOf(car, edit.part);
  return [edit.part, ...parts].flatMap((id) => partMoving(car, id, edit)).concat(portsMoving(car, ports, edit));
}

function partMoving(car: Car, id: string, { byMm, turnDeg, aboutMm }: Motion): readonly Change[] {
  const part = car.parts.find((candidate) => candidate.id === id);
  const path = ['parts', `#${id}`];
  if (part === undefined) throw new CarEditError(path, `there is no part ${id}`);
  const moved = movedPart(part, byMm, turnDeg, aboutMm);
  return [
    ...(part.shapes.length === 0 ? [] : [set([...path, 'shapes'], moved.shapes)]),
    ...(moved.fasteners === undefined ? [] : [set([...path, 'fasteners'], moved.fasteners)]),
    ...(moved.pulls === undefined || moved.pulls === part.pulls ? [] : [set([...path, 'pulls'], moved.pulls)]),
    ...moved.ports.flatMap((port, i) => portMoving(part.ports[i]!, port, [...path, 'ports', `#${port.id}`])),
  ];
}

function portsMoving(car: Car, refs: Iterable<string>, { byMm, turnDeg, aboutMm }: Motion): readonly Change[] {
  const motion = partMotion(byMm, turnDeg, aboutMm);
  const isTurned = turnDeg?.some((angle) => angle !== 0) ?? false;
  return [...refs].flatMap((ref) => {
    const was = findPort(car, ref)?.port;
    return was === undefined ? [] : portMoving(was, movedPort(was, motion, isTurned), portPath(ref));
  });
}

function portMoving(was: Port, port: Port, at: ChangePath): readonly Change[] {
  const faces = was.faces === port.faces ? [] : [set([...at, 'faces'], port.faces)];
  const place = set([...at, 'atMm'], port.atMm);
  if (was.measured === undefined) return [place, ...faces];
  return [set([...at, 'measured'], undefined), place, ...faces];
}

/** A line on one of the two ports goes to the other. A way taken between other ports is no longer this line's. */
function swapping(car: Car, edit: EditOf<'swap-ports'>): readonly Change[] {
  for (const ref of [edit.a, edit.b])
    if (findPort(car, ref) === undefined) throw new CarEditError(portPath(ref), `there is no port ${ref}`);
  const other = new Map([
    [edit.a, edit.b],
    [edit.b, edit.a],
  ]);
  return car.lines.flatMap((line) => {
    const ends = (['from', 'to'] as const).flatMap((key) => {
      const next = other.get(line[key]);
      return next === undefined ? [] : [set(['lines', `#${line.id}`, key], next)];
    });
    const isTaken = findLine(car, line.id)?.taken !== undefined;
    return ends.length > 0 && isTaken ? [...ends, set(['lines', `#${line.id}`, 'taken'], undefined)] : ends;
  });
}
