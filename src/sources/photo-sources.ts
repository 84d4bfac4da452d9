import type { Source } from './source.ts';

/** What the outline from a photo rests on. */
export const photoSources = [
  {
    id: 'hartley-zisserman-2004',
    title: 'Multiple View Geometry in Computer Vision',
    edition: '2nd',
    year: 2004,
    place: 'chapters 4 (projective maps by least squares), 6, 7 (cameras, radial terms)',
    known: 'from-memory',
  },
  {
    id: 'zhang-2000',
    title: 'A flexible new technique for camera calibration',
    year: 2000,
    place: 'section 3.1: a camera from the view of one plane',
    known: 'from-memory',
  },
  {
    id: 'devernay-faugeras-2001',
    title: 'Straight lines have to be straight',
    year: 2001,
    place: 'the lens from edges that are straight in the world',
    known: 'from-memory',
  },
  {
    id: 'finlayson-2006',
    title: 'On the removal of shadows from images',
    year: 2006,
    place: 'ratios of colours that shade leaves as they are',
    known: 'from-memory',
  },
  {
    id: 'fisher-1936',
    title: 'The use of multiple measurements in taxonomic problems',
    year: 1936,
    place: 'the mixture that tells two kinds apart best',
    known: 'from-memory',
  },
  {
    id: 'kasa-1976',
    title: 'A circle fitting procedure and its error analysis',
    year: 1976,
    known: 'from-memory',
  },
  {
    id: 'pearson-1901',
    title: 'On lines and planes of closest fit to systems of points in space',
    year: 1901,
    known: 'from-memory',
  },
  { id: 'bellman-1961', title: 'On the approximation of curves by line segments', year: 1961, known: 'from-memory' },
  { id: 'rissanen-1978', title: 'Modeling by shortest data description', year: 1978, known: 'from-memory' },
  {
    id: 'abramowitz-stegun-1964',
    title: 'Handbook of Mathematical Functions',
    year: 1964,
    place: '26.2.23',
    known: 'from-memory',
  },
  { id: 'iec-61966-2-1', title: 'IEC 61966-2-1, default RGB colour space (sRGB)', year: 1999, known: 'from-memory' },
  {
    id: 'cipa-dc-008',
    title: 'Exchangeable image file format for digital still cameras (Exif)',
    place: 'tags 0112 (orientation), A405 (focal length for a full frame)',
    known: 'from-memory',
  },
] as const satisfies readonly Source[];
