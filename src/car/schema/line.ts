import { duties } from '#standards';
import { z } from 'zod';
import {
  anything,
  direction,
  fields,
  flag,
  id,
  integer,
  list,
  number,
  oneOf,
  pointMm,
  portRef,
  positive,
  rangeDeg,
  rowId,
  text,
} from './fields.ts';
import { CROSSING_KINDS } from './part.ts';

export const LINE_STATES = ['planned', 'bought', 'made', 'proved', 'fitted', 'leak-checked'] as const;

/** One length of a line: exactly one of hose and tube. */
export const pieceSchema = fields('One length of the line: exactly one of hose, tube', {
  hose: rowId('Hose of the catalogue').optional(),
  tube: fields('Hard tube, bent', {
    odMm: positive('Outside diameter [mm]', 500, 'mm'),
    wallMm: positive('Wall [mm]', 50, 'mm'),
    bendRadiusMm: positive('Centreline radius of the bender [mm]', 5000, 'mm'),
    material: text('Material', 80).optional(),
  }).optional(),
  note: text('Remark', 2000).optional(),
});

export const throughSchema = fields('A point the line passes, in order', {
  part: id('Part that is passed through'),
  kind: oneOf('How', CROSSING_KINDS),
  atMm: pointMm('Where, if fixed [mm]').optional(),
  faces: direction('Way the line runs there, if fixed').optional(),
  note: text('Remark', 2000).optional(),
});

/** Way objects hold what the planner printed; more may stand there than is named here. */
const loose = <T extends z.core.$ZodLooseShape>(about: string, shape: T) =>
  z.looseObject(shape, { error: 'an object {...}' }).describe(about);
const clock = number('', 0, 360, 'deg').nullable();

const takenEnd = loose('One end of the line', {
  port: portRef('Port it goes on'),
  makeUp: list('Parts from the port to the hose', anything('A part id or row'), 100).optional(),
  angleDeg: number('Bend of the hose end [deg]', 0, 180, 'deg').optional(),
  clockDeg: clock.describe('Where its tail points, seen looking into the port [deg]').optional(),
  clockFrom: oneOf("What 12 o'clock is", ['up', 'forward']).optional(),
});
const takenPiece = loose('One length as made', {
  hose: rowId('Hose of the catalogue').optional(),
  tube: anything('Hard tube').optional(),
  cutLengthMm: positive('Cut length [mm]', 100_000, 'mm').optional(),
  allowanceMm: z
    .tuple([number('', -10_000, 0, 'mm'), number('', 0, 10_000, 'mm')], { error: 'two numbers [less, more] in mm' })
    .describe('Shorter and longer by [mm]')
    .optional(),
  odMm: positive('Outside diameter [mm]', 500, 'mm').optional(),
  minBendRadiusMm: number('Least bend radius allowed [mm]', 0, 5000, 'mm').optional(),
  tightestBendMm: number('', 0, 1e9, 'mm').nullable().describe('Tightest bend of this way [mm]').optional(),
  endToEndDeg: clock.describe('Bend of the second end from the first [deg]').optional(),
});
const takenClamp = loose('A clamp', {
  alongMm: number('Along the line from its start [mm]', 0, 100_000, 'mm').optional(),
  atMm: pointMm('Where [mm]').optional(),
  on: text('').nullable().describe('Part it is on').optional(),
  bracket: flag('It needs a bracket').optional(),
});
const takenBody = loose('One solid stretch of the line', {
  part: text('What it is'),
  pathMm: list('Its centreline [mm]', pointMm('A point of the centreline [mm]'), 200_000),
  odMm: positive('Outside diameter [mm]', 1000, 'mm'),
});

/** The way the builder decided on: it rebuilds a made hose without planning. */
export const takenSchema = loose('The way the builder decided on', {
  ends: list('The ends, from and to', takenEnd, 2),
  pieces: list('Hoses and tubes as made', takenPiece, 100),
  clamps: list('Clamps', takenClamp, 1000).optional(),
  bodies: list('Everything solid on the line from port face to port face', takenBody, 1000),
});

export const lineSchema = fields('What joins two ports', {
  id: id('Id, once within the car'),
  name: text('Name in words').optional(),
  from: portRef('Port it starts at'),
  to: portRef('Port it ends at'),
  duty: oneOf('What it carries', duties),
  dash: integer('Dash size', 1, 64).optional(),
  boreMm: positive('Bore [mm]', 500, 'mm').optional(),
  hose: rowId('Short for one hose piece').optional(),
  pieces: list('Hoses and tubes in order', pieceSchema, 20),
  through: list('What it passes, in order', throughSchema, 20),
  state: oneOf('How far it has got', LINE_STATES),
  signed: list(
    'Who brought it to which state, when',
    fields('A state reached', {
      state: oneOf('State', LINE_STATES),
      by: text('Who', 80),
      on: text('Day, such as 2026-11-25', 40),
      note: text('Remark', 2000).optional(),
    }),
    1000,
  ).optional(),
  taken: takenSchema.nullable().describe('The way the builder decided on; null = none yet').optional(),
  keepOffMm: number("Own least gap to anything [mm], where larger than the part's", 0, 2000, 'mm').optional(),
  flowLMin: number('Flow [L/min]', 0, 100_000, 'L/min').optional(),
  pressureBar: number('Highest working pressure [bar gauge]', -1, 1000, 'bar').optional(),
  vacuumBar: number('Deepest vacuum [bar below the air outside]', 0, 1, 'bar').optional(),
  temperatureC: number('Highest fluid temperature [degC]', -60, 1000, 'degC').optional(),
  sleeve: text('Sleeve over the line', 80).optional(),
  fall: fields('A drain: it falls all the way with the car leaned by these', {
    pitchDeg: rangeDeg('Nose up, least and most [deg]').optional(),
    rollDeg: rangeDeg('Right side down, least and most [deg]').optional(),
    withinPlumbDeg: number('Start within this of plumb [deg]; 15 if absent', 0, 90, 'deg').optional(),
  }).optional(),
  rises: flag('It must rise all the way (a bleed or vent)').optional(),
  nearStraight: flag('Take it as a near-straight run that wants slack').optional(),
  note: text('Remark', 2000).optional(),
});
