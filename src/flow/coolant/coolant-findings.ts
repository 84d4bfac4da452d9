import type { ReadyCircuit } from '../circuit/circuit-state.ts';
import type { FlowFinding } from '../finding.ts';
import { type Guide, guides } from '../limits.ts';
import { toldApart } from '../told-apart.ts';
import type { CoolantState } from './coolant-state.ts';
import { isBleed } from './heights.ts';
import { isSoaked } from './thermosiphon.ts';

type About = Partial<Pick<FlowFinding, 'line' | 'part' | 'value' | 'limit' | 'unit' | 'place' | 'cures' | 'advice'>>;
type Say = (
  level: FlowFinding['level'],
  code: string,
  text: string,
  source: FlowFinding['source'],
  about?: About,
) => FlowFinding;

const teller =
  (ready: ReadyCircuit, state: CoolantState): Say =>
  (level, code, text, source, about = {}) => ({
    circuit: ready.drawn.circuit.id,
    case: state.asked.at.id,
    code,
    level,
    text: `${state.asked.at.name ?? state.asked.at.id}: ${text}`,
    source,
    cures: [],
    inputs: inputsOf(state),
    ...about,
  });

const inputsOf = ({ asked, answer }: CoolantState): NonNullable<FlowFinding['inputs']> => [
  { name: 'engine speed', value: `${asked.at.engineRpm} rpm` },
  { name: 'water', value: `${asked.temperatureC.toFixed(0)} °C` },
  { name: 'air', value: `${answer.airC.toFixed(0)} °C` },
  { name: 'density', value: `${asked.fluid.densityKgM3.toFixed(0)} kg/m3` },
];

const against = (value: number, { value: limit, unit }: Guide): About => ({ value, limit, unit });

/** What a case of the water breaks or comes near; cures are worked out elsewhere. */
export function coolantFindings(ready: ReadyCircuit, state: CoolantState): FlowFinding[] {
  const say = teller(ready, state);
  return [
    ...heatFindings(ready, state, say),
    ...boilingFindings(state, say),
    ...inletFindings(state, say),
    ...speedFindings(state, say),
    ...bleedFindings(ready, state, say),
  ];
}

/** Below this an engine runs cold. Common practice, no source. */
export const RUNS_COLD_C = 70;

function airWords(ready: ReadyCircuit, stated: number | undefined): string {
  const measured = ready.elements.flatMap(({ passage }) => passage?.duty?.airMPerS ?? [])[0];
  if (stated !== undefined) return `, ${stated} m/s at the core`;
  return measured === undefined ? '' : `, ${measured} m/s at the core as where its duty was measured`;
}

function heatFindings(ready: ReadyCircuit, { answer, asked }: CoolantState, say: Say): FlowFinding[] {
  const out: FlowFinding[] = [];
  const { heatW, settlesC, statedC, carriedOffW, airC } = answer;
  const hasDuty = ready.elements.some(({ passage }) => passage?.duty !== undefined);
  if (heatW === null || heatW === 0) {
    if (asked.at.engineRpm > 0 && asked.temperatureC >= 60)
      out.push(
        say(
          'note',
          'no-heat',
          'no heat into the water is stated (heatToWaterKw): where it settles is not known',
          'builder',
          { advice: ['state heatToWaterKw of the case: where the water settles is worked out from it'] },
        ),
      );
    return out;
  }
  if (!hasDuty || carriedOffW === 0 || settlesC === null) {
    out.push(
      say(
        'stop',
        'heat-stays',
        hasDuty
          ? `${(heatW / 1000).toFixed(0)} kW go in, and the water passes 125 °C before they are carried off; ${(carriedOffW / 1000).toFixed(0)} kW are at ${answer.outletC.toFixed(0)} °C`
          : `${(heatW / 1000).toFixed(0)} kW go in and no passage has a duty: nothing carries them off`,
        'energy-balance',
        {
          value: heatW / 1000,
          ...(carriedOffW > 0 ? { limit: carriedOffW / 1000 } : {}),
          unit: 'kW',
          ...(hasDuty ? {} : { advice: ["state the radiator's duty on its passage: one measured point is enough"] }),
        },
      ),
    );
    return out;
  }
  const limit = statedC ?? undefined;
  const cold = settlesC < RUNS_COLD_C && !ready.elements.some(({ passage }) => passage?.thermostat !== undefined);
  const words = `the water settles at ${limit === undefined || settlesC <= limit ? settlesC.toFixed(1) : toldApart(settlesC, limit, 1)} °C out of the engine with ${(heatW / 1000).toFixed(0)} kW in and air at ${airC} °C${airWords(ready, asked.at.coreAirMPerS)}${cold ? ' (no thermostat is stated: it runs cold)' : ''}`;
  out.push(
    limit !== undefined && settlesC > limit
      ? say(
          'fix',
          'too-hot',
          `${words}; ${limit} °C is wanted, where the radiator takes ${(carriedOffW / 1000).toFixed(0)} kW`,
          'builder',
          { value: settlesC, limit, unit: 'degC' },
        )
      : say(
          'note',
          'settles',
          limit === undefined
            ? words
            : `${words}; at ${limit} °C the radiator would take ${(carriedOffW / 1000).toFixed(0)} kW`,
          'mason-1955',
          { value: settlesC, ...(limit === undefined ? {} : { limit }), unit: 'degC' },
        ),
  );
  return out;
}

