import { z } from 'zod';
import { integer, list, number, positive, rowId, text } from './fields.ts';

const own = {
  partNumber: text("The builder's own part number", 120).optional(),
  supplier: text('Where it is bought', 120).optional(),
  price: number('Price each, or by the metre for hose', 0, 1e9, '').optional(),
  currency: text('Currency of the price', 10).optional(),
};

/** Rows of the builder's own: measured fields override the standard row with the same id. */
const row = <T extends z.core.$ZodLooseShape>(about: string, shape: T) =>
  z
    .looseObject(
      {
        id: rowId("Id; a standard row's id overrides that row"),
        name: text('Name in words').optional(),
        ...own,
        ...shape,
      },
      { error: 'an object {...}' },
    )
    .describe(about);

const hoseRow = row('A hose', {
  dash: integer('Dash size', 1, 64).optional(),
  boreMm: positive('Bore [mm]', 500, 'mm'),
  odMm: positive('Outside diameter [mm]', 600, 'mm'),
  minBendRadiusMm: positive('Least bend radius, to the centreline [mm]', 5000, 'mm'),
  pressureBar: positive('Working pressure [bar]', 5000, 'bar').optional(),
  vacuumBar: number('Vacuum it stands [bar below the air outside]', 0, 1, 'bar').optional(),
  minC: number('Coldest [degC]', -273, 500, 'degC').optional(),
  maxC: number('Hottest [degC]', -60, 1500, 'degC').optional(),
});
const tubeRow = row('A hard tube', {
  odMm: positive('Outside diameter [mm]', 500, 'mm').optional(),
  wallMm: positive('Wall [mm]', 50, 'mm').optional(),
  bendRadiusMm: positive('Centreline bend radius [mm]', 5000, 'mm').optional(),
});
/** What a fitting was measured to lose: it takes the place of what is reckoned for it. */
const measuredRow = (about: string) =>
  row(about, {
    curveLMinKpa: list(
      'Measured loss [[L/min, kPa], ...], two points or more, with the fluid of the circuit it stands in',
      z.tuple([number('', 0, 100_000, 'L/min'), number('', 0, 100_000, 'kPa')], { error: 'two numbers [L/min, kPa]' }),
      1000,
    ).optional(),
    curveAtC: number('Temperature of the fluid when it was measured [degC]', -60, 500, 'degC').optional(),
  });
const otherRow = (about: string) => row(about, {});

export const CATALOGUE_TABLES = ['hoses', 'hoseEnds', 'adapters', 'tubes', 'seals', 'clamps', 'grommets'] as const;

export const catalogueSchema = z
  .strictObject(
    {
      hoses: list('Hoses', hoseRow).optional(),
      hoseEnds: list('Hose ends', measuredRow('A hose end')).optional(),
      adapters: list('Adapters', measuredRow('An adapter')).optional(),
      tubes: list('Hard tubes', tubeRow).optional(),
      seals: list('Seals', otherRow('A seal')).optional(),
      clamps: list('Clamps', otherRow('A clamp')).optional(),
      grommets: list('Grommets', otherRow('A grommet')).optional(),
    },
    { error: 'an object {...}' },
  )
  .describe("The builder's own parts; they join and override the standard rows");
