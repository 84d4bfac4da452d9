import type { Line } from '#car';
import type { LinesWorld, PlannedLine, Way, WayFail, WayNote } from '#lines';
import { describeSource } from '#sources';
import { dutyNeeds } from '#standards';
import { curesOf, keepOffCures, otherHoses } from './cures.ts';
import { partWords } from './part-words.ts';
import type { Question, Snag } from './snag.ts';

/** What is open about one planned line: why it is refused, or what its way leaves open. */
export function lineSnags(world: LinesWorld, line: Line, answer: PlannedLine): Snag[] {
  if (answer.taken !== null) return answer.taken.notes.map((note) => noteSnag(world, line, answer.taken!, note));
  const { best } = answer;
  if (best.fails.length > 0) return best.fails.map((fail) => failSnag(world, line, best, fail));
  return [
    {
      id: `${line.id}-no-way`,
      kind: 'no-way',
      level: 'stop',
      question: 'fit',
      line: line.id,
      text: `${line.id} has no way that could be taken beside the other lines.`,
      source: 'this plan',
      cures: [],
    },
  ];
}

const questionOf: Readonly<Record<WayFail['limit'], Question>> = {
  'keep-off': 'fit',
  bend: 'fit',
  straight: 'fit',
  reach: 'fit',
  self: 'fit',
  fall: 'flow',
  vacuum: 'flow',
  temperature: 'cook',
  mating: 'buy',
  pressure: 'buy',
  fluid: 'buy',
};

function failSnag(world: LinesWorld, line: Line, way: Way, fail: WayFail): Snag {
  const value = fail.valueMm ?? fail.value;
  const limit = fail.limitMm ?? fail.limitValue;
  const unit = fail.valueMm === undefined ? fail.unit : 'mm';
  return {
    id: idOf(line.id, fail.limit, fail.part),
    kind: fail.limit,
    level: 'stop',
    question: questionOf[fail.limit],
    line: line.id,
    ...(fail.part === undefined || fail.part.startsWith('line ') ? {} : { part: fail.part }),
    text: fail.limit === 'keep-off' ? keepOffSentence(world, line, way, fail) : sentence(line.id, fail.text),
    ...(value === undefined ? {} : { value }),
    ...(limit === undefined ? {} : { limit }),
    ...(unit === undefined ? {} : { unit }),
    source: failSource(world, line, way, fail),
    ...(fail.atMm === undefined ? {} : { atMm: fail.atMm }),
    cures: curesOf(world, line, way, fail),
  };
}

const idOf = (...words: readonly (string | undefined)[]): string =>
  words
    .filter((w) => w !== undefined)
    .join('-')
    .replaceAll(/[\s.]+/g, '-');

const whole = (mm: number): string => mm.toFixed(0);

/** "O8 passes the turbine housing at 36 mm (28 to 44); wants 50." */
function keepOffSentence(
  world: LinesWorld,
  line: Line,
  way: Way,
  { part = '', valueMm, limitMm, text }: WayFail,
): string {
  if (valueMm === undefined || limitMm === undefined) return sentence(line.id, text);
  const what = part.startsWith('line ') ? part : partWords(world.car, part);
  if (valueMm < 0) return `${line.id} runs ${whole(-valueMm)} mm into ${what}; wants ${whole(limitMm)} mm clear of it.`;
  return `${line.id} passes ${what} at ${shown(valueMm, limitMm)} mm${range(way, part, valueMm)}; wants ${whole(limitMm)}.`;
}

/** A gap just short of its limit is not rounded up to it. */
const shown = (valueMm: number, limitMm: number): string =>
  whole(valueMm) === whole(limitMm) ? valueMm.toFixed(1) : whole(valueMm);

const SAME_MM = 0.02;

/** How far the gap may be off, where the way says so of this very gap. */
function range(way: Way, part: string, valueMm: number): string {
  const gap = way.gaps.find((g) => g.part === part);
  if (gap === undefined) return '';
  if (Math.abs(gap.gapMm - valueMm) < SAME_MM) return ` (${whole(gap.worstMm)} to ${whole(gap.bestMm)})`;
  return gap.beyond !== undefined && Math.abs(gap.beyond.gapMm - valueMm) < SAME_MM
    ? ` (${whole(gap.beyond.worstMm)} at worst)`
    : '';
}

/** A room's text as a sentence about a line. */
function sentence(lineId: string, text: string): string {
  const joined = /^(passes|bends|dips|rises|starts|runs|falls|was|ends)\b/.test(text)
    ? `${lineId} ${text}`
    : `${lineId}: ${text}`;
  return /[.!?]$/.test(joined) ? joined : `${joined}.`;
}

