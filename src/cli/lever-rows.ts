import type { BoreAnswer, CableAnswer, LeverAnswer, LeverOutput, Moved } from '#levers';
import { formatNumber } from '#units';
import { columns } from './columns.ts';
import type { LeverUnits } from './lever-units.ts';
import type { Style } from './style.ts';

const MARGIN = '  ';
const deg = (value: number): string => `${formatNumber(value, 1)}°`;
/** "7.0 : 1". */
const ratio = (value: number | null): string =>
  value === null ? 'dead centre' : `${formatNumber(value, value < 10 ? 2 : 1)} : 1`;

/** One lever: its swing, every output with ratio, travel and effort, cables, cylinder, what it was. */
export function leverRows(answer: LeverAnswer, units: LeverUnits, style: Style): string[] {
  return [
    style.strong(`${answer.lever}  ${answer.name}`),
    ...swingRows(answer, units),
    ...answer.outputs.flatMap((output) => outputRows(output, units, style)),
    ...(answer.outputs.length === 0 ? [`${MARGIN}nothing hangs on it: no rod, cable or cylinder`] : []),
    ...(answer.moved === null ? [] : movedRows(answer.moved, units, style)),
  ];
}

function swingRows(
  { turnDeg, handleMm, handleStraightMm, handleRadiusMm, reachMm, acts }: LeverAnswer,
  units: LeverUnits,
): string[] {
  const held = acts === 'link' ? 'its first arm' : acts === 'hand' ? 'the knob' : 'the pad';
  const travel =
    handleMm === null || handleStraightMm === null || handleRadiusMm === null
      ? ''
      : `: ${held}, ${units.travel(handleRadiusMm)} from the pivot, goes ${units.travel(handleMm[1] - handleMm[0])} along its arc, ${units.travel(handleStraightMm)} straight`;
  return [
    `${MARGIN}swing ${deg(turnDeg[0])} to ${deg(turnDeg[1])}${travel}`,
    ...(reachMm === null
      ? []
      : [
          `${MARGIN}knob to the wheel's rim: ${units.lengths.one(Math.min(...reachMm))} to ${units.lengths.one(Math.max(...reachMm))}`,
        ]),
  ];
}

function outputRows(output: LeverOutput, units: LeverUnits, style: Style): string[] {
  const { restSpreadRatio: spread } = output;
  const ends = `low end ${ratio(output.lowRatio)}, as drawn ${ratio(output.restRatio)}, high end ${ratio(output.highRatio)}`;
  const known = spread === null ? '' : ` (${formatNumber(spread[0], 1)} to ${formatNumber(spread[1], 1)} as measured)`;
  const turned =
    output.outputDeg === null || output.outputEndsDeg === null
      ? ''
      : `, turned ${deg(Math.min(...output.outputDeg))} to ${deg(Math.max(...output.outputDeg))} of its ${deg(output.outputEndsDeg[0])} to ${deg(output.outputEndsDeg[1])}`;
  return [
    '',
    `${MARGIN}${style.strong(output.id)}${output.to === output.id ? '' : ` to ${output.to}`}`,
    `${MARGIN}ratio: ${ends}${known}`,
    `${MARGIN}travel: ${units.travel(output.outputMm[0])} to ${units.travel(output.outputMm[1])}${turned}; direction ${output.direction}`,
    ...curveRows(output, units),
    ...effortRows(output, units),
    ...output.cables.flatMap((cable) => cableRows(cable, units)),
    ...cylinderRows(output, units),
  ];
}

/** Five places of the swing. */
const SHOWN = [0, 0.25, 0.5, 0.75, 1];

function curveRows({ curve }: LeverOutput, units: LeverUnits): string[] {
  const picked = SHOWN.map((share) => curve[Math.round(share * (curve.length - 1))]!);
  const head = ['turned', 'handle', 'output', 'ratio'];
  const rows = picked.map((row) => [
    deg(row.turnDeg),
    units.travel(row.handleMm),
    units.travel(row.outputMm),
    ratio(row.leverRatio),
  ]);
  return columns([head, ...rows], [0, 1, 2, 3]).map((row) => MARGIN + MARGIN + row);
}

