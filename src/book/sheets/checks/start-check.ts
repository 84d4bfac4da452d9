import type { Car, Circuit } from '#car';
import { cautionsFor } from '#snags';
import { formatNumber, lengthsIn } from '#units';
import { type FlowUnits, heatWords, pressureWords, volumeWords } from '../../flow-words.ts';
import { counted } from '../block.ts';
import type { BookInput } from '../book-input.ts';
import type { CheckList, CheckSection, CheckStep } from './check-sheet.ts';

const PA_BAR = 1e5;
const L = 1e-3;
const kindOf = (car: Car, kind: Circuit['kind']): Circuit[] =>
  (car.circuits ?? []).filter((circuit) => circuit.kind === kind);
const barOf = (bar: number, units: FlowUnits): string => pressureWords(bar * PA_BAR, units);

/** Oil brought to pressure with the starter, fuel with its pump, nothing lit. */
export function primeCheck(input: BookInput, units: FlowUnits): CheckList {
  const { car } = input;
  const oil = kindOf(car, 'dry-sump');
  const fuel = kindOf(car, 'fuel');
  const unit = units === 'inch' ? 'psi' : 'bar';
  const oilSteps = (circuit: Circuit): CheckStep[] => [
    { text: 'Plugs out, ignition and fuel off; throttle and gearbox clear' },
    {
      text: 'Crank in short spells and let the starter cool; watch the gauge',
      figure: reliefWords(circuit, units),
      fill: unit,
    },
    ...(circuit.pumps ?? [])
      .filter((pump) => pump.relief === undefined)
      .map((pump) => ({
        text: `${pump.name ?? pump.id}: oil seen coming back into the tank`,
        figure: `${pump.from} to ${pump.to}`,
      })),
    {
      text: 'Level again, topped up; what was drawn into engine and cooler noted',
      fill: units === 'inch' ? 'US gal' : 'L',
    },
  ];
  const fuelSteps = (circuit: Circuit): CheckStep[] => [
    { text: 'Outdoors, ignition off, extinguisher manned, nobody smokes; pump on by its own switch' },
    ...(circuit.pumps ?? []).map((pump) => ({
      text: `${pump.name ?? pump.id} runs and goes quiet as it fills`,
      figure: `${pump.from} to ${pump.to}`,
    })),
    ...car.lines
      .filter((line) => circuit.lines.includes(line.id))
      .map((line) => ({
        text: `${line.id} ${line.name ?? line.duty}: walked end to end at pressure, dry`,
        ...(line.pressureBar === undefined ? {} : { figure: barOf(line.pressureBar, units) }),
      })),
    { text: 'Pump off: pressure holds', figure: reliefWords(circuit, units), fill: unit },
  ];
  return {
    code: 'prime',
    title: 'Priming',
    about: ['oil, then fuel, before the engine is let run'],
    cautions: cautionsFor(car).slice(0, -1),
    lines: [...oil, ...fuel].flatMap((circuit) => circuit.lines),
    sections: [
      ...oil.map((circuit) => ({ title: circuit.name ?? 'Oil', steps: oilSteps(circuit) })),
      ...fuel.map((circuit) => ({ title: circuit.name ?? 'Fuel', steps: fuelSteps(circuit) })),
    ],
  };
}

function reliefWords(circuit: Circuit, units: FlowUnits): string {
  const valves = [...(circuit.pumps ?? []), ...(circuit.passages ?? [])].flatMap((one) => one.relief ?? []);
  return valves
    .map((relief) => `relief opens at ${barOf(relief.cracksBar, units)}, full at ${barOf(relief.fullFlowBar, units)}`)
    .join('; ');
}

/** The first minutes with the engine running. */
export function startCheck(input: BookInput, units: FlowUnits): CheckList {
  const { car } = input;
  return {
    code: 'start',
    title: 'First start',
    about: ['one starts, one watches the gauges, one looks under with an extinguisher'],
    cautions: cautionsFor(car).slice(0, -1),
    lines: car.lines.map((line) => line.id),
    sections: [
      {
        title: 'Before the key',
        steps: [
          { text: 'Leak test, first fill and priming signed' },
          { text: 'Hands, hoses and tools clear of what turns', figure: movingWords(car) },
          { text: 'Kill switch and extinguisher pulled once for show and put back; who does what said aloud' },
        ],
      },
      {
        title: 'Running',
        about: 'Only on if there is oil pressure; no revs until the oil is warm (50 to 60 °C, from memory).',
        steps: [
          {
            text: 'About 2,000 rpm for 20 s only if pressure comes, then off and look under',
            fill: units === 'inch' ? 'psi' : 'bar',
          },
          ...gaugeSteps(input, units),
          { text: 'Stream in the tank: oil, not foam only', figure: returnsOf(car) },
          { text: 'Belts run true, nothing rubs', figure: movingWords(car) },
        ],
      },
      { title: 'Walked while it runs, from the side, nothing touched', steps: walkSteps(input, units) },
      {
        title: 'Off, hot, then cold again',
        steps: [
          { text: 'Gauges rise for some minutes: note the highest', fill: units === 'inch' ? '°F' : '°C' },
          { text: 'Witness marks as they were; nuts and clamps again when cold', figure: clampWords(input) },
          { text: 'Levels again; filter opened and looked at after the first drive' },
        ],
      },
    ],
  };
}

