import { bayAirSources } from './bay-air-sources.ts';
import type { Source } from './source.ts';

/** Works that the heat room's numbers come from: a part of the one bibliography. */
export const heatSources = [
  ...bayAirSources,
  {
    id: 'churchill-chu-1975',
    title: 'Churchill and Chu, Correlating equations for laminar and turbulent free convection',
    year: 1975,
    place: 'horizontal cylinder, and vertical plate: read in an open library that cites them',
    known: 'second-hand',
  },
  {
    id: 'churchill-bernstein-1977',
    title: 'Churchill and Bernstein, A correlating equation for forced convection from gases and liquids to a cylinder',
    year: 1977,
    place: 'read in an open library that cites it, with a textbook example',
    known: 'second-hand',
  },
  {
    id: 'heat-transfer-textbook',
    title: 'Fundamentals of heat and mass transfer, a standard university textbook',
    place: 'horizontal plates, flat plate in a stream, mixed convection: recalled',
    known: 'from-memory',
  },
  {
    id: 'gnielinski-1976',
    title: 'Gnielinski, New equations for heat and mass transfer in turbulent pipe flow; 2013 for the part between',
    year: 1976,
    known: 'from-memory',
  },
  { id: 'hausen-1943', title: 'Hausen, laminar pipe flow with its entry', year: 1943, known: 'from-memory' },
  {
    id: 'grey-exchange',
    title: 'Exchange between grey diffuse surfaces as resistances in series, closed form',
    known: 'computed',
  },
  { id: 'heat-conduction', title: 'Steady conduction through plane and round walls, closed form', known: 'computed' },
  { id: 'lumped-cooling', title: 'A body of one temperature that cools, closed form', known: 'computed' },
  {
    id: 'codata-2018',
    title: 'CODATA recommended values',
    year: 2018,
    place: 'Stefan-Boltzmann',
    known: 'from-memory',
  },
  {
    id: 'emissivity-tables',
    title: 'Tables of total emissivity: total normal emissivity page, and effective emissivity of a university course',
    place: 'excerpts read',
    known: 'second-hand',
  },
  {
    id: 'stainless-appendix',
    title: 'Textbook appendix of thermophysical properties: AISI 302, 304, 316, 347',
    place: 'pages 905 to 907, quoted in a public model source',
    known: 'second-hand',
  },
  {
    id: 'materials-database',
    title: 'Open materials databases: AISI 304, 321H, 6061-T6, EPDM, PTFE',
    place: 'property pages, excerpts read',
    known: 'second-hand',
  },
  {
    id: 'sleeve-crew-report',
    title: "A race crew's report of its fire sleeve: 500 degF for good, 2000 degF for a short time",
    known: 'second-hand',
  },
  {
    id: 'sobol-directions-2008',
    title: "Joe and Kuo, Constructing Sobol' sequences with better two-dimensional projections",
    year: 2008,
    place: 'direction numbers new-joe-kuo-6, dimensions 2 to 8, as printed in open sources',
    known: 'second-hand',
  },
  {
    id: 'owen-scrambling-1998',
    title: "Owen, Scrambling Sobol' and Niederreiter-Xing points",
    year: 1998,
    place: 'nested uniform scrambling; error from independent replicates',
    known: 'from-memory',
  },
  {
    id: 'hash-scrambling-2020',
    title: 'Burley, Practical hash-based Owen scrambling; hash as bettered in a public article of 2021',
    year: 2020,
    place: 'the hash, read in open sources that cite both',
    known: 'second-hand',
  },
  {
    id: 'view-factor-forms',
    title: 'Closed forms of view factors from a published catalogue of radiation configuration factors',
    place: 'discs, rectangles, spheres, cylinders, strips, elements; numerical integration agrees',
    known: 'computed',
  },
] as const satisfies readonly Source[];
