import { angleDeg, direction, fields, id, list, number, oneOf, pointMm, text, toleranceMm } from './fields.ts';

const coordinateMm = (about: string) => number(about, -100_000, 100_000, 'mm');

/** One reading that helps to place a point: from what, how far. */
export const readingSchema = fields('One reading: from what, how far', {
  from: text(
    'Origin id for readMm, alongMm, outMm, downMm; "origin.point" for distanceMm; absent for xMm, yMm, zMm in car axes',
    130,
  ).optional(),
  readMm: pointMm('Read in the axes of an origin of kind points [mm]').optional(),
  alongMm: coordinateMm('From the first point of a straightedge towards the second [mm]').optional(),
  outMm: coordinateMm('Sideways from a straightedge [mm]').optional(),
  downMm: coordinateMm('Down from a straightedge or level line [mm]; up is negative').optional(),
  distanceMm: number('Straight-line distance from a known point [mm]', 0, 100_000, 'mm').optional(),
  xMm: coordinateMm('Car X straight from the tape [mm]').optional(),
  yMm: coordinateMm('Car Y straight from the tape [mm]').optional(),
  zMm: coordinateMm('Car Z straight from the tape [mm]').optional(),
  knownToMm: toleranceMm('How well this reading is known [+-mm]').optional(),
});

export const ORIGIN_KINDS = ['points', 'straightedge', 'level', 'marks'] as const;

const referenceSchema = fields('A point whose place on the car is known', {
  name: id('Name, once within its origin'),
  atMm: pointMm('Known place in car axes [mm]'),
  readMm: pointMm('The same point as read in the axes of this origin [mm]; kind points').optional(),
  downMm: coordinateMm('The same point as read down from the level line [mm]; kind level').optional(),
  knownToMm: toleranceMm('How well reading and place together are known [+-mm]').optional(),
});

/** Where a builder measures from. */
export const originSchema = fields('Where the builder measures from', {
  id: id('Id, once within the car'),
  name: text('Name in words').optional(),
  kind: oneOf(
    'points: three or more reference points give its axes; straightedge: laid across two known points; level: a level line, heights only; marks: known points to measure distances from',
    ORIGIN_KINDS,
  ),
  points: list('Its reference points', referenceSchema, 10_000),
  down: direction('Straightedge: the way that counts as down, made square to the edge; absent = car down').optional(),
  out: direction(
    'Straightedge: the side that counts as out; absent = rearward, right or up, whichever it is nearest',
  ).optional(),
  pitchDeg: angleDeg('Level: nose of the shell up by this on its stands [deg]').optional(),
  rollDeg: angleDeg('Level: right side of the shell down by this on its stands [deg]').optional(),
  note: text('Remark', 2000).optional(),
});