/** What the gauges read as worked out, where the car has circuits and cases. */
function gaugeSteps({ flow }: BookInput, units: FlowUnits): CheckStep[] {
  const unit = units === 'inch' ? 'psi' : 'bar';
  return flow.circuits
    .filter((circuit) => circuit.kind === 'dry-sump' || circuit.kind === 'fuel')
    .flatMap((circuit) =>
      circuit.states
        .filter((state) => state.case.g === undefined && (state.case.engineRpm ?? 0) > 0)
        .flatMap((state) =>
          state.pumps
            .filter((pump) => pump.toPa > 0.3 * PA_BAR)
            .slice(0, 1)
            .map((pump) => ({
              text: `${state.case.name ?? state.case.id}, ${formatNumber(state.case.engineRpm ?? 0)} rpm: ${pump.words}`,
              figure: `${pressureWords(pump.toPa, units)} as worked out${state.temperatureC === null ? '' : ` at ${heatWords(state.temperatureC, units)}`}`,
              fill: unit,
            })),
        ),
    );
}

const returnsOf = (car: Car): string =>
  car.lines
    .filter((line) => line.duty === 'oil-return')
    .map((line) => line.id)
    .join(', ');

const movingWords = (car: Car): string =>
  car.parts
    .filter((part) => part.class === 'moving')
    .map((part) => part.name ?? part.id)
    .join(', ');

function clampWords({ lines }: BookInput): string {
  const clamps = lines.reduce((sum, { way, isTaken }) => sum + (isTaken ? (way?.clamps.length ?? 0) : 0), 0);
  return clamps === 0 ? '' : counted(clamps, 'clamp');
}

/** Each line with the hot or moving thing that it comes nearest to. */
function walkSteps({ lines, car }: BookInput, units: FlowUnits): CheckStep[] {
  const length = lengthsIn(units === 'inch').one;
  return lines
    .filter(({ way, isTaken }) => way !== null && isTaken)
    .map(({ line, way }) => {
      const near = way!.gaps
        .filter((gap) => gap.class !== 'fixed')
        .sort((a, b) => a.gapMm - b.gapMm)
        .slice(0, 2)
        .map((gap) => `${nameOf(car, gap.part)} ${length(gap.gapMm)}`);
      return {
        text: `${line.id} ${line.name ?? line.duty}`,
        ...(near.length === 0 ? {} : { figure: near.join(', ') }),
      };
    });
}

const nameOf = (car: Car, id: string): string => car.parts.find((part) => part.id === id)?.name ?? id;

/** What is looked at between two runs. */
export function runsCheck(input: BookInput, units: FlowUnits): CheckList {
  const { car, snags } = input;
  const sections: CheckSection[] = [
    {
      title: 'As it comes in',
      steps: [
        {
          text: 'Highest oil and water temperature and least oil pressure read off before the key is turned',
          fill: '',
        },
        { text: 'Under the car: drips, wet spots, smoke; where', fill: '' },
      ],
    },
    { title: 'Levels', steps: levelSteps(car, units) },
    {
      title: 'Near the hot and the turning: look, then touch when cold',
      steps: walkSteps(input, units).filter((step) => step.figure !== undefined),
    },
    {
      title: 'Still open on this car',
      about: 'Points of level Fix with a line: look there first.',
      steps: snags
        .filter((snag) => snag.level !== 'note' && snag.question === 'fit' && snag.line !== undefined)
        .slice(0, MOST_OPEN)
        .map((snag) => ({ text: snag.text })),
    },
    {
      title: 'Before it goes out',
      steps: [
        { text: 'Marks on nuts and bolts as they were; clamps tight', figure: clampWords(input) },
        { text: 'Belts, shafts and boots', figure: movingWords(car) },
        { text: 'Caps on, panels on, tools counted', figure: (car.panels ?? []).map((panel) => panel.id).join(', ') },
      ],
    },
  ];
  return {
    code: 'runs',
    title: 'Between runs',
    about: ['what is looked at each time'],
    cautions: cautionsFor(car).slice(0, -1),
    lines: car.lines.map((line) => line.id),
    sections,
  };
}

const MOST_OPEN = 10;

function levelSteps(car: Car, units: FlowUnits): CheckStep[] {
  const vessels = (car.circuits ?? []).flatMap((circuit) => circuit.vessels ?? []);
  return vessels
    .filter((vessel) => vessel.leastFillL !== undefined || (vessel.fillL ?? 0) > 0 || vessel.kind === 'catch-tank')
    .filter((vessel) => vessel.kind !== 'pan' && vessel.kind !== 'pot')
    .map((vessel): CheckStep => {
      const name = nameOf(car, vessel.part);
      const unit = units === 'inch' ? 'US gal' : 'L';
      if (vessel.kind === 'catch-tank') return { text: `${name}: what it caught, then emptied`, fill: unit };
      const how = vessel.kind === 'header' ? 'level seen when cold only, cap stays shut hot' : 'level';
      const figure = [
        ...(vessel.fillL === undefined ? [] : [volumeWords(vessel.fillL * L, units)]),
        ...(vessel.leastFillL === undefined ? [] : [`never below ${volumeWords(vessel.leastFillL * L, units)}`]),
      ].join('; ');
      return { text: `${name}: ${how}`, figure, fill: unit };
    });
}
