import type { Duty } from '#car';
import type { Lengths } from './lengths.ts';

/** How places and turns are to be read, at the head of every card. */
export const conventionsIn = (lengths: Lengths): string =>
  `Places are X rearward of the front axle line, Y to the car's right, Z up [${lengths.unit}]. Clocks are seen looking into the port, 12 = up; forward where the port faces within 30° of straight up or down.`;

const pressure =
  'Under pressure in use: prove the made line with liquid, ends held, behind a guard, before it is fitted.';
const deference = "The event's rules, local codes and a qualified person come before this card.";
const hotOil = 'Oil runs hot enough to burn: open joints only with the engine stopped and cold.';
const fuel = 'Fuel burns: bleed pressure down into a can outdoors, ignition off, extinguisher at hand.';
const brake = 'Brakes and clutch: only hose, tube and fittings made for it, made up and proved by someone qualified.';
const water = 'Coolant is hotter than boiling under its cap: open it cold.';
const air = 'Charge hoses blow off with force: stand clear of their ends under load.';

const byDuty: Readonly<Record<Duty, readonly string[]>> = {
  'oil-suction': [hotOil],
  'oil-pressure': [hotOil, pressure],
  'oil-scavenge': [hotOil],
  'oil-return': [hotOil, pressure],
  'oil-drain': [hotOil],
  'oil-vent': [hotOil],
  water: [water],
  'water-bleed': [water],
  fuel: [fuel, pressure],
  'fuel-return': [fuel],
  'fuel-vent': [fuel],
  brake: [brake, pressure],
  clutch: [brake, pressure],
  air: [],
  'charge-air': [air],
};

/** What can hurt someone on a line of this duty, in a few sentences. */
export const cautionsOn = (duty: Duty): string => [...byDuty[duty], deference].join(' ');
