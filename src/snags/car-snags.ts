import { type Car, carNotes } from '#car';
import type { LinesWorld } from '#lines';
import { type Finding, describeSource } from '#sources';
import { boxSnags } from './box-snags.ts';
import { measuredSnags } from './measured-snags.ts';
import type { Opens } from './opened/opened-number.ts';
import { partWords } from './part-words.ts';
import type { Question, Snag } from './snag.ts';

/** A finding of any room, with what it is about where the room knows. */
export interface ExtraFinding extends Finding {
  readonly line?: string;
  readonly part?: string;
  readonly question?: Question;
  readonly cures?: readonly string[];
  readonly advice?: readonly string[];
  /** What its number is made of, for whoever opens it. */
  readonly opens?: Opens;
}

/** What is open about the car itself: how things stand, how they were measured, what passes through panels, what the lists say. */
export function carSnags(world: LinesWorld): Snag[] {
  return [
    ...world.bay.warnings.map((finding) => findingSnag({ ...finding, ...aboutPort(world, finding) })),
    ...noteSnags(world.car),
    ...measuredSnags(world.car),
    ...catalogueSnags(world),
    ...boxSnags(world.car, world.shelf),
    ...sealSnags(world.car),
  ];
}

/** To two digits; to more where it would read as the limit that it is not. */
function roundedBeside(value: number, limit: number | undefined): number {
  for (const digits of [2, 3, 4, 5]) {
    const rounded = Number(value.toFixed(digits));
    if (limit === undefined || rounded !== limit || value === limit) return rounded;
  }
  return value;
}

/** A finding as a snag; the id holds its code and what it is about, so that it stays the same from run to run. */
export function findingSnag(finding: ExtraFinding): Snag {
  const { code, level, text, value, limit, unit, place, line, part } = finding;
  const about = line ?? part ?? text.split(' ')[0] ?? '';
  return {
    id: `${about}-${code}`.replaceAll(/[\s.:"]+/g, '-'),
    kind: code,
    level,
    question: finding.question ?? 'fit',
    ...(line === undefined ? {} : { line }),
    ...(part === undefined ? {} : { part }),
    text: /[.!?]$/.test(text) ? text : `${text}.`,
    ...(value === undefined ? {} : { value: roundedBeside(value, limit) }),
    ...(limit === undefined ? {} : { limit }),
    ...(unit === undefined ? {} : { unit }),
    source: describeSource(finding.source),
    ...(place === undefined ? {} : { atMm: place }),
    cures: [...(finding.cures ?? [])],
    ...(finding.advice === undefined || finding.advice.length === 0 ? {} : { advice: [...finding.advice] }),
    ...(finding.opens === undefined ? {} : { opens: finding.opens }),
  };
}

const portCures: Readonly<Record<string, readonly string[]>> = {
  'port-inside': ['measure the port and that part again; one of them stands elsewhere'],
  'port-inside-own': ['the port face belongs at the surface: measure port and part again'],
  'port-off-part': [
    'the boss or spigot between port and part is missing from its shapes, or one of the two is measured wrong',
  ],
};

function aboutPort({ bay }: LinesWorld, finding: Finding): { part?: string; cures: readonly string[] } {
  const ref = finding.text.split(' ')[0] ?? '';
  const port = bay.ports.get(ref);
  const part =
    port?.partId ??
    bay.parts.find((p) => finding.text.startsWith(`${p.id}:`) || finding.text.startsWith(`${p.id} `))?.id;
  return { ...(part === undefined ? {} : { part }), cures: portCures[finding.code] ?? [] };
}

function noteSnags(car: Car): Snag[] {
  return carNotes(car).flatMap((note): Snag[] => {
    const at = /^(lines|parts|movers)\[(\d+)\]/.exec(note.place);
    if (at === null) return [];
    const id = car[at[1] as 'lines' | 'parts' | 'movers'][Number(at[2])]?.id ?? note.place;
    return [
      {
        id: `${id}-${noteWord(note.text)}`,
        kind: 'car-note',
        level: 'note',
        question: 'fit',
        ...(at[1] === 'lines' ? { line: id } : {}),
        ...(at[1] === 'parts' ? { part: id } : {}),
        text: /[.!?]$/.test(note.text) ? note.text : `${note.text}.`,
        source: 'the car file',
        cures: [],
      },
    ];
  });
}

const noteWord = (text: string): string => {
  if (text.includes('no way is taken')) return 'not-known';
  if (text.includes('surfaceC')) return 'temperature';
  return text.includes('no shape') ? 'no-shape' : 'note';
};

const catalogueSnags = ({ shelf }: LinesWorld): Snag[] =>
  shelf.faults.map((text, i) => ({
    id: `catalogue-${i + 1}`,
    kind: 'catalogue',
    level: 'fix',
    question: 'buy',
    text: `${text}.`,
    source: "the car file's catalogue",
    cures: ['mend the row; until then the usual part is taken, or none'],
  }));

/** Lines through a panel: every gap round them is closed, which a fire barrier is there for. */
function sealSnags(car: Car): Snag[] {
  const byPart = new Map<string, string[]>();
  for (const line of car.lines) {
    for (const { part, kind } of line.through)
      if (kind !== 'tee') byPart.set(part, [...(byPart.get(part) ?? []), line.id]);
  }
  return [...byPart].map(([part, lines]): Snag => {
    const many = lines.length === 1 ? `${lines[0]} passes` : `${lines.join(', ')} pass`;
    return {
      id: `${part}-seal`,
      kind: 'seal',
      level: 'note',
      question: 'cut',
      part,
      text: `${many} through ${partWords(car, part)}: where it keeps fire or fumes out, close every gap round each of them.`,
      value: lines.length,
      limit: 0,
      unit: 'lines',
      source: describeSource('builders-reports'),
      cures: ["seal of a kind that stands fire round each grommet and fitting; the event's rules say which"],
    };
  });
}
