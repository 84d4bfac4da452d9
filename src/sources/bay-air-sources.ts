import type { Source } from './source.ts';

/** Works that the air of a bay is worked out with: a part of the one bibliography. */
export const bayAirSources = [
  {
    id: 'two-orifice-stack',
    title: 'Orifices in a column of warm air: Bernoulli and hydrostatics, closed form',
    known: 'computed',
  },
  {
    id: 'ashrae-1997-ventilation',
    title: 'ASHRAE Fundamentals, ventilation and infiltration',
    year: 1997,
    place: 'equations 37 and 38, page 25.13, as a translation quotes them',
    known: 'second-hand',
  },
  {
    id: 'ufc-3-440-06n',
    title: 'UFC 3-440-06N, cooling buildings by natural ventilation',
    place: 'design sheet, step 18; the square root lost in the scan is restored',
    known: 'second-hand',
  },
  {
    id: 'kiel-wilson-1986',
    title: 'Kiel and Wilson, Gravity-driven flows through open doors',
    year: 1986,
    place: 'a third of the opening, and the coefficient of ASHRAE equation 38',
    known: 'from-memory',
  },
  {
    id: 'epstein-1988',
    title: 'Epstein, Buoyancy-driven exchange flow through small openings in horizontal partitions',
    year: 1988,
    place: 'thin openings',
    known: 'from-memory',
  },
  {
    id: 'applied-fluid-dynamics-handbook',
    title: 'Applied fluid dynamics handbook: losses of screens and thin plates',
    year: 1984,
    place: 'tables read in an open library that cites it',
    known: 'second-hand',
  },
] as const satisfies readonly Source[];
