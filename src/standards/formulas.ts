import type { Formula } from '#sources';
import {
  bendArc,
  bendTestFreeLength,
  boreArea,
  centrelineRadius,
  clampCount,
  dashTubeOd,
  hoseCutLength,
  hoseEndFactor,
  lengthUnderPressure,
  slackBendRadius,
  slackLength,
  straightBehindFitting,
  thinTubeWall,
} from './hose-formulas.ts';
import {
  hexAcrossCorners,
  metricTensileArea,
  taperPitchDiameterAtEnd,
  taperPitchDiameterHandTight,
  threadInternalMinor,
  threadPitchDiameter,
  unifiedTensileArea,
} from './thread-formulas.ts';

type Given = Readonly<Record<string, number>>;
/** `workFormula` has checked that every input is there; a missing one would give NaN, which it refuses. */
const of = (given: Given, name: string): number => given[name] ?? Number.NaN;

const major = { name: 'majorMm', unit: 'mm', range: [1, 200], text: 'major diameter of the thread' } as const;
const pitch = {
  name: 'pitchMm',
  unit: 'mm',
  range: [0.2, 6],
  text: 'pitch; 25.4 over the threads to the inch',
} as const;
/** -16 O-ring boss: 1 5/16-12. */
const boss16 = { majorMm: 33.3375, pitchMm: 2.116667 } as const;

