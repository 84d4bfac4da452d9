import type { Source } from './source.ts';

/** Rows that the room `levers` rests on. */
export const leverSources = [
  { id: 'lever-statics', title: 'Statics of levers and rods; Pascal: pressure is force over area', known: 'computed' },
  {
    id: 'capstan-1762',
    title: 'Euler, friction of a rope round a cylinder (the capstan or belt friction equation)',
    year: 1762,
    place: 'as given in an encyclopaedia page on the capstan equation, with its table of turns',
    known: 'second-hand',
  },
  {
    id: 'freudenstein-1954',
    title: 'Freudenstein, An analytical approach to the design of four-link mechanisms',
    year: 1954,
    place: 'as worked in a textbook of machine design',
    known: 'from-memory',
  },
  {
    id: 'lever-forces',
    title: 'Encyclopaedia of occupational health: levers',
    place: 'push and pull of one hand 12 to 22 kg, the control before the body',
    known: 'second-hand',
  },
  {
    id: 'brake-force-rule',
    title: 'Uniform provisions for the braking of passenger cars (UN regulation 13-H)',
    place: 'parking brake: 400 N by hand, 500 N by foot',
    known: 'from-memory',
  },
  {
    id: 'pedal-ratio-note',
    title: 'A workshop page on pedal ratio and master cylinder bore',
    place: '100 to 150 lbf of leg force usable, 300 lbf the most; 600 to 1000 psi wanted',
    known: 'read',
  },
] as const satisfies readonly Source[];
