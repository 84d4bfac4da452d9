import type { Car, Circuit } from '#car';
import type { CircuitFlow } from '#flow';
import { cautionsFor } from '#snags';
import { formatInches, formatMm } from '#units';
import { type FlowUnits, volumeWords } from '../../flow-words.ts';
import { counted } from '../block.ts';
import type { BookInput } from '../book-input.ts';
import type { CheckList, CheckSection, CheckStep } from './check-sheet.ts';

const L = 1e-3;
/** Vessels that nothing is poured into: it comes there by itself. */
const NOT_FILLED: ReadonlySet<string> = new Set(['pan', 'pot', 'housing', 'catch-tank', 'outside']);

/** What goes in, where, how much, with which bleeds open and in which order. */
export function fillCheck(input: BookInput, units: FlowUnits): CheckList {
  const { car, flow } = input;
  const circuits = (car.circuits ?? []).filter((circuit) => circuit.kind !== 'other');
  return {
    code: 'fill',
    title: 'First fill',
    about: ['the car level; note what really goes in: the next fill is checked against it'],
    cautions: cautionsFor(car).slice(0, -1),
    lines: circuits.flatMap((circuit) => circuit.lines),
    sections: [
      {
        title: 'Before anything goes in',
        steps: [
          { text: 'Leak test done and signed; every open point of level Stop cleared or accepted' },
          { text: 'Lines flushed, no swarf; caps and plugs counted out', figure: counted(car.lines.length, 'line') },
          {
            text: 'Car level, on stands that a qualified person has looked at; trays under, rags, extinguisher at hand',
          },
        ],
      },
      ...circuits.flatMap((circuit) =>
        sectionsOf(
          car,
          circuit,
          flow.circuits.find((one) => one.circuit === circuit.id),
          units,
        ),
      ),
      ...brakeSection(car),
    ],
  };
}

function sectionsOf(car: Car, circuit: Circuit, worked: CircuitFlow | undefined, units: FlowUnits): CheckSection[] {
  const fluid = car.fluids?.find((one) => one.id === circuit.fluid)?.name ?? circuit.fluid ?? 'its fluid';
  const unit = units === 'inch' ? 'US gal' : 'L';
  const litres = (l: number): string => volumeWords(l * L, units);
  const named = (part: string): string => car.parts.find((one) => one.id === part)?.name ?? part;
  const vessels = (circuit.vessels ?? [])
    .filter((vessel) => (vessel.fillL ?? 0) > 0 && !NOT_FILLED.has(vessel.kind))
    .map(
      (vessel): CheckStep => ({
        text: `${named(vessel.part)}: fill, note what went in`,
        figure: [
          litres(vessel.fillL!),
          ...(vessel.leastFillL === undefined ? [] : [`never below ${litres(vessel.leastFillL)}`]),
        ].join('; '),
        fill: unit,
      }),
    );
  const fill = worked?.heights?.fill ?? [];
  const bleeds = [...fill]
    .sort((a, b) => a.heightMm - b.heightMm)
    .map(
      (step): CheckStep => ({
        text: step.words,
        figure: `${units === 'inch' ? formatInches(step.heightMm) : formatMm(step.heightMm)} high; ${litres(step.litres)} so far, engine and radiator on top`,
        fill: unit,
      }),
    );
  const held = worked?.states[0]?.lines.reduce((sum, line) => sum + line.volumeM3, 0);
  const known =
    held === undefined ? [] : [{ text: 'The lines alone hold, all full', figure: volumeWords(held, units) }];
  const rest = passagesOf(circuit);
  const first =
    circuit.kind === 'dry-sump'
      ? [
          {
            text: 'Filter, cooler and the feed to the pump filled by hand first, so that the pump does not start dry',
            fill: unit,
          },
        ]
      : [];
  const last =
    circuit.kind === 'coolant'
      ? [
          {
            text: 'Bleeds shut from low to high as each runs without bubbles; cap on; squeeze the hoses and look again',
            fill: unit,
          },
        ]
      : [{ text: 'Every joint of the circuit wiped and looked at', figure: circuit.lines.join(', ') }];
  return [
    {
      title: `${circuit.name ?? circuit.id}: ${fluid}`,
      ...(rest === '' ? {} : { about: `Not in these figures, for nobody has measured them: ${rest}.` }),
      steps: [...first, ...vessels, ...bleeds, ...known, ...last],
    },
  ];
}

const passagesOf = (circuit: Circuit): string =>
  (circuit.passages ?? [])
    .filter((passage) => passage.open !== true)
    .map((passage) => passage.name ?? passage.id)
    .join(', ');

function brakeSection(car: Car): CheckSection[] {
  const own = car.lines.filter((line) => line.duty === 'brake' || line.duty === 'clutch');
  if (own.length === 0) return [];
  return [
    {
      title: 'Brakes and clutch',
      about: 'Filled, bled and tried by someone qualified; new fluid from a sealed can.',
      steps: own.map((line) => ({
        text: `${line.id} ${line.name ?? line.duty}: bled, no bubbles, pedal or lever hard`,
        fill: 'by',
      })),
    },
  ];
}