function failSource(world: LinesWorld, line: Line, way: Way, fail: WayFail): string {
  const hose = way.pieces
    .map((piece) => piece.hose)
    .concat(line.pieces.map((piece) => piece.hose))
    .find((id) => id !== undefined);
  switch (fail.limit) {
    case 'keep-off':
      if (fail.part?.startsWith('line ') === true)
        return world.car.keepOffMm?.line === undefined ? 'common practice, line to line' : 'set for the car';
      return way.gaps.find((gap) => gap.part === fail.part)?.source ?? 'keep-off of that part';
    case 'bend':
    case 'pressure':
    case 'temperature':
    case 'vacuum':
    case 'fluid':
      return hose === undefined
        ? describeSource(dutyNeeds(line.duty).source)
        : `${hose}: ${describeSource(world.shelf.findHose(hose)?.source ?? 'the catalogue')}`;
    case 'fall':
      return line.fall === undefined ? describeSource(dutyNeeds(line.duty).source) : 'set on the line';
    case 'mating':
      return fail.valueMm === undefined
        ? 'the catalogue: seats and threads'
        : describeSource(dutyNeeds(line.duty).source);
    case 'reach':
      return way.pieces.length === 0 ? 'what was tried, counted' : 'the hose as it hangs, worked out as an elastic rod';
    case 'straight':
    case 'self':
      return describeSource('geometry');
  }
}

function noteSnag(world: LinesWorld, line: Line, way: Way, note: WayNote): Snag {
  const { part, value, limit, unit, atMm } = note;
  return {
    id: idOf(line.id, note.code, part),
    kind: note.code,
    level: note.level,
    question: noteQuestion(note.code),
    line: line.id,
    ...(part === undefined ? {} : { part }),
    text: noteText(world, line, way, note),
    ...(value === undefined ? {} : { value }),
    ...(limit === undefined ? {} : { limit }),
    ...(unit === undefined ? {} : { unit }),
    source: note.source === undefined ? 'the way as it hangs' : describeSource(note.source),
    ...(atMm === undefined ? {} : { atMm }),
    cures: noteCures(world, line, way, note),
  };
}

function noteQuestion(code: string): Question {
  if (code.includes('vacuum') || code.includes('fall')) return 'flow';
  if (code.includes('hot') || code.includes('cold')) return 'cook';
  return code.startsWith('hose-') ? 'buy' : 'fit';
}

function noteText(world: LinesWorld, line: Line, way: Way, { code, text, part, value, limit }: WayNote): string {
  if (part === undefined || value === undefined || limit === undefined) return sentence(line.id, text);
  const what = partWords(world.car, part);
  if (code === 'near-port')
    return `${line.id} has ${what} at ${whole(value)} mm beside its port; away from a port it wants ${whole(limit)}.`;
  const gap = way.gaps.find((g) => g.part === part);
  if (gap === undefined) return sentence(line.id, text);
  const [at, best] =
    gap.beyond !== undefined && Math.abs(gap.beyond.worstMm - value) < 0.1
      ? [gap.beyond.gapMm, null]
      : [gap.gapMm, gap.bestMm];
  const spread = best === null ? `${whole(value)} at worst` : `${whole(value)} to ${whole(best)}`;
  if (code === 'touched-at-worst')
    return `${line.id} passes ${what} at ${whole(at)} mm (${spread}): at worst they touch.`;
  if (code === 'keep-off-at-extreme')
    return `${line.id} passes ${what} at ${whole(at)} mm (${spread}); wants ${whole(limit)} also at the extremes of what it joins.`;
  return code === 'keep-off-at-worst'
    ? `${line.id} passes ${what} at ${whole(at)} mm (${spread}); wants ${whole(limit)} also at worst.`
    : sentence(line.id, text);
}

function noteCures(world: LinesWorld, line: Line, way: Way, note: WayNote): string[] {
  if (note.cures !== undefined && note.cures.length > 0) return [...note.cures];
  if (note.code === 'near-port') return [];
  if (note.part !== undefined && note.value !== undefined && note.limit !== undefined) {
    const missing = note.limit - note.value;
    const better = `know it better: ${whole(missing)} mm are missing at worst; measure ports and part again, nearer than they are known now`;
    return [
      better,
      ...keepOffCures(world, line, {
        part: note.part,
        valueMm: note.value,
        limitMm: note.limit,
        atMm: note.atMm,
      }).filter((cure) => !cure.includes('"near"')),
    ];
  }
  const has = way.pieces.flatMap((piece) => piece.hose ?? []);
  return note.code.startsWith('hose-') ? otherHoses(world, line, has, note.code) : [];
}
