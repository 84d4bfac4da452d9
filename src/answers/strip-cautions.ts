import type { LinesWorld } from '#lines';

/** What of a step of a strip-down asks for care. */
interface CareOf {
  readonly opens: readonly { readonly line: string }[];
  readonly lift?: { readonly by: string } | null | undefined;
}

/** The usual cautions for what a strip-down opens and lifts. */
export function cautionsOf({ car }: LinesWorld, steps: readonly CareOf[]): string[] {
  const duties = new Set(
    steps.flatMap(({ opens }) => opens.map(({ line }) => car.lines.find(({ id }) => id === line)?.duty ?? '')),
  );
  const has = (...words: string[]): boolean => words.some((word) => [...duties].some((duty) => duty.startsWith(word)));
  const said: readonly (readonly [boolean, string])[] = [
    [
      steps.length > 0,
      'On stands, engine off, battery isolated; let it cool first. What is worked on is judged by a qualified person and by the rules of the event.',
    ],
    [
      has('oil'),
      'Hot oil burns: let it cool, wear gloves and glasses, catch what runs; clean up before anything is started.',
    ],
    [has('water'), 'Coolant stands under pressure while hot: open the cap only when cold.'],
    [has('fuel'), 'Fuel: let its pressure down first, no flame or spark, an extinguisher at hand, catch what runs.'],
    [
      has('brake', 'clutch'),
      'Brakes or clutch: fresh fluid, bled and tried before the car moves; have the work looked at by a second person.',
    ],
    [steps.some(({ lift }) => lift?.by === 'hoist'), 'Lifting: sling and hoist rated for the load, nobody under it.'],
  ];
  return said.flatMap(([holds, words]) => (holds ? [words] : []));
}