function boilingFindings({ answer }: CoolantState, say: Say): FlowFinding[] {
  const { worst } = answer;
  if (worst === null || worst.marginK >= guides.boilingMargin.value) return [];
  const boils = worst.marginK <= 0;
  return [
    say(
      boils ? 'stop' : 'fix',
      'boiling',
      `the water ${boils ? 'boils' : `is ${toldApart(worst.marginK, guides.boilingMargin.value, 1)} K from boiling`} in ${worst.words}: ${worst.temperatureC.toFixed(0)} °C at ${(worst.absPa / 1e5).toFixed(2)} bar absolute, which boils at ${worst.boilsAtC.toFixed(0)} °C; ${guides.boilingMargin.value} K is usual`,
      guides.boilingMargin.source,
      {
        ...against(worst.marginK, guides.boilingMargin),
        ...(worst.line === undefined ? {} : { line: worst.line }),
        ...(worst.atMm === undefined ? {} : { place: worst.atMm }),
      },
    ),
  ];
}

function inletFindings({ answer, asked }: CoolantState, say: Say): FlowFinding[] {
  if (asked.at.engineRpm === 0) return [];
  const line = answer.lines.find(({ suction }) => suction)?.line;
  return answer.inlets
    .filter(({ gaugePa }) => gaugePa / 1e5 < guides.waterInlet.value)
    .map(({ words, gaugePa, overVapourM }) =>
      say(
        'fix',
        'pump-pulls',
        `${words} pulls its inlet ${toldApart(-gaugePa / 1e5, -guides.waterInlet.value, 2)} bar below the air outside (${overVapourM.toFixed(1)} m over boiling): ${guides.waterInlet.words}`,
        guides.waterInlet.source,
        { ...against(gaugePa / 1e5, guides.waterInlet), ...(line === undefined ? {} : { line }) },
      ),
    );
}

function speedFindings({ answer }: CoolantState, say: Say): FlowFinding[] {
  return answer.lines.flatMap(({ line, velocityMS, suction }) => {
    const guide = suction ? guides.waterSuction : guides.waterVelocity;
    const speed = Math.abs(velocityMS);
    return speed <= guide.value
      ? []
      : [
          say(
            'note',
            'water-speed',
            `water runs at ${toldApart(speed, guide.value, 1)} m/s in ${line}; ${guide.value} m/s is usual for ${guide.words}`,
            guide.source,
            { line, ...against(speed, guide) },
          ),
        ];
  });
}

/** Bleeds that carry water past the radiator: those that do not cool a part on their way. */
export function plainBleeds(ready: ReadyCircuit): string[] {
  const soaked = ready.sorted.liquid.filter(isSoaked);
  const joint = (spot: string) => ready.drawn.joints.of(spot);
  const ends = new Set(soaked.flatMap(({ from, to }) => [joint(from), joint(to)]));
  return ready.drawn.runs
    .filter((run) => isBleed(ready, run) && !ends.has(joint(run.from)) && !ends.has(joint(run.to)))
    .map(({ line }) => line);
}

function bleedFindings(ready: ReadyCircuit, { flow }: CoolantState, say: Say): FlowFinding[] {
  const bleeds = new Set(plainBleeds(ready));
  return flow.lines.flatMap((row) => {
    const lMin = row.flowM3S * 60_000;
    if (!bleeds.has(row.line) || lMin <= guides.bleedFlow.value) return [];
    return [
      say(
        'fix',
        'bleed-flow',
        `${row.line} carries ${toldApart(lMin, guides.bleedFlow.value, 1)} L/min past the radiator; ${guides.bleedFlow.value} L/min is plenty for a bleed`,
        guides.bleedFlow.source,
        { line: row.line, ...against(lMin, guides.bleedFlow) },
      ),
    ];
  });
}
