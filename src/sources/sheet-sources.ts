import type { Source } from './source.ts';

/** Works that sheet metal's numbers come from: a part of the one bibliography. */
export const sheetSources = [
  {
    id: 'faa-ac-43-13-1b-sheet',
    title: 'FAA AC 43.13-1B, sheet: setback, least bend radii, rivet spacing',
    year: 1998,
    place: 'paragraphs 4-56 to 4-58, table 4-6 (rows of 6061-O and 7075 aligned by hand)',
    known: 'read',
  },
  {
    id: 'navy-bend-allowance',
    title: 'US Navy training manual, aviation structural mechanic: bend allowance',
    place: 'BA = (0.0173 R + 0.0078 T) N; the FAA handbook prints 0.01743 R',
    known: 'read',
  },
  {
    id: 'navy-14018-rivets',
    title: 'US Navy training manual 14018: rivet spacing',
    place: 'chapter 13',
    known: 'read',
  },
  {
    id: 'faa-airframe-sheet',
    title: 'FAA aviation maintenance handbook, airframe: folding a box, relief holes',
    place: 'chapter 4, read in a copy',
    known: 'second-hand',
  },
  {
    id: 'machinists-handbook-26',
    title: "Machinists' handbook: where the neutral line lies in a bend",
    edition: '26th',
    known: 'second-hand',
  },
  {
    id: 'mil-hdbk-5',
    title: 'MIL-HDBK-5, metallic materials and elements: typical design minima',
    known: 'from-memory',
  },
  { id: 'iso-273-medium', title: 'ISO 273, clearance holes for bolts and screws, medium', known: 'from-memory' },
  { id: 'least-squares', title: 'Least squares of observations with known spread, closed form', known: 'computed' },
] as const satisfies readonly Source[];
