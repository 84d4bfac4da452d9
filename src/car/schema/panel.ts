import { z } from 'zod';
import {
  direction,
  fields,
  flag,
  id,
  integer,
  lengthMm,
  list,
  number,
  oneOf,
  pointMm,
  positive,
  rowId,
  text,
  toleranceMm,
} from './fields.ts';
import { heatOfPanel } from './heat.ts';

const flatMm = (about: string) => number(about, -100_000, 100_000, 'mm');
const flatPoint = (about: string) =>
  z.tuple([flatMm(''), flatMm('')], { error: 'two numbers [x, y] in mm' }).describe(about);
const outlinePoint = z
  .union([z.tuple([flatMm(''), flatMm('')]), z.tuple([flatMm(''), flatMm(''), number('', -1000, 1000, '')])], {
    error: 'two numbers [x, y] in mm, or three [x, y, bulge] where an arc leaves the point',
  })
  .describe('A corner, and the bulge of the side that leaves it: tan of a quarter of its angle, + to the left');
const outline = (about: string) => list(about, outlinePoint, 10_000);

const between = { from: id('Corner it begins at'), to: id('Corner it ends at') };

export const FIXINGS = ['rivet', 'rivnut', 'screw', 'quarter-turn', 'bond', 'weld'] as const;
export const WINDOW_SHAPES = ['trapezoid', 'slot', 'round', 'hexagon', 'own'] as const;
export const WINDOW_ENDS = ['leaning', 'square'] as const;
export const MESH_KINDS = ['openPercent', 'woven', 'round', 'square', 'hexagon'] as const;

const cornerSchema = fields('A measured corner of a panel', {
  id: id('Id, once within its panel'),
  atMm: pointMm('Where it is on the car [mm]; absent: the tapes place it').optional(),
  knownToMm: toleranceMm('How well it is known [+-mm]; overrides the panel').optional(),
  radiusMm: number('Rounded by this radius [mm]', 0, 10_000, 'mm').optional(),
});

const fixingSchema = fields('What holds an edge', {
  kind: oneOf('Kind', FIXINGS),
  size: text('Size in words, such as M5 or 3.2', 40).optional(),
  holeMm: positive('Hole in the panel [mm]', 100, 'mm').optional(),
  pitchMm: lengthMm('Most distance between two of them [mm]').optional(),
  edgeMm: lengthMm('From their centres to the edge of the sheet [mm]').optional(),
  endMm: lengthMm('From the first one to the end of the edge [mm]').optional(),
  slotMm: number('Slotted along the edge by this, where the panel moves [mm]', 0, 100, 'mm').optional(),
  into: id('Part or panel it holds on to').optional(),
});

const edgeSchema = fields('What is done to one edge', {
  ...between,
  throughMm: list(
    'Points that the edge passes through on the way, in order [mm]',
    pointMm('A point [mm]'),
    1000,
  ).optional(),
  joins: id('Panel that it meets').optional(),
  overlapMm: lengthMm('Lies over what it meets by [mm]').optional(),
  flange: fields('A flange folded up from it', {
    heightMm: lengthMm('Outside height from the outside face [mm]'),
    turnDeg: number('Angle bent through [deg]', 1, 170, 'deg'),
    towards: oneOf('Which way it is folded', ['inside', 'outside']),
    radiusMm: number('Inside radius [mm]; absent: the least that the sheet stands', 0, 1000, 'mm').optional(),
  }).optional(),
  joggle: fields('A step to lie flush under or over what it meets', {
    stepMm: positive('Height of the step [mm]', 100, 'mm'),
    landMm: lengthMm('Land beyond the step [mm]'),
    towards: oneOf('Which way it steps', ['inside', 'outside']),
  }).optional(),
  tabs: fields('Tabs along it', {
    count: integer('How many', 1, 1000),
    widthMm: lengthMm('Width of one [mm]'),
    heightMm: lengthMm('Height of one [mm]'),
    turnDeg: number('Angle bent through; 0 leaves them flat [deg]', 0, 170, 'deg').optional(),
    towards: oneOf('Which way they are folded', ['inside', 'outside']).optional(),
  }).optional(),
  reliefMm: positive(
    'Relief hole where its fold meets another one [mm]; absent: by thickness and radius',
    100,
    'mm',
  ).optional(),
  fixing: fixingSchema.optional(),
  held: oneOf('How it is held, for its strength; absent: as its load says', ['simply', 'clamped', 'free']).optional(),
  sealed: flag('Sealed along its length').optional(),
  note: text('Remark', 2000).optional(),
});

