import { direction, fields, flag, id, list, number, oneOf, pointMm, positive, rowId, text } from './fields.ts';

const celsius = (about: string) => number(about, -60, 1500, 'degC');
const emissivity = (about: string) => number(about, 0.01, 1, '').optional();
const finish = (about: string) => rowId(about).optional();
const minutes = (about: string) => number(about, 0, 1440, 'min').optional();
const flowLMin = (about: string) => positive(about, 1_000_000, 'L/min').optional();
const areaCm2 = (about: string) => positive(about, 100_000, 'cm2');

/** What a part's temperature may follow instead of being worked out. */
const KEPT_AT = ['oil', 'coolant', 'fuel', 'outside-air'] as const;
const COVERS = ['blanket', 'wrap', 'shield', 'coating'] as const;
const READING_MEANS = ['strip', 'probe', 'paint', 'pyrometer'] as const;

const coverSchema = fields('What lies over its surface; surfaceC is then what is under it', {
  kind: oneOf('Kind', COVERS),
  thicknessMm: positive('Thickness [mm]', 200, 'mm').optional(),
  conductivityWPerMK: positive('Conductivity of the filling [W/(m K)]', 500, 'W/(m K)').optional(),
  airGapMm: positive('Air between the surface and a shield [mm]', 200, 'mm').optional(),
  finish: finish('Finish of its outside'),
  emissivity: emissivity('Emissivity of its outside; overrides the finish'),
  note: text('Remark', 2000).optional(),
});

/** What heat asks of a part. */
export const heatOfPart = {
  surfaceByCase: list(
    'Surface temperature in cases where it is not surfaceC',
    fields('In one case', { case: id('Case'), surfaceC: celsius('Surface temperature [degC]') }),
    100,
  ).optional(),
  keptAt: oneOf(
    'Its temperature follows this; absent: surfaceC, or worked out from what it gets and gives',
    KEPT_AT,
  ).optional(),
  finish: finish('Finish of its surface, such as stainless-used: gives its emissivity'),
  emissivity: emissivity('Emissivity of its surface; overrides the finish'),
  cover: coverSchema.optional(),
  massKg: positive('Mass [kg]', 10_000, 'kg').optional(),
  heatCapacityJPerKgK: positive('Specific heat capacity [J/(kg K)]; absent: as steel', 10_000, 'J/(kg K)').optional(),
  standsC: celsius('The hottest it stands, such as the covering of a loom [degC]').optional(),
};

/** What heat asks of a panel. */
export const heatOfPanel = {
  finish: finish('Finish of both faces; absent: as its sheet comes'),
  insideFinish: finish('Finish of the face towards the bay, where it differs'),
  standsC: celsius('The hottest it stands: paint, bond, composite [degC]').optional(),
};

const pressureSchema = fields('Pressure outside an opening: exactly one of cp, pa, mmWater', {
  at: text('Opening as its id, "panel.window", or a panel for all its openings', 130),
  cp: number("Pressure coefficient: over the dynamic pressure of the car's speed", -20, 5, '').optional(),
  pa: number('Above the air about the car [Pa]', -20_000, 20_000, 'Pa').optional(),
  mmWater: number('Above the air about the car, manometer [mm of water]', -2000, 2000, 'mm').optional(),
  measuredKmh: positive(
    'Speed at which pa or mmWater was read [km/h]; absent: that of the case',
    600,
    'km/h',
  ).optional(),
  how: oneOf('Where it comes from', ['manometer', 'stated']),
  note: text('Remark', 2000).optional(),
}).refine(({ cp, pa, mmWater }) => [cp, pa, mmWater].filter((given) => given !== undefined).length === 1, {
  error: 'exactly one of cp, pa, mmWater',
});