const threadFormulas: readonly Formula[] = [
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

const od = { name: 'odMm', unit: 'mm', range: [3, 150], text: 'hose outside diameter' } as const;
const slack = {
  name: 'slackShare',
  unit: '-',
  range: [0, 0.15],
  text: 'slack as a share of the length; 0.05 to 0.08 is usual',
} as const;
const small = (name: string, text: string) => ({ name, unit: 'mm', range: [0, 200] as const, text });

const hoseFormulas: readonly Formula[] = [
  {
    id: 'hose-cut-length',
    title: 'Length to cut a hose to',
    equation: 'cut = overall - first - second',
    inputs: [
      { name: 'overallMm', unit: 'mm', range: [50, 10000], text: 'seat to seat along the centreline' },
      { name: 'firstFactorMm', unit: 'mm', range: [0, 300], text: 'what the first end takes' },
      { name: 'secondFactorMm', unit: 'mm', range: [0, 300], text: 'what the second end takes' },
    ],
    result: { unit: 'mm', text: 'hose length' },
    source: 'navy-14018',
    known: 'read',
    example: { given: { overallMm: 1000, firstFactorMm: 25.4, secondFactorMm: 25.4 }, gives: 949.2, digits: 1 },
    evaluate: (g) => hoseCutLength(of(g, 'overallMm'), of(g, 'firstFactorMm'), of(g, 'secondFactorMm')),
  },
  {
    id: 'hose-end-factor',
    title: 'What a hose end takes of the overall length',
    equation: 'f = nut + R theta + after + socket - insert',
    inputs: [
      small('nutMm', 'straight from the seat to the bend'),
      small('bendRadiusMm', 'centreline radius of the bend'),
      { name: 'angleDeg', unit: 'deg', range: [0, 180], text: 'angle bent through' },
      small('afterBendMm', 'straight from the bend to the socket'),
      small('socketMm', 'length of the socket'),
      small('insertMm', 'hose inside the socket'),
    ],
    result: { unit: 'mm', text: 'cut-off factor of this end' },
    source: 'geometry',
    known: 'computed',
    example: {
      given: { nutMm: 33, bendRadiusMm: 30, angleDeg: 90, afterBendMm: 8, socketMm: 26, insertMm: 24 },
      gives: 90.1,
      digits: 1,
    },
    evaluate: (g) =>
      hoseEndFactor(
        of(g, 'nutMm'),
        of(g, 'bendRadiusMm'),
        of(g, 'angleDeg'),
        of(g, 'afterBendMm'),
        of(g, 'socketMm'),
        of(g, 'insertMm'),
      ),
  },
  {
    id: 'bend-test-free-length',
    title: 'Free length of hose for the bend of the impulse test',
    equation: 'L = pi (r + d/2) + 2 s for d <= 22 mm; L = (pi/2) (r + d/2) + 2 s above; s = max(d, 25.4)',
    inputs: [
      { name: 'insideRadiusMm', unit: 'mm', range: [10, 1000], text: 'least bend radius to the inside of the bend' },
      { ...od, range: [5, 100] },
    ],
    result: { unit: 'mm', text: 'free length between the fittings' },
    source: 'sae-j343',
    known: 'read',
    example: { given: { insideRadiusMm: 100, odMm: 20 }, gives: 396.4, digits: 1 },
    evaluate: (g) => bendTestFreeLength(of(g, 'insideRadiusMm'), of(g, 'odMm')),
  },
  {
    id: 'straight-behind-fitting',
    title: 'Straight hose to leave behind a fitting',
    equation: 's = max(d, 25.4)',
    inputs: [{ ...od, range: [3, 100] }],
    result: { unit: 'mm', text: 'straight length' },
    source: 'sae-j343',
    known: 'read',
    example: { given: { odMm: 31 }, gives: 31, digits: 0 },
    evaluate: (g) => straightBehindFitting(of(g, 'odMm')),
  },
  {
    id: 'centreline-radius',
    title: 'Bend radius to the centreline from one stated to the inside',
    equation: 'R = r + d/2',
    inputs: [{ name: 'insideRadiusMm', unit: 'mm', range: [5, 2000], text: 'radius to the inside of the bend' }, od],
    result: { unit: 'mm', text: 'radius to the centreline' },
    source: 'army-tm-1-1500',
    known: 'read',
    example: { given: { insideRadiusMm: 187.5, odMm: 31.2 }, gives: 203.1, digits: 1 },
    evaluate: (g) => centrelineRadius(of(g, 'insideRadiusMm'), of(g, 'odMm')),
  },
  {
    id: 'bore-area',
    title: 'Area of a round bore',
    equation: 'A = pi d^2 / 4',
    inputs: [{ name: 'boreMm', unit: 'mm', range: [0, 500], text: 'bore' }],
    result: { unit: 'mm2', text: 'area' },
    source: 'geometry',
    known: 'computed',
    example: { given: { boreMm: 22.2 }, gives: 387.1, digits: 1 },
    evaluate: (g) => boreArea(of(g, 'boreMm')),
  },
  {
    id: 'slack-length',
    title: 'Length of a near-straight hose with slack',
    equation: 'L = chord (1 + e)',
    inputs: [{ name: 'chordMm', unit: 'mm', range: [50, 10000], text: 'straight distance between the sockets' }, slack],
    result: { unit: 'mm', text: 'flexible length' },
    source: 'navy-14105',
    known: 'read',
    example: { given: { chordMm: 600, slackShare: 0.05 }, gives: 630, digits: 0 },
    evaluate: (g) => slackLength(of(g, 'chordMm'), of(g, 'slackShare')),
  },
  {
    id: 'length-under-pressure',
    title: 'Length of a hose after pressure has changed it',
    equation: "L' = L (1 + c)",
    inputs: [
      { name: 'lengthMm', unit: 'mm', range: [50, 10000], text: 'flexible length without pressure' },
      { name: 'changeShare', unit: '-', range: [-0.04, 0.02], text: 'change as a share of the length' },
    ],
    result: { unit: 'mm', text: 'length under pressure' },
    source: 'faa-ac-43-13-1b',
    known: 'read',
    example: { given: { lengthMm: 600, changeShare: -0.04 }, gives: 576, digits: 0 },
    evaluate: (g) => lengthUnderPressure(of(g, 'lengthMm'), of(g, 'changeShare')),
  },
  {
    id: 'slack-bend-radius',
    title: 'Tightest radius of a hose held straight at both ends with a little slack',
    equation: 'R = L / (4 pi sqrt(e))',
    inputs: [
      { name: 'chordMm', unit: 'mm', range: [50, 5000], text: 'distance between the two held ends' },
      { ...slack, range: [0.001, 0.1] },
    ],
    result: { unit: 'mm', text: 'radius at the tightest place' },
    source: 'geometry',
    known: 'computed',
    example: { given: { chordMm: 600, slackShare: 0.05 }, gives: 214, digits: 0 },
    evaluate: (g) => slackBendRadius(of(g, 'chordMm'), of(g, 'slackShare')),
  },
  {
    id: 'clamp-count',
    title: 'Clamps needed between two ends',
    equation: 'n = ceil(L / s) - 1',
    inputs: [
      { name: 'lengthMm', unit: 'mm', range: [0, 20000], text: 'length between the two ends' },
      { name: 'spacingMm', unit: 'mm', range: [50, 2000], text: 'most free length' },
    ],
    result: { unit: '-', text: 'number of clamps' },
    source: 'navy-14105',
    known: 'read',
    example: { given: { lengthMm: 1300, spacingMm: 610 }, gives: 2, digits: 0 },
    evaluate: (g) => clampCount(of(g, 'lengthMm'), of(g, 'spacingMm')),
  },
];

const tubeFormulas: readonly Formula[] = [
  {
    id: 'bend-arc',
    title: 'Developed length of a bend, without springback',
    equation: 'L = R theta',
    inputs: [
      { name: 'radiusMm', unit: 'mm', range: [0, 5000], text: 'centreline radius' },
      { name: 'angleDeg', unit: 'deg', range: [0, 360], text: 'angle bent through' },
    ],
    result: { unit: 'mm', text: 'length of the arc' },
    source: 'geometry',
    known: 'computed',
    example: { given: { radiusMm: 76, angleDeg: 90 }, gives: 119.4, digits: 1 },
    evaluate: (g) => bendArc(of(g, 'radiusMm'), of(g, 'angleDeg')),
  },
  {
    id: 'thin-tube-wall',
    title: 'Wall that a thin tube needs for a pressure',
    equation: 't = p D / (2 S)',
    inputs: [
      {
        name: 'pressureBar',
        unit: 'bar',
        range: [0, 700],
        text: 'gauge pressure, with the factor wanted already in it',
      },
      { ...od, text: 'tube outside diameter' },
      { name: 'stressMpa', unit: 'MPa', range: [10, 600], text: 'stress allowed' },
    ],
    result: { unit: 'mm', text: "wall; the bend's thinning is not in it" },
    source: 'thin-wall-statics',
    known: 'computed',
    example: { given: { pressureBar: 40, odMm: 19.05, stressMpa: 40 }, gives: 0.953, digits: 3 },
    evaluate: (g) => thinTubeWall(of(g, 'pressureBar'), of(g, 'odMm'), of(g, 'stressMpa')),
  },
  {
    id: 'dash-tube-od',
    title: 'Outside diameter of the tube that a dash size stands for',
    equation: 'D = 25.4 n / 16',
    inputs: [{ name: 'dash', unit: '-', range: [2, 32], text: 'dash size' }],
    result: { unit: 'mm', text: 'tube outside diameter' },
    source: 'faa-general',
    known: 'second-hand',
    example: { given: { dash: 12 }, gives: 19.05, digits: 2 },
    evaluate: (g) => dashTubeOd(of(g, 'dash')),
  },
];

/** This room's formulas, as the register lists them. */
export const formulas: readonly Formula[] = [...threadFormulas, ...hoseFormulas, ...tubeFormulas];
