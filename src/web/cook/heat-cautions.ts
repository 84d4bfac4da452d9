import type { Car } from '#car';

/** What can hurt someone who works on what is hot; rules and qualified people come first. */
export function heatCautions(car: Car): readonly string[] {
  const has = (...words: readonly string[]): boolean =>
    car.lines.some(({ duty }) => words.some((word) => duty.startsWith(word)));
  return [
    'Turbine, manifold and exhaust burn skin for half an hour and more after switching off: let them cool, or wear gloves made for it, before a hand goes in.',
    ...(has('fuel', 'oil')
      ? [
          'A mist of oil or fuel lights on a surface far below red heat: a leak near what is hot comes before every number here. Extinguisher at hand.',
        ]
      : []),
    ...(has('water') ? ['Water under its cap is hotter than boiling after switching off too: open it cold only.'] : []),
    'Temperatures here are worked out, with the error stated: prove them with strips and probes on the car. A fire sleeve buys time in a flame; it keeps nothing cool in a soak.',
    "What the event's rules, local codes and a qualified person say comes before this list.",
  ];
}
