import type { AccessFinding } from '../finding.ts';
import { partOfJoint, toolReachOf, toolWords } from './tool-reach-of.ts';
import type { NutRoom, ToolRoom } from './tool-room.ts';

/**
 * What is open about tool room: nuts that no tool goes on with everything else in place, each joint and part once, with what would
 * cure it; what is tight; marks that nobody sees.
 */
export function toolFindings(room: ToolRoom): readonly AccessFinding[] {
  const byPlace = new Map<string, NutRoom[]>();
  for (const row of room.nuts)
    if (row.verdict !== 'yes') byPlace.set(placeOf(row), [...(byPlace.get(placeOf(row)) ?? []), row]);
  const found = [...byPlace.values()].map((rows) => {
    const none = rows.filter(({ verdict }) => verdict === 'no');
    return none.length > 0 ? noTool(room, none) : tight(rows);
  });
  return [...found, ...unseen(room.nuts)];
}

const placeOf = ({ nut }: NutRoom): string =>
  nut.panel ?? (nut.line === undefined ? nut.id : `${nut.line} ${nut.port ?? ''}`);

const about = ({ nut }: NutRoom): Pick<AccessFinding, 'line' | 'part' | 'fastener' | 'panel' | 'place'> => ({
  ...(nut.line === undefined ? {} : { line: nut.line }),
  ...(nut.part === undefined ? {} : { part: nut.part }),
  ...(nut.fastener === undefined ? {} : { fastener: nut.fastener }),
  ...(nut.panel === undefined ? {} : { panel: nut.panel }),
  place: nut.at,
});

function noTool(room: ToolRoom, rows: readonly NutRoom[]): AccessFinding {
  const worst = rows[0]!;
  const { nut } = worst;
  const what = nut.panel === undefined ? namesOf(rows) : `${rows.length} of its fixings`;
  return {
    code: 'no-tool-goes-on',
    level: nut.panel === undefined ? 'fix' : 'note',
    ...about(worst),
    text: `${leadOf(worst)}no tool goes on ${what} with everything else in place: ${toolWords(worst)}: ${worst.why}${inTheWay(worst)}`,
    value: Math.round(worst.freeDeg),
    limit: worst.needDeg,
    unit: 'deg',
    source: sourceOf(worst),
    cures: curesOf(room, worst),
    inputs: inputsOf(worst),
  };
}

const leadOf = ({ nut }: NutRoom): string =>
  nut.line !== undefined ? `${nut.line}: ` : nut.panel !== undefined ? `${nut.panel}: ` : '';

const namesOf = (rows: readonly NutRoom[]): string =>
  [...new Set(rows.map(({ nut }) => (nut.line === undefined ? nut.id : `the ${nut.role} at ${nut.port}`)))].join(
    ' and ',
  );

const inTheWay = ({ inTheWay: ids }: NutRoom): string =>
  ids.length === 0 ? '' : `; in the way: ${ids.slice(0, 3).join(', ')}`;

/** What would let a tool on a nut that takes none, what comes off first before the rest. */
export function curesOf(room: ToolRoom, { nut }: NutRoom): readonly string[] {
  const reach =
    nut.part !== undefined && nut.fastener !== undefined
      ? toolReachOf(room)({ kind: 'fastener', part: nut.part, fastener: nut.fastener })
      : nut.line !== undefined && nut.port !== undefined
        ? toolReachOf(room)({ kind: 'joint', line: nut.line, port: nut.port })
        : undefined;
  const first = reach?.clearedBy.find((set) => set.length > 0);
  const off = first === undefined ? [] : [`take ${first.join(' and ')} off first, and put it on last`];
  const isTurned = nut.role === 'swivel nut' || nut.role === 'locknut';
  return [
    ...off,
    ...(isTurned ? ['another angle or clock of its end, or an adapter that brings the nut farther out'] : []),
    ...(nut.role === 'adapter hex'
      ? [`screw the adapter in on the bench, before ${partOfJoint(nut) ?? 'its part'} goes in`]
      : []),
    ...(nut.line === undefined ? [] : ['do it up before what is in the way goes in, or a crow-foot ground thin']),
    ...(off.length === 0 && nut.line === undefined ? ['another kind of head, or the place of it'] : []),
  ];
}

function tight(rows: readonly NutRoom[]): AccessFinding {
  const worst = rows[0]!;
  return {
    code: 'tool-tight',
    level: 'note',
    ...about(worst),
    text: `${leadOf(worst)}a tool goes on ${namesOf(rows)} only just: ${toolWords(worst)}: ${worst.why}${inTheWay(worst)}`,
    value: Math.round(worst.freeDeg),
    limit: worst.needDeg,
    unit: 'deg',
    source: sourceOf(worst),
    cures: worst.isMeasured
      ? ['more room about it, or a tool ground thinner or cut shorter']
      : ['measure the tool in the hand and enter it under "workshop"'],
    inputs: inputsOf(worst),
  };
}

/** A verdict is no better known than the tool and the hand that it was worked out with. */
const sourceOf = ({ isMeasured }: NutRoom) => (isMeasured ? 'builder' : 'from-memory');

const inputsOf = ({ nut, tool, freeDeg, needDeg }: NutRoom) => [
  { name: 'across flats', value: `${Number(nut.acrossFlatsMm.toFixed(2))} mm${nut.isUsualSize ? ', usual size' : ''}` },
  { name: 'tool', value: tool },
  { name: 'free swing', value: `${freeDeg.toFixed(0)} degrees` },
  { name: 'wanted', value: `${needDeg} degrees` },
];

/** Whether a nut gets a witness mark across it and what it is done up on. */
export const isMarked = ({ nut }: NutRoom): boolean =>
  nut.role === 'swivel nut' || nut.role === 'tube nut' || nut.role === 'banjo bolt';

/** A mark of paint across a nut tells at a glance that it has not moved, if it is seen. */
function unseen(nuts: readonly NutRoom[]): readonly AccessFinding[] {
  const marked = nuts.filter(isMarked);
  const hidden = marked.filter(({ isInSight }) => !isInSight);
  if (hidden.length === 0) return [];
  return [
    {
      code: 'marks-out-of-sight',
      level: 'note',
      text: `Witness marks on ${hidden.length} of ${marked.length} nuts are not seen from outside, covers off: ${hidden.map(({ nut }) => `${nut.line} ${nut.port}`).join(', ')}`,
      value: hidden.length,
      limit: 0,
      unit: 'nuts',
      source: 'common-practice',
      cures: ['feel them with a spanner at each look-over, or a mirror and lamp'],
    },
  ];
}
