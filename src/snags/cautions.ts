import type { Car, Line } from '#car';

/** What can hurt someone on this car's lines, for the foot of a list: the usual cautions; rules and qualified people come first. */
export function cautionsFor(car: Car): string[] {
  const duties = new Set<string>(car.lines.map((line) => line.duty));
  const has = (...names: readonly string[]): boolean => names.some((name) => duties.has(name));
  const out: string[] = [];
  if (has('oil-suction', 'oil-pressure', 'oil-return', 'oil-scavenge', 'oil-drain', 'oil-vent'))
    out.push(
      'Oil runs hot enough to burn and is under pressure while the engine turns: let it stop and cool before a joint is opened; a leak near the exhaust burns.',
    );
  if (has('fuel', 'fuel-return', 'fuel-vent'))
    out.push(
      'Fuel lines hold pressure after the pump stops, and vapour lights far from the leak: bleed them down into a can outdoors, ignition off, extinguisher at hand.',
    );
  if (has('brake', 'clutch'))
    out.push(
      'Brake and clutch lines: only hose, tube and fittings made for it, made up and proved by someone qualified; bleed and try them standing before the car moves.',
    );
  if (car.parts.some((part) => part.class === 'hot'))
    out.push(
      'Hot parts burn long after switching off, and oil, fuel or brake fluid on them lights: let them cool before hands go in, keep an extinguisher at hand; temperatures worked out here do not say that something cannot burn.',
    );
  if (has('water', 'water-bleed')) out.push('Coolant under its cap is hotter than boiling: open it cold only.');
  if (has('charge-air', 'air'))
    out.push('Charge hoses blow off with force: stand clear of their ends when the engine is first run under load.');
  if (car.movers.length > 0 || car.parts.some((part) => part.class === 'moving'))
    out.push('Belts, shafts and fans turn when the engine does: hands, hoses and tools stay out.');
  out.push(
    "Prove every hose with liquid, ends held, behind a guard, before it is fitted. What the event's rules, local codes and a qualified person say comes before this list.",
  );
  return out;
}

/** What can hurt someone on one line, and on what it passes. */
export function lineCautions(car: Car, line: Line, beside: Iterable<string>): string[] {
  const near = new Set(beside);
  return cautionsFor({ ...car, lines: [line], movers: [], parts: car.parts.filter((part) => near.has(part.id)) });
}
