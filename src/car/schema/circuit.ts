import { z } from 'zod';
import { fields, flag, id, list, number, oneOf, pointMm, positive, text } from './fields.ts';
import { heatOfCase } from './heat.ts';

const celsius = (about: string) => number(about, -60, 1000, 'degC');
const litres = (about: string) => positive(about, 10_000, 'L');
const bar = (about: string, from = 0) => number(about, from, 1000, 'bar');
const percent = (about: string) => number(about, 0, 100, '%');

const KINDS = ['oil', 'glycol', 'water', 'fuel', 'air', 'other'] as const;

/** A fluid: exactly one kind. */
export const fluidSchema = fields('A fluid: exactly one of oil, glycol, water, fuel, air, other', {
  id: id('Id, once within the car'),
  name: text('Name in words', 200).optional(),
  oil: fields('Engine oil: two measured viscosities, or a grade (a band, so the answer is one too)', {
    grade: text('SAE J300 grade, such as 10W-60', 20).optional(),
    points: list(
      'Kinematic viscosity at two temperatures, from the can or the data sheet',
      fields('One viscosity', {
        atC: celsius('At [degC]'),
        viscosityCst: positive('Kinematic viscosity [cSt]', 1e6, 'cSt'),
      }),
      10,
    ).optional(),
    densityAt15KgM3: number('Density at 15 degC [kg/m3]', 500, 1500, 'kg/m3').optional(),
  }).optional(),
  glycol: fields('Water with ethylene glycol', { massPercent: number('Glycol by mass [%]', 0, 60, '%') }).optional(),
  water: fields('Plain water', {}).optional(),
  fuel: fields('Petrol or a blend', {
    ethanolPercent: percent('Ethanol by volume [%]').optional(),
    densityAt15KgM3: number('Density at 15 degC [kg/m3]', 500, 1500, 'kg/m3').optional(),
    viscosityCst: positive('Kinematic viscosity at 20 degC [cSt]', 1000, 'cSt').optional(),
    reidKpa: number('Reid vapour pressure [kPa]', 0, 200, 'kPa').optional(),
  }).optional(),
  air: fields('Air', {}).optional(),
  other: fields('A fluid that is not worked with, such as brake fluid', {}).optional(),
  note: text('Remark', 2000).optional(),
}).refine((fluid) => KINDS.filter((kind) => fluid[kind] !== undefined).length === 1, {
  error: `exactly one of ${KINDS.join(', ')}`,
});

const gForce = (about: string) => number(about, -20, 20, 'g');

/** One set of conditions. */
export const caseSchema = fields('A set of conditions', {
  id: id('Id, once within the car'),
  name: text('Name in words', 200).optional(),
  engineRpm: number('Engine speed [rpm]', 0, 30_000, 'rpm'),
  oilC: celsius('Oil [degC]').optional(),
  coolantC: celsius('Coolant leaving the engine [degC]').optional(),
  fuelC: celsius('Fuel [degC]').optional(),
  airC: celsius('Air outside [degC]').optional(),
  coreAirMPerS: number(
    'Air at the core of the radiator [m/s]; absent: as where its duty was measured',
    0,
    200,
    'm/s',
  ).optional(),
  altitudeM: number('Height above the sea [m]', -500, 6000, 'm').optional(),
  powerKw: number('Power of the engine [kW]', 0, 5000, 'kW').optional(),
  heatToWaterKw: number('Heat into the water [kW]', 0, 5000, 'kW').optional(),
  blowByLMin: number('Blow-by into the crankcase [L/min]', 0, 10_000, 'L/min').optional(),
  g: fields('How the car is pulled about, in g; absent: standing still', {
    forwardG: gForce('Speeding up [g]; braking is negative').optional(),
    rightG: gForce('Turning right [g]; left is negative').optional(),
    upG: gForce('Over a crest [g] is negative, through a dip positive').optional(),
  }).optional(),
  pitchDeg: number('Nose up [deg]', -90, 90, 'deg').optional(),
  rollDeg: number('Right side down [deg]', -180, 180, 'deg').optional(),
  lastsS: number('How long it lasts [s]', 0, 86_400, 's').optional(),
  fills: list(
    'Fill of vessels that differs in this case',
    fields('A fill', { part: id('Vessel'), fillL: number('Fill [L]', 0, 10_000, 'L') }),
    100,
  ).optional(),
  ...heatOfCase,
  note: text('Remark', 2000).optional(),
});