function effortRows(output: LeverOutput, units: LeverUnits): string[] {
  if (output.effort.length === 0) return [];
  const rows = output.effort.map(({ handN, outputN }) => `${units.force(handN)} → ${units.force(outputN)}`);
  const passes = output.passesShare === null ? '' : `; ${formatNumber(100 * output.passesShare)} % gets through`;
  const lost =
    output.lostHandleMm === null || output.lostOutputMm === null
      ? ''
      : `; slack takes ${units.travel(output.lostHandleMm)} of the handle, ${units.travel(output.lostOutputMm)} of the output`;
  const pivot = output.pivotN === null ? '' : `; ${units.force(output.pivotN)} on the pivot with the most force`;
  return [`${MARGIN}effort, handle → output: ${rows.join(', ')}${passes}${pivot}${lost}`];
}

function cableRows(cable: CableAnswer, units: LeverUnits): string[] {
  const radius =
    cable.largestRadiusMm === null
      ? 'straight'
      : `bends ${deg(cable.bendDeg)} in all, room for ${units.lengths.one(Math.min(cable.largestRadiusMm, 1e5))} radius`;
  return [
    `${MARGIN}${cable.name}: conduit ${units.lengths.one(cable.lengthMm)} (${units.lengths.allowance(cable.allowanceMm)}), ${radius}; core moves ${units.travel(cable.coreMm[1] - cable.coreMm[0])}; off its ends' line ${deg(cable.nearLeadDeg)} and ${deg(cable.farLeadDeg)}`,
    ...cable.crossings.map(
      (row) =>
        `${MARGIN}${MARGIN}through ${row.part} at ${units.lengths.place(row.atMm)}: hole ${units.travel(row.clearHoleMm)} or more`,
    ),
  ];
}

function cylinderRows({ cylinder }: LeverOutput, units: LeverUnits): string[] {
  if (cylinder === null) return [];
  const left = cylinder.strokeLeftMm === null ? '' : `, ${units.travel(cylinder.strokeLeftMm)} left`;
  const used =
    cylinder.usedStrokeMm === null
      ? ''
      : `; ${units.travel(cylinder.usedStrokeMm)} used to build pressure${cylinder.usedHandleMm === null ? '' : `, ${units.travel(cylinder.usedHandleMm)} of the handle`}`;
  return [
    `${MARGIN}${cylinder.cylinder}: stroke ${units.travel(cylinder.swingStrokeMm)}${left}${used}; ratio there ${ratio(cylinder.leverRatio)}`,
    ...cylinder.bores.map((bore) => `${MARGIN}${MARGIN}${boreWords(bore, units)}`),
  ];
}

function boreWords(bore: BoreAnswer, units: LeverUnits): string {
  const [low, usual, high] = bore.pressureBar;
  const share = bore.forceShare === 1 ? '' : `, ${formatNumber(100 * bore.forceShare)} % of the force`;
  const range = high > low ? ` (${units.pressure(low)} to ${units.pressure(high)})` : '';
  const needed =
    bore.neededN === null
      ? ''
      : `; the band wanted takes ${units.force(bore.neededN[0])} to ${units.force(bore.neededN[1])}`;
  return `bore ${units.travel(bore.boreMm)}${share}: ${units.pressure(usual)}${range}; moves ${units.volume(bore.displacedMl)}${needed}`;
}

function movedRows(moved: Moved, units: LeverUnits, style: Style): string[] {
  const span = (mm: readonly [number, number] | null): string => (mm === null ? '' : units.travel(mm[1] - mm[0]));
  const reach = (mm: readonly [number, number, number] | null): string => (mm === null ? '' : units.lengths.one(mm[1]));
  const rows = [
    ['', 'was', 'is'],
    ['handle travels', span(moved.wasHandleMm), span(moved.isHandleMm)],
    ...(moved.isReachMm === null ? [] : [["knob to the wheel's rim", reach(moved.wasReachMm), reach(moved.isReachMm)]]),
    ...moved.outputs.flatMap((row) => [
      [`${row.output} ratio`, ratio(row.wasRatio), ratio(row.isRatio)],
      [`${row.output} travels`, span(row.wasOutputMm), span(row.isOutputMm)],
      [`${row.output} direction`, row.wasDirection, row.isDirection],
      ...(row.forceTimes === null
        ? []
        : [[`${row.output} force at the handle`, '1', `${formatNumber(row.forceTimes, 2)} times`]]),
    ]),
  ];
  return ['', `${MARGIN}${style.strong('Against how it was')}`, ...columns(rows).map((row) => MARGIN + MARGIN + row)];
}
