import type { Line } from '#car';
import { cautionsFor } from '#snags';
import type { FlowUnits } from '../../flow-words.ts';
import { pressureWords } from '../../flow-words.ts';
import { counted } from '../block.ts';
import type { BookInput, BookLine } from '../book-input.ts';
import type { CheckList, CheckStep } from './check-sheet.ts';
import { closersOf, countedWords } from './closers.ts';
import { PROOF_FACTOR, PROOF_MINUTES, proofBar, workingPressure } from './line-pressure.ts';

const PA_BAR = 1e5;
const isBraked = (line: Line): boolean => line.duty === 'brake' || line.duty === 'clutch';
const isPressed = (line: Line): boolean => workingPressure(line).bar > 0;

/** Every line proved on the bench at 1.5 times its working pressure, then each circuit looked at on the car. */
export function leakCheck({ car, lines, shelf }: BookInput, units: FlowUnits): CheckList {
  const made = lines.filter(({ way, isTaken }) => way !== null && isTaken);
  const pressed = made.filter(({ line }) => isPressed(line) && !isBraked(line));
  const braked = made.filter(({ line }) => isBraked(line));
  const open = made.filter(({ line }) => !isPressed(line) && !isBraked(line));
  return {
    code: 'leak',
    title: 'Leak test',
    about: [`proved at ${PROOF_FACTOR} × working pressure, ${PROOF_MINUTES} min (common practice, no source)`],
    cautions: [
      'With liquid, never with air: a hose that lets go whips, and what is pumped into it flies. Ends held, behind a guard, faces away, eyes protected. The maker’s proof pressure of the part in your hand comes first.',
      ...cautionsFor(car).filter((words) => words.startsWith('Fuel') || words.startsWith('Brake')),
    ],
    lines: made.map(({ line }) => line.id),
    sections: [
      {
        title: 'To have ready',
        about: 'Enough for one line of each size at a time.',
        steps: closersToHave(pressed, shelf, units),
      },
      {
        title: 'On the bench, before it is fitted',
        about: `Blow through, fill, bleed the air out, raise slowly, hold ${PROOF_MINUTES} minutes: no drop, no weep at the ends, no nut that turned.`,
        steps: pressed.map((own) => pressedStep(own, shelf, units)),
      },
      {
        title: 'Brakes and clutch',
        about: 'Made up and proved by someone qualified for it; the maker’s and the event’s pressures hold.',
        steps: braked.map(({ line }) => ({
          text: `${line.id} ${line.name ?? line.duty}`,
          figure: `works at ${barWords(workingPressure(line).bar, units)}`,
          fill: 'by',
        })),
      },
      {
        title: 'Lines without pressure',
        about: 'Blow through, look through; suction and scavenge lines: closed, drawn down, held.',
        steps: open.map(({ line }) => ({
          text: `${line.id} ${line.name ?? line.duty}`,
          ...(line.vacuumBar === undefined
            ? {}
            : { figure: `drawn to ${barWords(line.vacuumBar, units)} below the air` }),
        })),
      },
      onCarSection(made.length),
    ],
  };
}

/** Looked at once more with all of it on the car; nothing where nothing is made. */
const onCarSection = (made: number): CheckList['sections'][number] => ({
  title: 'On the car, caps off and on again',
  steps:
    made === 0
      ? []
      : [
          {
            text: 'Every cap and plug of the bench is out again: count them against the list above',
            fill: 'left',
          },
          {
            text: 'Dry paper under and round each joint, walked circuit by circuit',
            figure: counted(made, 'line'),
          },
          { text: 'Witness marks across nut and body on every joint', figure: 'both ends of each line' },
        ],
});

/** Of each closer as many as one line takes of it at most. */
function closersToHave(lines: readonly BookLine[], shelf: BookInput['shelf'], units: FlowUnits): CheckStep[] {
  const most = new Map<string, number>();
  for (const { line, way } of lines) {
    const own = closersOf(line, way!, shelf, units === 'inch');
    for (const words of own) most.set(words, Math.max(most.get(words) ?? 0, own.filter((one) => one === words).length));
  }
  return [...most]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([words, count]) => ({ text: words, figure: String(count) }));
}

const barWords = (bar: number, units: FlowUnits): string => pressureWords(bar * PA_BAR, units);

function pressedStep({ line, way }: BookLine, shelf: BookInput['shelf'], units: FlowUnits): CheckStep {
  const { bar, isUsual } = workingPressure(line);
  return {
    text: `${line.id} ${line.name ?? line.duty}: ${countedWords(closersOf(line, way!, shelf, units === 'inch'))}`,
    figure: `${barWords(proofBar(line), units)} (${PROOF_FACTOR} × ${barWords(bar, units)}${isUsual ? ', usual for its duty: not stated in the car' : ''})`,
    fill: units === 'inch' ? 'psi' : 'bar',
  };
}