const meshSchema = fields(`Mesh behind an opening: exactly one of ${MESH_KINDS.join(', ')}`, {
  name: text('Name in words', 200).optional(),
  openPercent: number('Share that is open, as its seller states it [%]', 1, 100, '%').optional(),
  woven: fields('Woven wire', {
    openingMm: positive('Clear opening between wires [mm]', 100, 'mm'),
    wireMm: positive('Wire [mm]', 100, 'mm'),
  }).optional(),
  round: fields('Round holes in rows set off by half, 60 degrees', {
    holeMm: positive('Hole [mm]', 100, 'mm'),
    pitchMm: positive('Centre to centre [mm]', 100, 'mm'),
  }).optional(),
  square: fields('Round holes in a square pattern', {
    holeMm: positive('Hole [mm]', 100, 'mm'),
    pitchMm: positive('Centre to centre [mm]', 100, 'mm'),
  }).optional(),
  hexagon: fields('Hexagon holes', {
    acrossFlatsMm: positive('Across flats [mm]', 100, 'mm'),
    pitchMm: positive('Centre to centre [mm]', 100, 'mm'),
  }).optional(),
  frameMm: lengthMm('Width of the frame that holds it all round [mm]').optional(),
  fixing: fixingSchema.optional(),
});

const windowSchema = fields('A window, or a field of windows', {
  id: id('Id, once within its panel'),
  name: text('Name in words', 200).optional(),
  shape: oneOf('Shape of one opening', WINDOW_SHAPES),
  ends: oneOf(
    "How the field's ends stand; absent: those of trapezoids lean with the panel, those of slots stand square, rows of the others lean where more fit",
    WINDOW_ENDS,
  ).optional(),
  count: integer('How many openings in a row', 1, 1000).optional(),
  rows: integer('How many rows', 1, 1000).optional(),
  freeCm2: positive('Free area wanted, mesh counted; the tool chooses the size [cm2]', 1e6, 'cm2').optional(),
  sizeMm: z
    .tuple([positive('', 100_000, 'mm'), positive('', 100_000, 'mm')], { error: 'two lengths [along, across] in mm' })
    .describe('Size of the whole field along and across the edge it follows [mm]')
    .optional(),
  along: fields('Edge that it follows; absent: the longest', between).optional(),
  centreAlongMm: flatMm('Middle of the field, from the first corner of that edge along it [mm]').optional(),
  centreAcrossMm: flatMm('Middle of the field, from that edge inwards [mm]').optional(),
  webMm: lengthMm('Least web between two openings [mm]').optional(),
  edgeMm: lengthMm('Least distance from an opening to the edge, a fold or a fixing [mm]').optional(),
  cornerDrillMm: positive('Drill or hole saw for the corners [mm]', 500, 'mm').optional(),
  outlineMm: outline('Outline of one opening of shape own, from its middle [mm]').optional(),
  inLineWith: list('Panels over which this row goes on in one line', id('Panel'), 100).optional(),
  mesh: meshSchema.optional(),
  lets: oneOf('Which way air is meant to go', ['out', 'in']).optional(),
  note: text('Remark', 2000).optional(),
}).refine((window) => window.shape !== 'own' || (window.outlineMm?.length ?? 0) >= 3, {
  error: 'shape own with an outlineMm of three points or more',
});

const holeSchema = fields('A hole for something that goes through: exactly one of diameterMm, sizeMm', {
  id: id('Id, once within its panel'),
  for: text('What goes through it: the id of a line, lever or part, or words', 200).optional(),
  atMm: pointMm('Where it is on the car [mm]').optional(),
  flatMm: flatPoint(
    'Where it is on the flat, from its first corner along and square to its first edge [mm]',
  ).optional(),
  diameterMm: positive('Diameter [mm]', 5000, 'mm').optional(),
  sizeMm: z
    .tuple([positive('', 100_000, 'mm'), positive('', 100_000, 'mm')], { error: 'two lengths [along, across] in mm' })
    .describe('Along and across the first edge [mm]')
    .optional(),
  cornerDrillMm: positive('Drill for its corners [mm]', 500, 'mm').optional(),
  fitted: oneOf('What sits in it', ['grommet', 'bulkhead-fitting', 'ring', 'plain', 'drain']).optional(),
  note: text('Remark', 2000).optional(),
}).refine((hole) => (hole.diameterMm === undefined) !== (hole.sizeMm === undefined), {
  error: 'exactly one of diameterMm, sizeMm',
});