/** What heat asks of a case. */
export const heatOfCase = {
  speedKmh: number('Speed of the car [km/h]', 0, 600, 'km/h').optional(),
  bayAirC: celsius('Air in the bay as measured [degC]; absent: worked out').optional(),
  bayAirMPerS: number('Speed of the air in the bay [m/s]; absent: worked out', 0, 200, 'm/s').optional(),
  pressures: list('Pressures outside the openings', pressureSchema, 1000).optional(),
  after: id('Switched off from this case').optional(),
  soakMin: positive('Followed for this long [min]; 30 if absent', 600, 'min').optional(),
  coversOff: list('Panels taken off', id('Panel'), 1000).optional(),
  fanRunsMin: minutes('Fans of the bays run on for [min]'),
  pumpRunsMin: minutes('Electric water pump runs on for [min]'),
};

const openingSchema = fields('An opening of the bay that is not a window or hole of a panel', {
  id: id('Id, once within its bay'),
  name: text('Name in words', 200).optional(),
  atMm: pointMm('Its middle [mm]'),
  faces: direction('Way it faces, out of the bay'),
  areaCm2: areaCm2('Area [cm2]'),
  meshOpenPercent: number('Mesh over it: share that is open [%]', 1, 100, '%').optional(),
  dischargeCoefficient: number('Discharge coefficient; 0.62 if absent', 0.1, 1, '').optional(),
  drain: flag('A drain hole').optional(),
  note: text('Remark', 2000).optional(),
});

/** A closed space whose air is worked out. */
export const baySpaceSchema = fields('A closed space whose air is worked out', {
  id: id('Id, once within the car'),
  name: text('Name in words', 200).optional(),
  minMm: pointMm('Lowest corner of the box that says what is in it [mm]'),
  maxMm: pointMm('Highest corner [mm]'),
  panels: list('Panels that close it; absent: all with a corner in the box', id('Panel'), 1000).optional(),
  openings: list('Other openings', openingSchema, 1000).optional(),
  fan: fields('A fan', {
    flowLMin: flowLMin('Flow [L/min]'),
    blows: oneOf('Which way it moves air', ['in', 'out']),
    opening: text('Opening it stands in', 130),
  }).optional(),
  intakes: list(
    'What draws its air from this space, such as an airbox or the compressor',
    fields('Something that draws air', {
      part: id('Part'),
      atMm: pointMm('Where it draws [mm]'),
      flowLMin: flowLMin('At full load [L/min]; absent: from power'),
      note: text('Remark', 2000).optional(),
    }),
    20,
  ).optional(),
  otherHeatKw: number('Heat put into its air by what is not drawn [kW]', -1000, 1000, 'kW').optional(),
  note: text('Remark', 2000).optional(),
});

/** A temperature that was measured: it wins over what is worked out. */
export const heatReadingSchema = fields(
  'A temperature as measured: exactly one of line, part, panel, bay says what of',
  {
    id: id('Id, once within the car'),
    case: id('Case it was read in'),
    line: id('Line').optional(),
    alongMm: number('Along the line from its start [mm]; absent: its hottest place', 0, 100_000, 'mm').optional(),
    part: id('Part').optional(),
    panel: id('Panel').optional(),
    bay: id('Air of a bay').optional(),
    atMm: pointMm('Place on a part or panel [mm]; absent: its hottest').optional(),
    readC: celsius('Read [degC]; of a strip the last mark that turned').optional(),
    belowC: celsius('Of a strip or paint: the mark that did not turn [degC]').optional(),
    atMin: number('Minutes after switching off; absent: the highest', 0, 1440, 'min').optional(),
    means: oneOf('Read with', READING_MEANS),
    corrects: flag('The builder agrees that what is worked out is corrected by it').optional(),
    on: text('Day, such as 2026-11-25', 40).optional(),
    note: text('Remark', 2000).optional(),
  },
).refine(({ line, part, panel, bay }) => [line, part, panel, bay].filter((given) => given !== undefined).length === 1, {
  error: 'exactly one of line, part, panel, bay',
});
