import type { Source } from './source.ts';

/** Works that the strength of panels and brackets comes from: a part of the one bibliography. */
export const plateSources = [
  { id: 'plate-theory', title: 'Thin plate of Kirchhoff and Navier, closed form', known: 'computed' },
  { id: 'plastic-moment', title: 'Full plastic moment of a rectangle, closed form', known: 'computed' },
  {
    id: 'timoshenko-plates',
    title: 'Timoshenko and Woinowsky-Krieger, Theory of plates and shells',
    year: 1959,
    place: 'tables 8 and 35',
    known: 'from-memory',
  },
  {
    id: 'timoshenko-stability',
    title: 'Timoshenko and Gere, Theory of elastic stability',
    year: 1961,
    place: 'chapter 9',
    known: 'from-memory',
  },
  { id: 'leissa-1969', title: 'Leissa, Vibration of plates, NASA SP-160', year: 1969, known: 'from-memory' },
  {
    id: 'warburton-1954',
    title: 'Warburton, The vibration of rectangular plates',
    year: 1954,
    place: 'one beam shape either way',
    known: 'from-memory',
  },
  {
    id: 'peterson',
    title: 'Peterson, Stress concentration factors',
    place: 'charts 4.1 and 4.50',
    known: 'from-memory',
  },
  {
    id: 'inglis-1913',
    title: 'Inglis, Stresses in a plate due to cracks and sharp corners',
    year: 1913,
    known: 'from-memory',
  },
  {
    id: 'dkt-1980',
    title: 'Batoz, Bathe and Ho, A study of three-node triangular plate bending elements',
    year: 1980,
    known: 'from-memory',
  },
  {
    id: 'lug-handbook',
    title: 'Handbooks of airframe joints: net section, tear-out and bearing of a lug',
    known: 'from-memory',
  },
  {
    id: 'perforated-sheet',
    title: 'Open share of hole patterns and woven wire',
    place: 'derivation read',
    known: 'read',
  },
] as const satisfies readonly Source[];
