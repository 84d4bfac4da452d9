import type { Car, Fastener } from '#car';
import { spannerSize } from '#units';
import type { StripUndo } from './strip-answer.ts';

/** How things of a car are called in a strip-down: in full, and short within a sentence. */
export interface StripNames {
  /** "Turbo catch pot, 0.35 L, hung from the turbo"; lines and panels with their id in front, as on their tags. */
  readonly full: (id: string) => string;
  /** Up to the first comma, where nothing else of the car is called so: "Turbo catch pot". */
  readonly short: (id: string) => string;
}

export function stripNames({ parts, panels = [], lines }: Car): StripNames {
  const tagged = ({ id, name }: { readonly id: string; readonly name?: string | undefined }) =>
    [id, name === undefined || name === id ? id : `${id} ${name}`] as const;
  const names = new Map<string, string>([
    ...parts.map(({ id, name }) => [id, name ?? id] as const),
    ...panels.map(tagged),
    ...lines.map(tagged),
  ]);
  const full = (id: string): string => names.get(id) ?? id;
  const head = (name: string): string => name.split(',')[0]!.trim();
  const heads = new Map<string, number>();
  for (const name of names.values()) heads.set(head(name), (heads.get(head(name)) ?? 0) + 1);
  return { full, short: (id) => (heads.get(head(full(id))) === 1 ? head(full(id)) : full(id)) };
}

/** Kinds of fastening as one of them and several are called. */
const HEADS: Readonly<Record<Fastener['head'], readonly [string, string]>> = {
  hexagon: ['hexagon bolt', 'hexagon bolts'],
  nut: ['nut', 'nuts'],
  socket: ['socket screw', 'socket screws'],
  clip: ['clip', 'clips'],
  'quarter-turn': ['quarter-turn', 'quarter-turns'],
  rivet: ['rivet', 'rivets'],
  'v-band': ['V-band', 'V-bands'],
  hand: ['by hand', 'by hand'],
};

/** What a fastening is and which tool it takes: "M6 nut, socket 10 mm". */
export function fasteningKind({ head, size, acrossFlatsMm }: Fastener): StripUndo['is'] & object {
  const [one, more] = HEADS[head];
  const thread = size === undefined || head === 'hand' ? '' : `${size} `;
  const tool =
    acrossFlatsMm === undefined || head === 'hand' || head === 'rivet' || head === 'quarter-turn'
      ? ''
      : `, ${head === 'socket' ? 'hex-key' : 'socket'} ${spannerSize(acrossFlatsMm)}`;
  return { one: `${thread}${one}${tool}`, more: `${thread}${more}${tool}` };
}

/** The names of like things, what they are of said once: "nut-1, nut-2 of Manifold". */
function namesOf(words: readonly string[]): string {
  const parted = words.map((name) => /^(\S+)( of .+)$/u.exec(name) ?? undefined);
  const [first] = parted;
  const isOfOne = first !== undefined && parted.every((one) => one?.[2] === first[2]);
  return isOfOne ? `${parted.map((one) => one![1]).join(', ')}${first[2]}` : words.join(', ');
}

/** What is undone, like with like, and of which the same is to be said: "2 M6 nuts, socket 10 mm: nut-1, nut-2". */
export function undoneWords(rows: readonly StripUndo[]): string[] {
  const groups = new Map<string, StripUndo[]>();
  for (const row of rows) {
    const key = row.is === undefined ? row.id : [row.is.one, row.isReached, row.tool?.words].join('|');
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  return [...groups.values()].map((group) => {
    const [{ is, isReached, tool }] = group as [StripUndo];
    const names = namesOf(group.map(({ words }) => words));
    const each = group.length === 1 ? '' : 'each: ';
    const kind = is === undefined ? '' : group.length === 1 ? `${is.one}: ` : `${group.length} ${is.more}: `;
    return [
      `${kind}${names}`,
      ...(isReached ? [] : [`(${each}no hand found a straight way)`]),
      ...(tool === undefined ? [] : [`(${each}${tool.words})`]),
    ].join(' ');
  });
}