/** A sheet panel that closes something: as measured on the car. Exactly one of corners and template gives its shape. */
export const panelSchema = fields('A sheet panel, as measured on the car', {
  id: id('Id, once within the car'),
  name: text('Name in words', 200).optional(),
  note: text('Remark', 2000).optional(),
  sheet: rowId('Sheet, such as 5052-H32, 6061-T6, 304, 4130; absent: 5052-H32').optional(),
  thicknessMm: positive('Thickness [mm]', 50, 'mm'),
  kFactor: number('Where the neutral line lies in a bend, share of the thickness', 0.2, 0.6, '').optional(),
  bendRadiusMm: number('Inside radius of its bends [mm]', 0, 1000, 'mm').optional(),
  grain: oneOf('Way of the grain to its first edge', ['along', 'across']).optional(),
  knownToMm: toleranceMm('How well its corners are known [+-mm]').optional(),
  outside: direction('Way its outside face looks, in car axes').optional(),
  top: fields('Edge that is marked TOP; absent: the highest', between).optional(),
  movesWith: id('Mover it hangs on').optional(),
  on: id('Part that it is cut from or lies on: lines that cross that part cross the panel').optional(),
  class: oneOf('Decides the keep-off of lines from it; absent: fixed', ['hot', 'fixed']).optional(),
  fireSide: oneOf('Face towards the engine where it parts a fire from people', ['inside', 'outside']).optional(),
  givesWay: flag(
    'It is cut to the lines: they are planned as if it were not there, and get holes where they meet it; absent: lines keep off it',
  ).optional(),
  removable: flag('Comes off between runs').optional(),
  corners: list('Its corners in order round it', cornerSchema, 200).optional(),
  tapes: list(
    'Distances taped from corner to corner, diagonals above all',
    fields('A tape from corner to corner', {
      ...between,
      mm: lengthMm('Straight-line distance [mm]'),
      knownToMm: toleranceMm('How well it is known [+-mm]').optional(),
    }),
    1000,
  ).optional(),
  onScan: id('Part whose scanned surface its corners stand on: its twist and bow are read there').optional(),
  template: fields('A flat shape taken from a cardboard template', {
    outlineMm: outline('Outline in its own flat axes [mm]'),
    holesMm: list('Openings in it', outline('One opening [mm]'), 1000).optional(),
    knownToMm: toleranceMm('Stated error of the outline [+-mm]').optional(),
    matches: list(
      'Three or more of its points where they are on the car',
      fields('A point and where it is', {
        flatMm: flatPoint('On the template [mm]'),
        atMm: pointMm('On the car [mm]'),
      }),
      1000,
    ),
  }).optional(),
  edges: list('What is done to its edges', edgeSchema, 1000).optional(),
  creases: list(
    'Where a twist is taken up',
    fields('From one corner to another across the panel', {
      ...between,
      kind: oneOf('How; a relief is slit from the corner it begins at', ['crease', 'split', 'relief']),
      overlapMm: lengthMm('A split overlaps by [mm]').optional(),
      neckMm: positive('Metal that a relief leaves at its far corner [mm]', 10_000, 'mm').optional(),
    }),
    100,
  ).optional(),
  windows: list('Windows', windowSchema, 1000).optional(),
  holes: list('Holes for what goes through', holeSchema, 1000).optional(),
  mirrorOf: fields('It is meant as the mirror of another panel; its own corners correct it', {
    panel: id('The master'),
    planeYMm: flatMm('Plane of the mirror, car Y; absent: 0 [mm]').optional(),
  }).optional(),
  ...heatOfPanel,
  load: fields('What it must stand', {
    pressureKpa: number('Pressure across it [kPa]', 0, 1000, 'kPa').optional(),
    shakeG: number('Shaken by [g]', 0, 100, 'g').optional(),
    shakeHz: number('Shaken at; its own frequency should be above [Hz]', 0, 10_000, 'Hz').optional(),
    held: oneOf('How its edges are held', ['simply', 'clamped']).optional(),
    shearNPerMm: number('Shear along its edges [N/mm]', 0, 10_000, 'N/mm').optional(),
    pressNPerMm: number('Pressed along its long way [N/mm]', 0, 10_000, 'N/mm').optional(),
  }).optional(),
}).refine((panel) => (panel.corners === undefined) !== (panel.template === undefined), {
  error: 'exactly one of corners, template',
});

/** Sheets at hand to cut panels from. */
export const sheetStockSchema = fields('Sheets at hand', {
  sheet: rowId('Sheet, such as 5052-H32'),
  thicknessMm: positive('Thickness [mm]', 50, 'mm'),
  sizeMm: z
    .tuple([positive('', 100_000, 'mm'), positive('', 100_000, 'mm')], { error: 'two lengths [long, wide] in mm' })
    .describe('Long and wide [mm]; the grain runs along the first'),
  qty: integer('How many', 1, 10_000).optional(),
});

/** The folder that panels are bent on. */
export const brakeSchema = fields('The folder at hand; what is left out is that of a small box-and-pan brake', {
  noseMm: positive('How deep its nose or fingers are behind the bend [mm]', 10_000, 'mm').optional(),
  highMm: positive('How high they are, from the sheet to the beam [mm]', 10_000, 'mm').optional(),
  beamMm: positive('How deep the beam over them is behind the bend [mm]', 10_000, 'mm').optional(),
  bedMm: positive('How deep its bed is behind the bend [mm]', 10_000, 'mm').optional(),
  fingerMm: number('Its narrowest finger; 0: one straight bar [mm]', 0, 10_000, 'mm').optional(),
});
