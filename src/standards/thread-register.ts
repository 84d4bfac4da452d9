import type { Formula } from '#sources';
import { of } from './given.ts';
import {
  hexAcrossCorners,
  metricTensileArea,
  taperPitchDiameterAtEnd,
  taperPitchDiameterHandTight,
  threadInternalMinor,
  threadPitchDiameter,
  unifiedTensileArea,
} from './thread-formulas.ts';

const major = { name: 'majorMm', unit: 'mm', range: [1, 200], text: 'major diameter of the thread' } as const;
const pitch = {
  name: 'pitchMm',
  unit: 'mm',
  range: [0.2, 6],
  text: 'pitch; 25.4 over the threads to the inch',
} as const;
/** -16 O-ring boss: 1 5/16-12. */
const boss16 = { majorMm: 33.3375, pitchMm: 2.116667 } as const;

/** The formulas of threads and hexes, as the register lists them. */
export const threadFormulas: readonly Formula[] = [
  {
    id: 'thread-pitch-diameter',
    title: 'Basic pitch diameter of a 60-degree thread',
    equation: 'd2 = D - 0.649519 P',
    inputs: [major, pitch],
    result: { unit: 'mm', text: 'pitch diameter' },
    source: 'asme-b1-1',
    known: 'computed',
    example: { given: boss16, gives: 31.963, digits: 3 },
    evaluate: (g) => threadPitchDiameter(of(g, 'majorMm'), of(g, 'pitchMm')),
  },
  {
    id: 'thread-internal-minor',
    title: 'Basic minor diameter of an internal 60-degree thread',
    equation: 'D1 = D - 1.082532 P',
    inputs: [major, pitch],
    result: { unit: 'mm', text: 'internal minor diameter' },
    source: 'asme-b1-1',
    known: 'computed',
    example: { given: boss16, gives: 31.046, digits: 3 },
    evaluate: (g) => threadInternalMinor(of(g, 'majorMm'), of(g, 'pitchMm')),
  },
  {
    id: 'unified-tensile-area',
    title: 'Tensile stress area of a unified inch thread',
    equation: 'At = pi/4 (D - 0.9743 P)^2',
    inputs: [major, pitch],
    result: { unit: 'mm2', text: 'stress area' },
    source: 'asme-b1-1',
    known: 'computed',
    example: { given: boss16, gives: 768.2, digits: 1 },
    evaluate: (g) => unifiedTensileArea(of(g, 'majorMm'), of(g, 'pitchMm')),
  },
  {
    id: 'metric-tensile-area',
    title: 'Tensile stress area of a metric thread',
    equation: 'As = pi/4 (d - 0.9382 P)^2',
    inputs: [{ ...major, range: [1, 100] }, pitch],
    result: { unit: 'mm2', text: 'stress area' },
    source: 'iso-898-1',
    known: 'from-memory',
    example: { given: { majorMm: 10, pitchMm: 1.5 }, gives: 57.99, digits: 2 },
    evaluate: (g) => metricTensileArea(of(g, 'majorMm'), of(g, 'pitchMm')),
  },
  {
    id: 'taper-pitch-diameter-at-end',
    title: 'Pitch diameter at the small end of a taper pipe thread (E0)',
    equation: 'E0 = D - (0.05 D + 1.1) p',
    inputs: [
      { name: 'pipeOdIn', unit: 'in', range: [0.3, 24], text: 'outside of the pipe' },
      { name: 'pitchIn', unit: 'in', range: [0.03, 0.13], text: 'pitch; 1 over the threads to the inch' },
    ],
    result: { unit: 'in', text: 'pitch diameter at the small end' },
    source: 'asme-b1-20-1',
    known: 'computed',
    example: { given: { pipeOdIn: 0.405, pitchIn: 0.037037 }, gives: 0.36351, digits: 5 },
    evaluate: (g) => taperPitchDiameterAtEnd(of(g, 'pipeOdIn'), of(g, 'pitchIn')),
  },
  {
    id: 'taper-pitch-diameter-hand-tight',
    title: 'Pitch diameter of a taper pipe thread at the hand-tight plane (E1)',
    equation: 'E1 = E0 + L1 / 16',
    inputs: [
      { name: 'endPitchDiameterIn', unit: 'in', range: [0.2, 24], text: 'pitch diameter at the small end, E0' },
      { name: 'handTightIn', unit: 'in', range: [0.1, 3], text: 'hand-tight engagement, L1' },
    ],
    result: { unit: 'in', text: 'pitch diameter at the hand-tight plane' },
    source: 'asme-b1-20-1',
    known: 'computed',
    example: { given: { endPitchDiameterIn: 0.36351, handTightIn: 0.1615 }, gives: 0.3736, digits: 4 },
    evaluate: (g) => taperPitchDiameterHandTight(of(g, 'endPitchDiameterIn'), of(g, 'handTightIn')),
  },
  {
    id: 'hex-across-corners',
    title: 'Width across the corners of a sharp hexagon',
    equation: 'c = 2 a / sqrt(3)',
    inputs: [{ name: 'acrossFlatsMm', unit: 'mm', range: [3, 150], text: 'width across flats' }],
    result: { unit: 'mm', text: 'width across corners, the greatest it can be' },
    source: 'geometry',
    known: 'computed',
    example: { given: { acrossFlatsMm: 31.75 }, gives: 36.66, digits: 2 },
    evaluate: (g) => hexAcrossCorners(of(g, 'acrossFlatsMm')),
  },
];
