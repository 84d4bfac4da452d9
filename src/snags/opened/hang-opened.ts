import { describeSource } from '#sources';
import { dutyNeeds, fittingRule, type FittingRuleId } from '#standards';
import type { OpenedAt } from './opened-at.ts';
import type { OpenedInput, OpenedNumber, OpenedRule } from './opened-number.ts';
import { mm, withUnit } from './opened-units.ts';
import { countedRule, ownRule, publishedRule } from './rule-words.ts';

const ofRule = (id: FittingRuleId): OpenedRule => {
  const row = fittingRule(id);
  return publishedRule(
    `${row.text}: ${row.unit === 'share' ? `${row.value * 100} %` : withUnit(row.value, row.unit)}`,
    row.source,
  );
};

const found = ({ snag }: OpenedAt, name: string): OpenedInput[] =>
  snag.value === undefined ? [] : [{ name, value: withUnit(snag.value, snag.unit), from: 'worked out on the way' }];

const lengths = ({ way }: OpenedAt): OpenedInput[] =>
  (way?.pieces ?? []).flatMap((piece, i) => [
    { name: `piece ${i + 1}, ${piece.hose ?? 'tube'}: cut`, value: mm(piece.cutLengthMm) },
    ...(piece.slackPercent === undefined ? [] : [{ name: `piece ${i + 1}: spare`, value: `${piece.slackPercent} %` }]),
  ]);

export const slackOpened = (at: OpenedAt): OpenedNumber => ({
  equation:
    'spare = length of the hose / least length that still reaches - 1; wanted: spare >= what pressure can shorten it by',
  inputs: [...found(at, 'spare of the shortest piece'), ...lengths(at)],
  range: 'hose under pressure; a hard tube has no slack and needs none',
  formulas: ['slack-length', 'length-under-pressure', 'slack-bend-radius'],
  rule: ofRule('length-change-shrink'),
});

export const moverSlackOpened = (at: OpenedAt): OpenedNumber => ({
  equation: 'slack = length of hose between the last support and the end that moves - its chord at the farther extreme',
  inputs: [...found(at, 'slack left'), ...lengths(at)],
  range: 'over the whole movement that the car file gives its movers',
  formulas: ['slack-length'],
  rule: ofRule('slack-to-engine'),
});

export const clampOpened = (at: OpenedAt): OpenedNumber => {
  const spacingMm = at.line === undefined ? undefined : dutyNeeds(at.line.duty).clampMm;
  const id: FittingRuleId = spacingMm === fittingRule('clamp-fuel').value ? 'clamp-fuel' : 'clamp-hose';
  return {
    equation: 'length of hose between two clamps, along the hose, <= spacing for what it carries',
    inputs: [
      ...found(at, 'longest stretch without a clamp'),
      ...(at.way?.clamps ?? []).map((clamp, i) => ({
        name: `clamp ${i + 1}`,
        value: `${mm(clamp.alongMm)} along, on ${clamp.on}`,
      })),
    ],
    range: 'the line at rest; closer is better where it shakes',
    formulas: ['clamp-count'],
    rule: ofRule(id),
  };
};

export const straightOpened = (at: OpenedAt): OpenedNumber => ({
  equation: 'straight behind each hose end >= one outside diameter of the hose, not less than 25.4 mm',
  inputs: [
    ...found(at, 'straight that is there'),
    ...(at.way?.pieces ?? []).map((piece, i) => ({ name: `piece ${i + 1}: outside diameter`, value: mm(piece.odMm) })),
  ],
  range: 'round hose with ends on it',
  formulas: ['straight-behind-fitting'],
  rule: ofRule('straight-least'),
});

export const selfOpened = (at: OpenedAt): OpenedNumber => ({
  equation: 'gap = least distance of the centreline from itself - outside diameter; wanted: gap >= 0',
  inputs: found(at, 'gap of the hose to itself'),
  range: 'stretches farther along than one bend; as it hangs',
  formulas: [],
  rule: publishedRule('a hose that lies on itself chafes through', 'common-practice'),
});