const NODE = /^[^\s.]{1,64}(\.[^\s.]{1,64})?$/;
const NODE_WORDS = 'a port as "part.port", or a part for its inside';
const spot = (about: string) => z.string({ error: NODE_WORDS }).regex(NODE, { error: NODE_WORDS }).describe(about);

const curve = list(
  'Measured points [[L/min, kPa], ...], at least two',
  z.tuple([number('', 0, 100_000, 'L/min'), number('', 0, 100_000, 'kPa')], { error: 'two numbers [L/min, kPa]' }),
  1000,
);

const WAYS_THROUGH = [
  'open',
  'curveLMinKpa',
  'restrictorMm',
  'boreMm',
  'checkBar',
  'relief',
  'screenOpenPercent',
] as const;

/** How fluid gets through a part: exactly one law. */
export const passageSchema = fields(`A way through a part: exactly one of ${WAYS_THROUGH.join(', ')}`, {
  id: id('Id, once within its circuit').optional(),
  name: text('Name in words', 200).optional(),
  from: spot('Where it begins'),
  to: spot('Where it ends'),
  open: flag('Joined inside without loss worth counting').optional(),
  curveLMinKpa: curve.optional(),
  atC: celsius('Temperature at which the curve was measured [degC]').optional(),
  restrictorMm: positive('Bore of a restrictor [mm]', 500, 'mm').optional(),
  dischargeCoefficient: number('Discharge coefficient of the restrictor; 0.62 if absent', 0.1, 1, '').optional(),
  boreMm: positive('Bore of a plain drilling or pipe [mm]', 500, 'mm').optional(),
  lengthMm: positive('Length of that drilling [mm]', 100_000, 'mm').optional(),
  checkBar: number('Check valve: opens at [bar]', 0, 100, 'bar').optional(),
  relief: fields('Relief valve', {
    cracksBar: positive('Cracks at [bar]', 1000, 'bar'),
    fullFlowBar: positive('Passes its full flow at [bar]', 1000, 'bar'),
    fullFlowLMin: positive('Its full flow [L/min]; the pump at top speed if absent', 100_000, 'L/min').optional(),
  }).optional(),
  screenOpenPercent: number('Screen: share that is open [%]', 1, 100, '%').optional(),
  thermostat: fields('Opens with the temperature', {
    opensC: celsius('Begins to open [degC]'),
    fullC: celsius('Fully open [degC]'),
  }).optional(),
  duty: fields('What a cooler gives off, from one measured point', {
    heatKw: positive('Heat [kW]', 5000, 'kW'),
    flowLMin: positive('At flow [L/min]', 100_000, 'L/min'),
    entryDifferenceK: positive('Hot side entry less air entry [K]', 500, 'K'),
    airMPerS: positive('Air at the core [m/s]', 200, 'm/s').optional(),
    coreM2: positive('Face of the core [m2]', 100, 'm2').optional(),
  }).optional(),
  heats: flag('The engine: its heat goes in here').optional(),
  note: text('Remark', 2000).optional(),
}).refine((passage) => WAYS_THROUGH.filter((way) => passage[way] !== undefined).length === 1, {
  error: `exactly one of ${WAYS_THROUGH.join(', ')}`,
});

