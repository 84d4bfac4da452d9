import type { CircuitFlow, CircuitState, LineFlow } from '#flow';
import { columns } from './columns.ts';
import type { FlowUnits } from './flow-units.ts';
import type { Style } from './style.ts';

const MARGIN = '    ';

/** One circuit in one case, whole: its lines, ways through parts, pumps, stages and vessels. */
export function caseRows(state: CircuitState, units: FlowUnits, style: Style): string[] {
  const at = state.case;
  const head = `  ${style.strong(at.name ?? at.id)}: ${at.engineRpm} rpm${fluidWords(state, units)}${pullWords(state)}`;
  if (state.fluid === null) return [head, `${MARGIN}not worked out: see below`];
  return [
    head,
    ...lineTable(state.lines, units),
    ...state.passages.map(
      (row) =>
        `${MARGIN}${row.words}: ${units.flow(row.flowM3S)} ${units.flowUnit}, ${units.pressure(row.fromPa)} → ${units.pressure(row.toPa)} ${units.pressureUnit}`,
    ),
    ...state.pumps.map((row) => MARGIN + pumpWords(row, units)),
    ...(state.stages ?? []).map(
      (row) =>
        `${MARGIN}${row.words}: sweeps ${units.flow(row.sweptM3S)} ${units.flowUnit}, ${units.flow(row.oilM3S)} of it oil; inlet ${units.pressure(row.inletPa)} ${units.pressureUnit} (${units.pressure(row.inletSpreadPa[0])} to ${units.pressure(row.inletSpreadPa[1])} as froth is reckoned), outlet ${units.pressure(row.outletPa)}`,
    ),
    ...state.vessels.filter(({ fillM3 }) => fillM3 > 0).map((row) => MARGIN + vesselWords(row, units)),
  ];
}

function pumpWords(row: CircuitState['pumps'][number], units: FlowUnits): string {
  const swept = row.sweptM3S === undefined ? '' : ` of ${units.flow(row.sweptM3S)} swept`;
  const relief = row.reliefM3S > 0.01 * row.flowM3S ? `; ${units.flow(row.reliefM3S)} back over the relief valve` : '';
  return `${row.words}: ${units.flow(row.flowM3S)}${swept} ${units.flowUnit}, ${units.pressure(row.fromPa)} → ${units.pressure(row.toPa)} ${units.pressureUnit}${relief}`;
}

function vesselWords(row: CircuitState['vessels'][number], units: FlowUnits): string {
  const mouths = row.mouths
    .filter(({ share }) => share > 0)
    .map(({ port, headMm }) => `${port} under ${units.lengths.one(headMm)}`);
  const of = row.volumeM3 === null ? '' : ` of ${units.volume(row.volumeM3)}`;
  return `${row.part}: ${units.volume(row.fillM3)}${of}${mouths.length === 0 ? '' : `; ${mouths.join(', ')}`}`;
}

function fluidWords({ fluid, temperatureC }: CircuitState, units: FlowUnits): string {
  if (fluid === null || temperatureC === null) return '';
  const cSt = (1e6 * fluid.viscosityPaS) / fluid.densityKgM3;
  return `, ${units.temperature(temperatureC)} (${cSt < 10 ? cSt.toFixed(2) : cSt.toFixed(0)} cSt)`;
}

function pullWords({ case: at }: CircuitState): string {
  const { forwardG = 0, rightG = 0, upG = 0 } = at.g ?? {};
  const words = [
    forwardG > 0 ? `${forwardG} g speeding up` : forwardG < 0 ? `${-forwardG} g braking` : '',
    rightG > 0 ? `${rightG} g turning right` : rightG < 0 ? `${-rightG} g turning left` : '',
    upG === 0 ? '' : `${upG} g up`,
  ].filter((word) => word !== '');
  return words.length === 0 ? '' : `, ${words.join(', ')}`;
}

const carriesWords = (line: LineFlow): string => {
  const share =
    line.voidShare === undefined || line.carries !== 'oil and air'
      ? ''
      : `, ${(100 * line.voidShare).toFixed(0)} % air`;
  const between = line.regime === 'between' ? 'laminar or turbulent' : line.regime;
  return `${line.carries}, ${between}${share}`;
};

function lineTable(lines: readonly LineFlow[], units: FlowUnits): string[] {
  if (lines.length === 0) return [];
  const rows = lines.map((line) => [
    line.line,
    units.flow(line.flowM3S),
    units.speed(Math.abs(line.velocityMS)),
    units.pressure(line.fromPa),
    units.pressure(line.toPa),
    units.pressure(Math.abs(line.dropPa)),
    carriesWords(line),
  ]);
  const head = ['line', units.flowUnit, units.speedUnit, `${units.pressureUnit} in`, 'out', 'lost', 'carries'];
  return columns([head, ...rows], [1, 2, 3, 4, 5]).map((row) => MARGIN + row);
}

/** All cases of a circuit, a row each: what matters first of a dry sump, of water, of fuel. */
export function summaryRows(flow: CircuitFlow, units: FlowUnits, style: Style): string[] {
  const rows = flow.states.map((state) => [state.case.name ?? state.case.id, ...summary(state, units)]);
  const head = ['', 'fluid', 'pump delivers', 'pump inlet', 'behind it', 'deepest suction'];
  const wide = flow.kind === 'dry-sump' ? 6 : 5;
  return [
    style.strong(flow.name),
    ...columns(
      [head, ...rows].map((row) => row.slice(0, wide)),
      [2, 3, 4, 5],
    ).map((row) => `  ${row}`),
  ];
}

function summary(state: CircuitState, units: FlowUnits): string[] {
  const pump = state.pumps.toSorted((a, b) => b.flowM3S - a.flowM3S)[0];
  if (state.fluid === null || state.temperatureC === null || pump === undefined)
    return ['not worked out', '', '', '', ''];
  const stages = state.stages ?? [];
  const deepest =
    stages.length === 0
      ? ''
      : `${units.pressure(Math.min(...stages.map(({ inletPa }) => inletPa)))} ${units.pressureUnit}`;
  return [
    units.temperature(state.temperatureC),
    `${units.flow(pump.flowM3S - pump.reliefM3S)} ${units.flowUnit}`,
    `${units.pressure(pump.fromPa)} ${units.pressureUnit}`,
    `${units.pressure(pump.toPa)} ${units.pressureUnit}`,
    deepest,
  ];
}
