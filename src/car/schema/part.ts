import { endTypes } from '#standards';
import { z } from 'zod';
import {
  angleDeg,
  direction,
  fields,
  flag,
  id,
  integer,
  leader,
  lengthMm,
  list,
  number,
  oneOf,
  pointMm,
  positive,
  text,
  toleranceMm,
  turnDeg,
} from './fields.ts';
import { accessOfPart } from './access.ts';
import { heatOfPart } from './heat.ts';
import { readingSchema } from './origin.ts';

export const PART_CLASSES = ['hot', 'moving', 'fixed'] as const;
export const CROSSING_KINDS = ['bulkhead-fitting', 'grommet', 'tee'] as const;

/** What an opening is threaded or shaped like: the key that a fitting must match. */
export const endSchema = fields('What the opening is threaded or shaped like', {
  type: oneOf('Kind of thread, seat or spigot', endTypes),
  dash: integer('Dash size: tube outside diameter in sixteenths of an inch', 1, 64).optional(),
  thread: text('Thread, such as M14x1.5 or 7/8-14', 40).optional(),
  pipe: text('Nominal pipe size in inches, such as 1/8', 10).optional(),
  odMm: positive('Outside diameter of a spigot or tube [mm]', 500, 'mm').optional(),
});

/** Any solid may be turned and moved from where its numbers put it. */
const placed = {
  turnDeg: turnDeg(
    "Turned about car X, then Y, then Z, right-handed, about the car's origin, after scaling [deg]",
  ).optional(),
  atMm: pointMm('Moved by this after turning [mm]').optional(),
};

const meshSchema = fields('A scanned or drawn surface', {
  file: text('Path from the car file, in or under its folder: .stl .ply .obj .glb .step', 300),
  unit: oneOf('Unit of the numbers in the mesh file', ['mm', 'cm', 'm', 'in']),
  ...placed,
  knownToMm: toleranceMm('How well the surface is known [+-mm]').optional(),
});

/** One solid of a part: exactly one of box, cylinder, tube and mesh. */
export const shapeSchema = fields('One solid: exactly one of box, cylinder, tube, mesh', {
  box: fields('A box along the axes, before any turn', {
    minMm: pointMm('Lowest corner [mm]'),
    maxMm: pointMm('Highest corner [mm]'),
  }).optional(),
  cylinder: fields('A cylinder with flat ends', {
    fromMm: pointMm('Centre of one end [mm]'),
    toMm: pointMm('Centre of the other end [mm]'),
    radiusMm: lengthMm('Radius [mm]'),
  }).optional(),
  tube: fields('A chain of capsules: round, solid, with round ends', {
    pointsMm: list('Points of the centreline [mm]', pointMm('A point of the centreline [mm]'), 10_000),
    radiusMm: lengthMm('Radius to the outside [mm]'),
  }).optional(),
  mesh: meshSchema.optional(),
  ...placed,
  from: id('Measuring origin in whose axes the numbers of this shape were read; it gives turnDeg and atMm').optional(),
  knownToMm: toleranceMm('How well this solid is known [+-mm]; overrides the part').optional(),
});

const nearSchema = fields('What the start of a line may come closer to at this port', {
  parts: list('Ids of the parts meant', id('Part id')),
  mm: positive('Length of line from the port face for which it holds [mm]', 2000, 'mm').optional(),
  keepOffMm: number('Least gap there [mm]', 0, 1000, 'mm').optional(),
});

export const portSchema = fields('An opening on a part', {
  id: id('Id, once within its part'),
  name: text('Name in words').optional(),
  atMm: pointMm('Centre of the port face in car axes [mm]'),
  measured: list(
    'Readings that give the place instead of atMm; several are balanced by least squares',
    readingSchema,
    100,
  ).optional(),
  faces: direction('Way the port faces, out of the part, in car axes; any length'),
  end: endSchema,
  knownToMm: toleranceMm('How well the place is known [+-mm]; overrides the part').optional(),
  facingKnownDeg: number('How well the facing is known [+-deg]; overrides the part', 0, 90, 'deg').optional(),
  near: nearSchema.optional(),
  follows: leader('It goes along when this is moved or measured again: a part, or a port as "part.port"').optional(),
  restrictorMm: positive('Bore of a restrictor in the port [mm]', 100, 'mm').optional(),
});

export const partSchema = fields('A thing with shape and place', {
  id: id('Id, once within the car'),
  name: text('Name in words').optional(),
  class: oneOf('Decides the keep-off', PART_CLASSES),
  knownToMm: toleranceMm('How well its shapes and ports are known [+-mm]').optional(),
  facingKnownDeg: number('How well the facing of its ports is known [+-deg]', 0, 90, 'deg').optional(),
  surfaceC: number('Surface temperature, running hot [degC]', -60, 1500, 'degC').optional(),
  shielded: flag('Covered by a shield or blanket').optional(),
  turbine: flag('A turbine housing: bare, it takes the larger keep-off').optional(),
  keepOffMm: number('Own keep-off [mm]; overrides the class', 0, 2000, 'mm').optional(),
  movesWith: id('Mover it hangs on').optional(),
  follows: leader('It goes along when this is moved or measured again: a part, or a port as "part.port"').optional(),
  crossable: list('Ways a line may pass through it', oneOf('Way through', CROSSING_KINDS), 10).optional(),
  shapes: list('Its solids', shapeSchema),
  ports: list('Its openings', portSchema, 1000),
  ...heatOfPart,
  ...accessOfPart,
  note: text('Remark', 2000).optional(),
});

const slideEnd = pointMm('Shift from where it is drawn [mm]');

/** Something that carries parts about: it swings about an axis, or slides, or both. */
export const moverSchema = fields('Something that carries parts about', {
  id: id('Id, once within the car'),
  name: text('Name in words').optional(),
  pivotMm: pointMm('A point on the axis it swings about [mm]').optional(),
  axis: direction('Direction of that axis').optional(),
  turnDeg: z
    .tuple([angleDeg('Least swing'), angleDeg('Most swing')], { error: 'two angles [low, high] in degrees' })
    .describe('Swing either way from where it is drawn, right-handed about the axis [deg]')
    .optional(),
  slideMm: z
    .tuple([slideEnd, slideEnd], { error: 'two shifts [[x,y,z], [x,y,z]] in mm' })
    .describe('Shifts at both extremes from where it is drawn [mm]')
    .optional(),
  note: text('Remark', 2000).optional(),
});