/** A pump or one stage of one: by displacement, or by its measured curve. */
export const pumpSchema = fields('A pump or one stage of one: exactly one of displacementCcRev, curveLMinKpa', {
  id: id('Id, once within its circuit').optional(),
  name: text('Name in words', 200).optional(),
  from: spot('Inlet'),
  to: spot('Outlet'),
  displacementCcRev: positive('Displacement [cc/rev]', 100_000, 'cc/rev').optional(),
  curveLMinKpa: curve.optional(),
  atRpm: positive('Speed at which the curve was measured [rpm of the engine]', 100_000, 'rpm').optional(),
  driveRatio: positive('Turns of the pump to one of the engine; absent: not driven by it', 20, '').optional(),
  steadyLMin: positive(
    'An electric pump that delivers this, whatever the engine does [L/min]',
    100_000,
    'L/min',
  ).optional(),
  volumetricPercent: number('Of its displacement it delivers [%] at ...', 1, 100, '%').optional(),
  volumetricAtBar: positive('... this pressure [bar]', 1000, 'bar').optional(),
  volumetricAtCst: positive('... and this viscosity [cSt]', 1e6, 'cSt').optional(),
  relief: fields('Its relief valve, back to its own inlet', {
    cracksBar: positive('Cracks at [bar]', 1000, 'bar'),
    fullFlowBar: positive('Passes its full flow at [bar]', 1000, 'bar'),
    fullFlowLMin: positive('Its full flow [L/min]; the pump at top speed if absent', 100_000, 'L/min').optional(),
  }).optional(),
  leastInletBar: number('Inlet it stands [bar gauge]; absent: common practice', -1, 10, 'bar').optional(),
  note: text('Remark', 2000).optional(),
}).refine(
  (pump) =>
    [pump.displacementCcRev, pump.curveLMinKpa, pump.steadyLMin].filter((by) => by !== undefined).length === 1 &&
    (pump.displacementCcRev === undefined || pump.driveRatio !== undefined) &&
    (pump.curveLMinKpa === undefined || pump.atRpm !== undefined),
  { error: 'one of: displacementCcRev with driveRatio; curveLMinKpa with atRpm; steadyLMin' },
);

export const VESSEL_KINDS = [
  'tank',
  'pan',
  'pot',
  'header',
  'cell',
  'surge-pot',
  'catch-tank',
  'housing',
  'outside',
] as const;

/** A part with a free surface in it, or open to the air. */
export const vesselSchema = fields('A part that holds fluid with a free surface, or stands open to the air', {
  part: id('The part'),
  kind: oneOf('What it is', VESSEL_KINDS),
  volumeL: litres('Holds, to the brim [L]; absent: from its shape').optional(),
  fillL: number('Runs with [L]', 0, 10_000, 'L').optional(),
  leastFillL: number('Must never have less than [L]', 0, 10_000, 'L').optional(),
  capBar: bar('Pressure cap opens at [bar gauge]').optional(),
  pressureBar: bar('Pressure in it [bar gauge]; absent: open to the air, or worked out from its vents', -1).optional(),
  inside: fields('Its inside, where the part is drawn otherwise: an upright cylinder or a box', {
    cylinder: fields('Cylinder', {
      fromMm: pointMm('Middle of one end [mm]'),
      toMm: pointMm('Middle of the other end [mm]'),
      radiusMm: positive('Radius [mm]', 5000, 'mm'),
    }).optional(),
    box: fields('Box along the car axes', {
      minMm: pointMm('Least corner [mm]'),
      maxMm: pointMm('Greatest corner [mm]'),
    }).optional(),
  }).optional(),
  note: text('Remark', 2000).optional(),
});

export const CIRCUIT_KINDS = ['dry-sump', 'coolant', 'fuel', 'other'] as const;

/** What fluid goes round in: lines of the car, ways through its parts, pumps and vessels. */
export const circuitSchema = fields('What a fluid goes round in', {
  id: id('Id, once within the car'),
  name: text('Name in words', 200).optional(),
  kind: oneOf('What is asked of it', CIRCUIT_KINDS),
  fluid: id('Its fluid').optional(),
  lines: list('Its lines', id('A line'), 1000),
  passages: list('Ways through its parts', passageSchema, 1000).optional(),
  pumps: list('Its pumps, a stage each', pumpSchema, 100).optional(),
  vessels: list('Where it has a free surface', vesselSchema, 100).optional(),
  hiddenL: number('Fluid held up in the engine, not in the tank [L]', 0, 1000, 'L').optional(),
  breatherBar: number('What the breather filter holds back at the flow below [bar]', 0, 10, 'bar').optional(),
  breatherLMin: positive('... at this flow [L/min]', 100_000, 'L/min').optional(),
  burnLPerH: number('Fuel burnt at full load [L/h]', 0, 10_000, 'L/h').optional(),
  note: text('Remark', 2000).optional(),
});
