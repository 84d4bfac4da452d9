import {
  type Car,
  type Duty,
  type Edit,
  findPort,
  type Line,
  type Part,
  type PartClass,
  type Port,
  type PortEnd,
} from '#car';
import { type SizeDraft, lineSize, sizeOfEnds } from './line-size.ts';
import { newId, newLineId } from './new-id.ts';
import { emptyPort, type PortDraft, portOfDraft } from './port-draft.ts';
import { endFrom } from './port-ends.ts';
import type { TapeUnit } from './tape-text.ts';

/** One end of the line: a port that is on the car, or a new one. */
export interface EndDraftOf {
  /** "part.port" of the car; "" for a new one. */
  readonly use: string;
  readonly part: string;
  readonly name: string;
  readonly port: PortDraft;
}

export interface JoinDraft {
  readonly ends: readonly [EndDraftOf, EndDraftOf];
  /** A port that is measured in the same go and joined later. */
  readonly third: EndDraftOf | null;
  readonly duty: Duty;
  /** null: as the ports say. */
  readonly size: SizeDraft | null;
}

export const emptyEnd = (way: 'rearward' | 'forward'): EndDraftOf => ({
  use: '',
  part: '',
  name: '',
  port: emptyPort(way),
});

export const emptyJoin: JoinDraft = {
  ends: [emptyEnd('rearward'), emptyEnd('forward')],
  third: null,
  duty: 'oil-pressure',
  size: null,
};

/** The part that a name means: one of the car by its name or id, whatever the letters' case. */
export function partNamed(parts: readonly Part[], name: string): Part | undefined {
  const wanted = name.trim().toLowerCase();
  return parts.find((part) => part.id.toLowerCase() === wanted || part.name?.toLowerCase() === wanted);
}

const endOf = (car: Car, end: EndDraftOf, unit: TapeUnit): PortEnd | undefined => {
  if (end.use !== '') return findPort(car, end.use)?.port.end;
  const read = endFrom(end.port.end, unit);
  return read.ok ? read.value : undefined;
};

/** The size of the line: what was picked, or what the ports say. */
export const sizeOf = (car: Car, draft: JoinDraft, unit: TapeUnit): SizeDraft =>
  draft.size ?? sizeOfEnds(draft.ends.map((end) => endOf(car, end, unit)));

export type Joined =
  | { readonly ok: true; readonly edits: readonly Edit[]; readonly line: string }
  /** What is still missing, in one line, and at which end. */
  | { readonly ok: false; readonly fault: string };

const END_WORDS = ['From', 'To', 'The third port'] as const;
const PLAIN_CLASS: PartClass = 'fixed';

/** The edits that put the ports and the line on the car, in one step; a part that is not there yet is added without a shape. */
export function joinEdits(car: Car, draft: JoinDraft, unit: TapeUnit): Joined {
  const added: Part[] = [];
  const ports: Edit[] = [];
  const refs: string[] = [];
  const wanted = draft.third === null ? draft.ends : [...draft.ends, draft.third];
  for (const [i, end] of wanted.entries()) {
    const put = putEnd(car, end, i, added, ports, unit);
    if ('fault' in put) return { ok: false, fault: `${END_WORDS[i]!}: ${put.fault}` };
    refs.push(put.ref);
  }
  if (refs[0] === refs[1]) return { ok: false, fault: 'To: the same port as From; another one is wanted' };
  const size = lineSize(sizeOf(car, draft, unit), unit);
  if (!size.ok) return { ok: false, fault: `The line: ${size.fault}` };
  const line: Line = {
    id: newLineId(
      draft.duty,
      car.lines.map(({ id }) => id),
    ),
    from: refs[0]!,
    to: refs[1]!,
    duty: draft.duty,
    ...size.value,
    pieces: [],
    through: [],
    state: 'planned',
  };
  const parts = added.map((part): Edit => ({ do: 'add-part', part }));
  return { ok: true, line: line.id, edits: [{ do: 'several', edits: [...parts, ...ports, { do: 'add-line', line }] }] };
}

function putEnd(
  car: Car,
  end: EndDraftOf,
  i: number,
  added: Part[],
  ports: Edit[],
  unit: TapeUnit,
): { readonly ref: string } | { readonly fault: string } {
  if (end.use !== '')
    return findPort(car, end.use) === undefined ? { fault: 'that port is no longer on the car' } : { ref: end.use };
  if (end.part.trim() === '') return { fault: 'the part that the port is on has no name yet' };
  const old = partNamed(car.parts, end.part);
  const fresh = partNamed(added, end.part);
  const mine = ports.flatMap((edit) => (edit.do === 'add-port' && edit.part === old?.id ? [edit.port.id] : []));
  const takenPorts = [...((old ?? fresh)?.ports.map(({ id }) => id) ?? []), ...mine];
  const port = portOfDraft(car, newId(end.name, takenPorts, ['out', 'in', 'port'][i]!), end.port, unit);
  if (port === undefined) return { fault: 'something about the port is missing or cannot be read; it is marked' };
  const named: Port = end.name.trim() === '' ? port : { ...port, name: end.name.trim() };
  if (old !== undefined) {
    ports.push({ do: 'add-port', part: old.id, port: named });
    return { ref: `${old.id}.${named.id}` };
  }
  if (fresh !== undefined) {
    added[added.indexOf(fresh)] = { ...fresh, ports: [...fresh.ports, named] };
    return { ref: `${fresh.id}.${named.id}` };
  }
  const id = newId(
    end.part,
    [...car.parts, ...added].map((part) => part.id),
    'part',
  );
  added.push({ id, name: end.part.trim(), class: PLAIN_CLASS, shapes: [], ports: [named] });
  return { ref: `${id}.${named.id}` };
}
