import type { Source } from './source.ts';

/** Works on radiation by rays: a part of the one bibliography. */
export const raySources = [
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
