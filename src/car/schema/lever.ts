import { z } from 'zod';
import {
  angleDeg,
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

export const LEVER_ACTS = ['hand', 'foot', 'link'] as const;
export const BRACKET_FIXINGS = ['bolts', 'weld'] as const;

const forceN = (about: string) => number(about, 0, 100_000, 'N');
const lowHigh = (about: string, words: string, entry: z.ZodNumber) =>
  z
    .tuple([entry, entry], { error: words })
    .refine(([low, high]) => low <= high, { error: words })
    .describe(about);

const swingDeg = (about: string) =>
  z
    .tuple([angleDeg(''), angleDeg('')], { error: 'two angles [low, high] in degrees' })
    .refine(([low, high]) => low <= 0 && high >= 0 && high - low <= 350, {
      error: 'two angles [low, high] with 0 (as drawn) between them, at most 350 deg apart',
    })
    .describe(about);

const otherEnd = fields('Its other end: an arm of another lever, or a place on something that swings', {
  lever: id('Lever').optional(),
  arm: id('Arm of that lever').optional(),
  mover: id('Mover of the car').optional(),
  atMm: pointMm('Where on it, as drawn [mm]').optional(),
}).refine(
  ({ lever, arm, mover, atMm }) =>
    lever === undefined
      ? arm === undefined && mover !== undefined && atMm !== undefined
      : arm !== undefined && mover === undefined && atMm === undefined,
  { error: 'either lever and arm, or mover and atMm' },
);

const armSchema = fields('A place on a lever where something is joined to it', {
  id: id('Id, once within its lever'),
  atMm: pointMm('Centre of the pin, as drawn [mm]'),
});

const handleSchema = fields('Where the hand or foot pushes', {
  atMm: pointMm('Middle of the knob or pad, as drawn [mm]'),
});

const rodSchema = fields('A stiff rod from an arm to something else that swings', {
  id: id('Id, once within its lever'),
  name: text('Name in words', 200).optional(),
  arm: id('Arm of this lever'),
  to: otherEnd,
  lostShare: number('Share of the force lost in its joints; absent: 0.03', 0, 0.9, '').optional(),
});

const crossingSchema = fields('Where a cable passes through a panel or bulkhead', {
  part: id('Part that it passes through'),
  atMm: pointMm('Where, about [mm]'),
  holeMm: positive('Hole there is [mm]; absent: the tool says how large', 500, 'mm').optional(),
});

const cableSchema = fields('A cable in its conduit from an arm to something else that swings', {
  id: id('Id, once within its lever'),
  name: text('Name in words', 200).optional(),
  arm: id('Arm of this lever'),
  to: otherEnd,
  pathMm: list(
    'Corners of its conduit, from where it is held by this lever to where it is held at the other end; the tool rounds them [mm]',
    pointMm('A corner [mm]'),
    1000,
  ).refine((path) => path.length >= 2, { error: 'two points or more' }),
  odMm: positive('Outside of the conduit [mm]', 200, 'mm'),
  leastRadiusMm: lengthMm('Least bend radius its maker allows [mm]').optional(),
  mostBendDeg: number('Most bend in all [deg]; absent: 270', 1, 3600, 'deg').optional(),
  strokeMm: lengthMm('Travel that its ends allow [mm]').optional(),
  coreLimitN: forceN('Most force on its core [N]').optional(),
  sealDragN: forceN('Drag of one end seal [N]').optional(),
  frictionRatio: number('Friction of core on liner; absent: 0.1', 0, 1, '').optional(),
  slackMm: number('Lost motion of core in conduit, both ways together [mm]', 0, 100, 'mm').optional(),
  leadInDeg: number('Most angle of its core off the line of its end [deg]; absent: 8', 0, 90, 'deg').optional(),
  keepOffMm: number('Least gap to hot parts [mm]; absent: as for lines', 0, 2000, 'mm').optional(),
  crossing: list('What it passes through', crossingSchema, 20).optional(),
  laid: flag('Measured as it lies: lines are planned round it').optional(),
  standsC: number(
    'The hottest its conduit and liner stand [degC]; absent: 110, recalled',
    -60,
    1500,
    'degC',
  ).optional(),
  note: text('Remark', 2000).optional(),
});

const bar = () => number('', 0, 1000, 'bar');

const cylinderSchema = fields('A hydraulic cylinder, or two behind a balance bar, pushed by an arm', {
  id: id('Id, once within its lever'),
  name: text('Name in words', 200).optional(),
  arm: id('Arm that pushes its rod'),
  farMm: pointMm('Where its other end is held [mm]'),
  boreMm: positive('Bore [mm]', 200, 'mm'),
  secondBoreMm: positive('Bore of the second one behind a balance bar [mm]', 200, 'mm').optional(),
  firstShare: number('Share of the force that goes to the first of two; absent: 0.5', 0.05, 0.95, '').optional(),
  strokeMm: lengthMm('Full stroke that it has [mm]').optional(),
  freeMm: number('Stroke before pressure builds up [mm]', 0, 100, 'mm').optional(),
  needsMl: number('Fluid that what hangs on it takes up, each [ml]', 0, 1000, 'ml').optional(),
  lostShare: number('Share of the force lost in seals and pivots; absent: 0', 0, 0.9, '').optional(),
  wantedBar: lowHigh('Pressure wanted [bar]', 'two pressures [low, high] in bar, the lower first', bar()).optional(),
  part: id('Part of the car that is this cylinder').optional(),
});

const forceSchema = fields('How hard it is pushed', {
  usualN: forceN('Usual force [N]'),
  rangeN: lowHigh('Least and most [N]', 'two forces [low, high] in N, the lower first', forceN('')).optional(),
});

const tubeSchema = fields('A round piece of the lever, moving with it', {
  pointsMm: list('Points of the centreline, as drawn [mm]', pointMm('A point [mm]'), 1000).refine(
    (points) => points.length > 0,
    { error: 'one point or more' },
  ),
  radiusMm: lengthMm('Radius to the outside [mm]'),
});

const flat = () => number('', -100_000, 100_000, 'mm');
const flatPoint = (about: string) =>
  z.tuple([flat(), flat()], { error: 'two numbers [across, up] in mm' }).describe(about);

const bracketSchema = fields('The plate that carries it, held along its foot', {
  sheet: rowId('Sheet, such as 6061-T6, 4130; absent: 6061-T6').optional(),
  thicknessMm: positive('Thickness [mm]', 50, 'mm'),
  widthMm: lengthMm('Width of the foot, along the pull [mm]'),
  heightMm: lengthMm('Height over the foot [mm]'),
  topWidthMm: lengthMm('Width at the top; absent: as at the foot [mm]').optional(),
  pin: fields('Hole of the pivot', {
    atMm: flatPoint('From the middle of the foot, across and up [mm]'),
    diameterMm: positive('Diameter [mm]', 200, 'mm'),
  }),
  count: integer('Plates that share the load; absent: 1', 1, 10).optional(),
  held: oneOf('How the foot is held', BRACKET_FIXINGS).optional(),
  bolts: fields('Bolts along the foot', {
    diameterMm: positive('Hole [mm]', 100, 'mm'),
    atMm: list('Each, from the middle of the foot, across and up [mm]', flatPoint('A hole [mm]'), 40),
  }).optional(),
  holes: list(
    'Lightening holes',
    fields('A round hole', {
      atMm: flatPoint('From the middle of the foot, across and up [mm]'),
      diameterMm: positive('Diameter [mm]', 500, 'mm'),
    }),
    40,
  ).optional(),
  pullN: forceN('Pull at the handle that it is judged by [N]; absent: the most of the lever, or 250').optional(),
});

const shared = {
  pivotMm: pointMm('A point on the axis it turns about [mm]'),
  axis: direction('Direction of that axis, in car axes'),
  handle: handleSchema.optional(),
  arms: list('Where rods, cables and cylinders act', armSchema, 50),
  turnDeg: swingDeg('Swing either way from where it is drawn, right-handed about the axis [deg]'),
  rods: list('Rods', rodSchema, 20).optional(),
  cables: list('Cables', cableSchema, 20).optional(),
  cylinders: list('Cylinders', cylinderSchema, 10).optional(),
};

/** A lever or pedal as measured: as drawn it stands at 0 deg. */
export const leverSchema = fields('A lever or pedal, as it stands at rest or in neutral', {
  id: id('Id, once within the car'),
  name: text('Name in words', 200).optional(),
  note: text('Remark', 2000).optional(),
  acts: oneOf('What works it; link: another lever does', LEVER_ACTS),
  knownToMm: toleranceMm('How well its places are known [+-mm]').optional(),
  ...shared,
  stopsDeg: swingDeg('Where hard stops end its swing [deg]').optional(),
  shapes: list('What moves with it', tubeSchema, 100).optional(),
  force: forceSchema.optional(),
  wheel: fields('The steering wheel, for the reach from its rim', {
    centreMm: pointMm('Centre of the rim [mm]'),
    axis: direction('Direction of the column'),
    rimRadiusMm: lengthMm('Radius of the rim to its middle [mm]'),
  }).optional(),
  was: fields('How it was before it was moved, shortened or turned round; what is absent was as it is', {
    pivotMm: shared.pivotMm.optional(),
    axis: shared.axis.optional(),
    handle: shared.handle,
    arms: shared.arms.optional(),
    turnDeg: shared.turnDeg.optional(),
    rods: shared.rods,
    cables: shared.cables,
    cylinders: shared.cylinders,
    note: text('Remark', 2000).optional(),
  }).optional(),
  bracket: bracketSchema.optional(),
  clearMm: number('Gap wanted round its swing [mm]; absent: as for moving parts', 0, 1000, 'mm').optional(),
}).refine((lever) => lever.acts === 'link' || lever.handle !== undefined, {
  error: 'a handle, where hand or foot works it',
});
