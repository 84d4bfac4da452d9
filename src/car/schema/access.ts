import { direction, fields, flag, id, integer, list, number, oneOf, pointMm, positive, text } from './fields.ts';
import { brakeSchema } from './panel.ts';

const FASTENER_HEADS = ['hexagon', 'nut', 'socket', 'clip', 'quarter-turn', 'rivet', 'v-band', 'hand'] as const;
const TOOL_KINDS = ['open-end', 'ring', 'ratchet', 'crow-foot', 'hex-key', 'driver', 'hand'] as const;

const minutes = (about: string) => positive(about, 100_000, 'min').optional();
const day = (about: string) => text(`${about}, such as 2026-11-25`, 40).optional();

const fastenerSchema = fields('A screw, nut or clip that holds the part', {
  id: id('Id, once within its part'),
  name: text('Name in words', 200).optional(),
  atMm: pointMm('Middle of its head [mm]'),
  faces: direction('Way the head faces: the tool comes from there'),
  head: oneOf('Head', FASTENER_HEADS),
  acrossFlatsMm: positive('Across the flats of its head or socket [mm]', 200, 'mm').optional(),
  size: text('Thread in words, such as M8', 40).optional(),
  lengthMm: positive('Drawn out by this to come free [mm]', 2000, 'mm').optional(),
  into: id('Part or panel it goes into').optional(),
  minutes: minutes('To undo or do up [min]; absent: as usual for its kind'),
  note: text('Remark', 2000).optional(),
});

/** What strip-down asks of a part. */
export const accessOfPart = {
  fasteners: list('What holds it', fastenerSchema, 1000).optional(),
  sitsOn: list('Parts that carry it or that it is held to', id('Part'), 100).optional(),
  comesAfter: list('Parts that must be off before it, for reasons that are not shapes', id('Part'), 100).optional(),
  pulls: list('Ways to try first when it comes out', direction('A direction'), 20).optional(),
  spillsL: number('Runs out of it when it comes off, such as of a spin-on canister [L]', 0, 1000, 'L').optional(),
  lifts: oneOf('How it is lifted; absent: by hand up to 20 kg, else by hoist', ['hand', 'hoist']).optional(),
  gives: flag('It bends, such as a belt: worked out by hand past what is in its way').optional(),
  staysOn: flag('Never comes off, such as the shell').optional(),
  life: fields('Its dates and what it stands', {
    madeOn: day('Made'),
    fittedOn: day('Fitted'),
    testedOn: day('Tested'),
    runs: number('Runs it has done', 0, 1e6, '').optional(),
    heatCycles: number('Heat cycles it has seen', 0, 1e6, '').optional(),
    standsRuns: positive('Runs it stands', 1e6, '').optional(),
    standsHeatCycles: positive('Heat cycles it stands', 1e6, '').optional(),
    standsMonths: positive('Months it stands from being made', 1200, 'months').optional(),
  }).optional(),
};

/** The workshop and crew: what they have, how long they take. */
export const workshopSchema = fields('Crew and tools', {
  brake: brakeSchema.optional(),
  crew: integer('How many work on the car', 1, 20).optional(),
  minutes: list(
    'Minutes where they differ from the usual',
    fields('Minutes for one kind of work', {
      work: text('Kind of work, as the usual table names it', 80),
      minutes: positive('Minutes', 1000, 'min'),
    }),
    100,
  ).optional(),
  tools: list(
    'Tools at hand where they differ from the usual envelopes',
    fields('A tool', {
      kind: oneOf('Kind', TOOL_KINDS),
      acrossFlatsMm: positive('Size [mm]; absent: all sizes', 200, 'mm').optional(),
      headMm: positive('Outside of its head [mm]', 500, 'mm').optional(),
      thickMm: positive('Thickness of its head [mm]', 500, 'mm').optional(),
      lengthMm: positive('Length of its handle [mm]', 3000, 'mm').optional(),
      measured: flag('Measured on the tool in the hand').optional(),
    }),
    200,
  ).optional(),
  hand: fields('Room that a hand takes', {
    acrossMm: positive('Across the hand [mm]', 500, 'mm').optional(),
    thickMm: positive('Thickness [mm]', 500, 'mm').optional(),
    armMm: positive('Thickness of the arm [mm]', 500, 'mm').optional(),
    measured: flag('Measured').optional(),
  }).optional(),
  breaks: list(
    'Time there is to work, such as between two runs',
    fields('A break', {
      name: text('Name in words', 200),
      minutes: positive('Minutes', 10_000, 'min'),
      jobs: list('Parts or lines to change in it', id('Part or line'), 100).optional(),
    }),
    20,
  ).optional(),
});

const CHECKS = ['line', 'part', 'panel', 'vent', 'clamp', 'bulkhead'] as const;
const RULE_MEASURES = [
  'gap-mm',
  'bend-share',
  'pressure-share',
  'clamp-pitch-mm',
  'length-mm',
  'height-mm',
  'wall-mm',
  'volume-l',
  'bore-mm',
  'temperature-c',
  'hole-clearance-mm',
  'state',
  'material',
  'sealed',
  'sleeve',
  'by-eye',
] as const;

/** A rule pack: what a rule book says in the builder's own words, and how it is checked. */
export const rulePackSchema = fields('Rules as the builder entered them', {
  id: id('Id, once within the car'),
  name: text('Name in words', 200),
  year: integer('Year', 1900, 2200),
  clauses: list(
    'Clauses',
    fields('A clause', {
      clause: text('Number of the clause', 40),
      text: text('What it asks, in your own words', 2000),
      about: oneOf('What it is about', CHECKS),
      duties: list('Only lines with these duties', text('Duty', 40), 30).optional(),
      parts: list('Only these parts or panels', id('Part or panel'), 1000).optional(),
      to: text('The part, or the class of part (hot, moving, fixed), that a gap is measured to', 80).optional(),
      measure: oneOf('What is measured', RULE_MEASURES),
      least: number('At least', -1e6, 1e6, '').optional(),
      most: number('At most', -1e6, 1e6, '').optional(),
      is: text('Must be this word', 80).optional(),
      photo: flag('Wants a photograph').optional(),
    }),
    1000,
  ),
});

/** Days the car ran. */
export const runDaySchema = fields('A day the car ran', {
  on: text('Day, such as 2026-11-25', 40),
  runs: number('Runs', 0, 1000, ''),
  heatCycles: number('Heat cycles; absent: one a run', 0, 1000, '').optional(),
  note: text('Remark', 2000).optional(),
});