export const reachOpened = (at: OpenedAt): OpenedNumber => ({
  equation:
    'both ends meet their ports: at the shortest and longest of the cut, and at each extreme of what they hang on',
  inputs: [...found(at, 'off its port by'), ...lengths(at)],
  range: 'the hose as an elastic rod, without pressure',
  formulas: ['cut-from-flexible', 'cut-tolerance', 'facing-shift'],
  rule: countedRule('a line that does not reach, or lies still nowhere, cannot be built'),
});

export const fallOpened = (at: OpenedAt): OpenedNumber => {
  const isPlumb = at.snag.unit === 'deg';
  const { pitchDeg = [0, 0], rollDeg = [0, 0] } = at.line?.fall ?? {};
  const from = at.line?.fall === undefined ? 'level' : 'you, on the line';
  return {
    equation: isPlumb
      ? 'angle between the first stretch of the line and plumb <= what is allowed'
      : 'height along the line only falls (a drain) or only rises (a bleed), in every leaning asked; wanted: 0 mm the wrong way',
    inputs: [
      ...found(at, isPlumb ? 'off plumb' : 'runs the wrong way by'),
      { name: 'leaned nose up', value: `${pitchDeg.join(' to ')}°`, from },
      { name: 'leaned to the right', value: `${rollDeg.join(' to ')}°`, from },
    ],
    range: 'the line as it hangs, to 4 mm: a hose laid by hand waves by so much. At rest: not in a corner',
    formulas: ['height-when-leaning'],
    rule: fallRule(at, isPlumb),
  };
};

function fallRule({ line }: OpenedAt, isPlumb: boolean): OpenedRule {
  if (isPlumb && line?.fall?.withinPlumbDeg === undefined) return ofRule('drain-from-plumb');
  if (isPlumb) return ownRule('how far off plumb the line may start', 'you, on the line');
  if (line?.rises === true) return ownRule('this line rises all the way', 'you, on the line');
  if (line?.fall !== undefined) return ownRule('this line falls all the way', 'you, on the line');
  const { duty, source } = dutyNeeds(line?.duty ?? 'oil-drain');
  return publishedRule(`a line for ${duty} falls all the way`, source);
}

export const bracketsOpened = (at: OpenedAt): OpenedNumber => ({
  equation: 'clamps of the way with nothing fixed within reach of a clip, counted',
  inputs: (at.way?.clamps ?? []).map((clamp, i) => ({
    name: `clamp ${i + 1}, ${mm(clamp.alongMm)} along`,
    value: clamp.bracket ? 'wants a bracket' : `on ${clamp.on}`,
  })),
  range: 'what is in the car file to clamp to; sheet and rails that are not in it are not seen',
  formulas: ['clamp-count'],
  rule: publishedRule('a clip reaches what stands close beside the hose; all else is a bracket', 'common-practice'),
});

export const measureOpened = (at: OpenedAt): OpenedNumber => {
  const ids = new Set([...(at.way?.ends ?? []), ...(at.way?.joints ?? [])].flatMap((end) => end.makeUp));
  const hoses = (at.way?.pieces ?? []).flatMap((piece) => at.shelf.findHose(piece.hose ?? '') ?? []);
  const rows = [
    ...hoses,
    ...hoses.flatMap((hose) => at.shelf.hoseEndsFor(hose).filter((row) => ids.has(row.id))),
    ...[...at.shelf.adapters, ...at.shelf.bulkheadFittings].filter((row) => ids.has(row.id)),
  ];
  return {
    equation: 'parts of the way whose dimensions are a usual part’s, counted',
    inputs: [...new Map(rows.filter((row) => row.measure === true).map((row) => [row.id, row])).values()].map(
      (row) => ({ name: row.id, value: row.name, from: describeSource(row.source) }),
    ),
    range: 'until your own dimensions stand under the same id in the catalogue',
    formulas: ['hose-end-factor', 'cut-from-overall'],
    rule: publishedRule('what was not measured is measured before it is cut to', 'generic-dimensions'),
  };
};
