import { describeSource, sources } from '#sources';
import {
  clampOpened,
  bracketsOpened,
  fallOpened,
  measureOpened,
  moverSlackOpened,
  reachOpened,
  selfOpened,
  slackOpened,
  straightOpened,
} from './hang-opened.ts';
import {
  bendOpened,
  fluidOpened,
  matingOpened,
  pressureOpened,
  temperatureOpened,
  vacuumOpened,
} from './hose-opened.ts';
import { gapOpened, lineGapOpened } from './gap-opened.ts';
import type { OpenedAt } from './opened-at.ts';
import type { OpenedInput, OpenedNumber, OpenedRule } from './opened-number.ts';
import { withUnit } from './opened-units.ts';
import { countedRule, ownRule, publishedRule } from './rule-words.ts';

type Opener = (at: OpenedAt) => OpenedNumber | null;

const openers: Readonly<Record<string, Opener>> = {
  'keep-off': (at) => (at.snag.part === undefined ? lineGapOpened(at) : gapOpened(at)),
  'keep-off-at-worst': gapOpened,
  'keep-off-at-extreme': gapOpened,
  'touched-at-worst': gapOpened,
  'near-port': gapOpened,
  'line-gap': lineGapOpened,
  bend: bendOpened,
  straight: straightOpened,
  self: selfOpened,
  reach: reachOpened,
  fall: fallOpened,
  mating: matingOpened,
  'make-up': matingOpened,
  'hose-size': matingOpened,
  'hose-bore': matingOpened,
  pressure: pressureOpened,
  'hose-pressure': pressureOpened,
  'tube-pressure': pressureOpened,
  'tube-unknown': pressureOpened,
  temperature: temperatureOpened,
  'hose-hot': temperatureOpened,
  'hose-cold': temperatureOpened,
  'tube-temperature': temperatureOpened,
  vacuum: vacuumOpened,
  'hose-vacuum': vacuumOpened,
  'hose-vacuum-unknown': vacuumOpened,
  fluid: fluidOpened,
  'hose-fluid': fluidOpened,
  'hose-static': fluidOpened,
  'hose-static-unknown': fluidOpened,
  'tube-fluid': fluidOpened,
  'short-of-slack': slackOpened,
  'engine-slack': moverSlackOpened,
  'clamp-spacing': clampOpened,
  brackets: bracketsOpened,
  'to-measure': measureOpened,
};

interface Counted {
  readonly equation: string;
  readonly range: string;
  readonly rule: OpenedRule;
}

/** Points that are counted or looked up rather than worked out. */
const counted: Readonly<Record<string, Counted>> = {
  'no-way': {
    equation: 'ways of the line that could be taken beside the other lines, counted: none',
    range: 'of this plan; another turn of the lines may find one',
    rule: countedRule('a line without a way cannot be built'),
  },
  'no-way-yet': {
    equation: 'ways taken for the line: none',
    range: 'until one is taken',
    rule: countedRule('nothing is judged, ordered or cut for a line before a way is taken'),
  },
  'plan-stopped': {
    equation: 'lines worked out, of those that are planned',
    range: 'of this plan',
    rule: countedRule('what was cut off is not in the plan'),
  },
  'goes-in-first': {
    equation: 'parts of the make-up that the catalogue marks to go in before the part is mounted, counted',
    range: 'by the rows of the catalogue',
    rule: countedRule('what cannot be reached later goes in first'),
  },
  seal: {
    equation: 'lines that pass through the part, counted',
    range: 'crossings that the lines name; holes for other things are not in it',
    rule: publishedRule('every gap round a line through a fire barrier is closed', 'builders-reports'),
  },
  catalogue: {
    equation: 'rows of the catalogue that cannot be used, one point each',
    range: 'until the row is mended',
    rule: ownRule('the row is yours, in the car file or the shop'),
  },
  'box-unknown': {
    equation: 'ids in the box that neither the tables of parts nor the catalogue have, counted',
    range: 'until they are written as a table has them, or have a row of their own',
    rule: countedRule('what no table names is taken from the box for nothing'),
  },
  'car-note': {
    equation: 'what the car file leaves open, looked up',
    range: 'until it is said in the car file',
    rule: countedRule('what is not known is said, not guessed'),
  },
  measured: {
    equation:
      'miss = distance of the reading from the place that fits all readings best, by least squares; wanted: miss <= how well it is known',
    range: 'readings weighed by how well each is known; one bad reading is told by at least three',
    rule: ownRule('how well each reading is known: yours, or the usual tape'),
  },
  'port-inside': {
    equation: 'depth of the port face under the surface of another part; wanted: 0',
    range: 'shapes as they stand in the car file',
    rule: countedRule('nothing can be screwed on inside a solid'),
  },
  'port-inside-own': {
    equation: 'depth of the port face under the surface of its own part',
    range: 'shapes as they stand in the car file; a hair is let pass, see the limit',
    rule: countedRule('the face of a port lies at the surface'),
  },
  'port-off-part': {
    equation: 'distance of the port face from the surface of its own part',
    range: 'shapes as they stand in the car file; a hair is let pass, see the limit',
    rule: countedRule('the face of a port lies at the surface'),
  },
  'shape-unusable': {
    equation: 'solids of the part that take up space',
    range: 'until the solid is mended or its scan is brought in',
    rule: countedRule('what has no solid cannot be kept clear of'),
  },
  'tee-on-port': {
    equation: 'pieces of the line that end on a tee of another line',
    range: 'by the way that is taken',
    rule: publishedRule('a tee hangs on something, not on the hose alone', 'common-practice'),
  },
  'line-joint-order': {
    equation: 'fittings on the way, against pieces that they could stand between',
    range: 'until every stretch has its piece',
    rule: countedRule('where the file leaves it open, the first change from hose to tube is taken'),
  },
};

/** Kinds that open to more than what the snag itself says: for a test that none is forgotten. */
export const openedKinds: readonly string[] = [...Object.keys(openers), ...Object.keys(counted)];

/**
 * The number of a snag opened up: what it is made of, how far it holds, and the rule that it is held against, with whose it is and how it
 * is known. Every snag has one.
 */
export function openNumber(at: OpenedAt): OpenedNumber {
  const { snag } = at;
  const { kind, opens } = snag;
  if (opens !== undefined) return { formulas: [], rule: ruleOf(at), ...opens };
  const own = Object.hasOwn(openers, kind) ? openers[kind]!(at) : null;
  if (own !== null) return own;
  const known = Object.hasOwn(counted, kind) ? counted[kind] : undefined;
  return {
    equation: known?.equation ?? 'what was found, held against the limit',
    inputs: foundAndLimit(at),
    range: known?.range ?? 'the car as it stands',
    formulas: [],
    rule: known?.rule ?? ruleOf(at),
  };
}

function foundAndLimit({ snag: { value, limit, unit } }: OpenedAt): OpenedInput[] {
  return [
    ...(value === undefined ? [] : [{ name: 'found', value: withUnit(value, unit) }]),
    ...(limit === undefined ? [] : [{ name: 'limit', value: withUnit(limit, unit) }]),
  ];
}

/** The source of the snag as a rule, where it names a row of the bibliography; else in its own words. */
function ruleOf({ snag }: OpenedAt): OpenedRule {
  const row = sourceIn(snag.source);
  return row === undefined ? countedRule(snag.source) : publishedRule(snag.source, row);
}

const sourceIn = (words: string): string | undefined =>
  sources.find(({ id }) => id === words || describeSource(id) === words)?.id;
