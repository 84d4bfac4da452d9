import type { Edit } from '#car';

type Simple = Exclude<Edit, { do: 'several' }>;

/** A change in a few words: "O8: way taken; Oil tank moved". */
export const editWords = (edits: readonly Edit[]): string => joined(simple(edits).map((edit) => oneEdit(edit)));

/** The same with what a field was set to, where that is short: "tank: name is now Oil tank". */
export const toldWords = (edits: readonly Edit[]): string =>
  joined(simple(edits).map((edit) => `${oneEdit(edit)}${valueWords(edit)}`));

const MOST = 4;

// A signature goes with the state that it signs.
const simple = (edits: readonly Edit[]): readonly Simple[] =>
  edits
    .flatMap((edit): readonly Simple[] => (edit.do === 'several' ? simple(edit.edits) : [edit]))
    .filter((edit, _, all) => !isSignature(edit) || all.every(isSignature));

const isSignature = (edit: Edit): boolean => edit.do === 'set-line' && edit.field === 'signed';

function joined(all: readonly string[]): string {
  const words = [...new Set(all)];
  if (words.length <= MOST) return words.join('; ');
  return `${words.slice(0, MOST).join('; ')}; and ${words.length - MOST} more`;
}

const numbers = (by: readonly number[]): string => by.map((mm) => `${Math.round(mm * 10) / 10}`).join(', ');
const field = (name: string): string => name.replaceAll(/([A-Z])/g, ' $1').toLowerCase();

/** What the things of a car are called, and what is said where one is put on or taken off. */
const things = {
  part: ['', 'part', 'on'],
  port: ['', 'port', 'on'],
  line: ['', 'line', 'on'],
  mover: ['', 'mover', 'on'],
  origin: ['', 'origin', 'on'],
  case: ['case ', 'case', 'in'],
  circuit: ['circuit ', 'circuit', 'in'],
  panel: ['panel ', 'panel', 'in'],
  lever: ['lever ', 'lever', 'in'],
  bay: ['bay ', 'bay', 'in'],
  'heat-reading': ['temperature ', 'temperature', 'in'],
} as const;

const off = { on: 'off', in: 'out' } as const;

const wholes: Readonly<Partial<Record<Simple['do'], string>>> = {
  'set-name': 'car named',
  'set-box': 'box counted',
  'set-accepted': 'snags accepted',
  'set-rule-packs': 'rules entered',
  'set-run-days': 'run days entered',
  'set-fluids': 'fluids entered',
  'set-sheets': 'sheets at hand entered',
  'set-workshop': 'workshop set',
  restore: 'gone back',
};

function oneEdit(edit: Simple): string {
  switch (edit.do) {
    case 'set-keep-off':
      return `keep-off of ${edit.class}`;
    case 'move-part':
      return `${edit.part} moved by ${numbers(edit.byMm)} mm`;
    case 'swap-ports':
      return `${edit.a} and ${edit.b} swapped`;
    case 'set-state':
      return `${edit.line} is ${edit.state}`;
    case 'take-way':
      return edit.way === undefined ? `${edit.line}: way given up` : `${edit.line}: way taken`;
    case 'set-catalogue':
      return `own ${edit.table}`;
    default:
      return wholes[edit.do] ?? thingWords(edit);
  }
}

/** One field of a thing set; a thing put on, or taken off. */
function thingWords(edit: Simple): string {
  const [does = '', kind = ''] = /^(set|add|remove)-(.+)$/.exec(edit.do)?.slice(1) ?? [];
  const row = things[kind as keyof typeof things];
  if (row === undefined) return edit.do.replaceAll('-', ' ');
  const [before, name, where] = row;
  const own = (edit as unknown as Readonly<Record<string, unknown>>)[kind === 'heat-reading' ? 'reading' : kind];
  if (does === 'set') return `${before}${String(own)}: ${field((edit as { field: string }).field)}`;
  if (does === 'remove') return `${name} ${String(own)} taken ${off[where]}`;
  const { id } = own as { id: string };
  return `${name} ${edit.do === 'add-port' ? `${edit.part}.${id}` : id} put ${where}`;
}

/** Longest text that is told whole. */
const LONGEST = 60;

function valueWords(edit: Simple): string {
  if (edit.do === 'set-name') return edit.name === undefined ? '' : ` ${edit.name}`;
  if (!('field' in edit)) return '';
  const { value } = edit as { readonly value?: unknown };
  if (value === undefined) return ' taken out';
  const isShort = Array.isArray(value) ? value.every((one) => typeof one === 'number') : typeof value !== 'object';
  const text = Array.isArray(value) ? numbers(value as number[]) : String(value);
  return isShort && text.length <= LONGEST ? ` is now ${text}` : ' changed';
}
