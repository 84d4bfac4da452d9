import type { z } from 'zod';
import { rulePackSchema, runDaySchema, workshopSchema } from './access.ts';
import { catalogueSchema } from './catalogue.ts';
import { caseSchema, circuitSchema, fluidSchema } from './circuit.ts';
import { fields, integer, list, number, oneOf, rowId, text } from './fields.ts';
import { baySpaceSchema, heatReadingSchema } from './heat.ts';
import { leverSchema } from './lever.ts';
import { lineSchema } from './line.ts';
import { originSchema } from './origin.ts';
import { panelSchema, sheetStockSchema } from './panel.ts';
import { moverSchema, partSchema } from './part.ts';

/** The `fairlead` number that this program writes. */
export const CAR_VERSION = 1;

const gapMm = (about: string) => number(about, 0, 2000, 'mm').optional();

/** The car file as it stands in memory: validation only, nothing is changed by it. Lengths are millimetres. */
export const carSchema = fields(
  "A car: X rearward from the front axle line, Y to the car's right, Z up, right-handed",
  {
    fairlead: integer('Version of this file format', 1, CAR_VERSION),
    name: text('Name of the car', 200).optional(),
    note: text('Remark', 2000).optional(),
    parts: list('Everything solid', partSchema),
    movers: list('What carries parts about', moverSchema, 1000),
    lines: list('What joins two ports', lineSchema, 10_000),
    origins: list('Where the builder measures from', originSchema, 1000).optional(),
    catalogue: catalogueSchema.optional(),
    keepOffMm: fields('Least gaps, surface to surface [mm]; absent ones take the usual values', {
      hot: gapMm('To bare hot parts [mm]'),
      hotShielded: gapMm('To shielded hot parts [mm]'),
      moving: gapMm('To moving parts [mm]'),
      fixed: gapMm('To fixed parts [mm]'),
      line: gapMm('To other lines [mm]'),
    }).optional(),
    box: list(
      'What lies on the shelf',
      fields('Parts on the shelf', {
        id: rowId('Catalogue or standard id'),
        qty: number('How many, or metres of hose', 0, 1e6, ''),
        note: text('Remark', 2000).optional(),
      }),
    ).optional(),
    accepted: list(
      'Snags that the builder lives with',
      fields('A snag that the builder lives with', {
        snag: text('Id of the snag'),
        level: oneOf('Its level when it was accepted', ['stop', 'fix', 'note']),
        missedPercent: number(
          'How far it missed its limit when it was accepted [% of the limit]',
          0,
          1e9,
          '%',
        ).optional(),
        stood: text('Its number in words then, such as 36 mm of 50', 200).optional(),
        by: text('Who accepts it', 80),
        why: text('Why', 2000),
        on: text('Day, such as 2026-11-25', 40),
      }),
      10_000,
    ).optional(),
    fluids: list('What flows', fluidSchema, 100).optional(),
    cases: list('Sets of conditions', caseSchema, 100).optional(),
    circuits: list('What goes round in what', circuitSchema, 100).optional(),
    panels: list('Sheet panels', panelSchema, 1000).optional(),
    sheets: list('Sheets at hand to cut them from', sheetStockSchema, 1000).optional(),
    levers: list('Levers and pedals', leverSchema, 200).optional(),
    bays: list('Closed spaces whose air is worked out', baySpaceSchema, 50).optional(),
    heatReadings: list('Temperatures as measured', heatReadingSchema, 10_000).optional(),
    workshop: workshopSchema.optional(),
    rulePacks: list('Rules as the builder entered them', rulePackSchema, 50).optional(),
    runDays: list('Days the car ran', runDaySchema, 10_000).optional(),
  },
);

export type Car = z.output<typeof carSchema>;
export type Part = Car['parts'][number];
export type Shape = Part['shapes'][number];
export type Port = Part['ports'][number];
export type PortEnd = Port['end'];
export type Mover = Car['movers'][number];
export type Line = Car['lines'][number];
export type Piece = Line['pieces'][number];
export type Through = Line['through'][number];
export type TakenWay = NonNullable<Line['taken']>;
export type KeepOff = NonNullable<Car['keepOffMm']>;
export type Catalogue = NonNullable<Car['catalogue']>;
export type HoseRow = NonNullable<Catalogue['hoses']>[number];
export type AcceptedSnag = NonNullable<Car['accepted']>[number];
export type BoxRow = NonNullable<Car['box']>[number];
export type Fluid = NonNullable<Car['fluids']>[number];
export type Case = NonNullable<Car['cases']>[number];
export type Circuit = NonNullable<Car['circuits']>[number];
export type Passage = NonNullable<Circuit['passages']>[number];
export type Pump = NonNullable<Circuit['pumps']>[number];
export type Vessel = NonNullable<Circuit['vessels']>[number];
export type Panel = NonNullable<Car['panels']>[number];
export type PanelWindow = NonNullable<Panel['windows']>[number];
export type PanelHole = NonNullable<Panel['holes']>[number];
export type PanelEdge = NonNullable<Panel['edges']>[number];
export type BaySpace = NonNullable<Car['bays']>[number];
export type HeatReading = NonNullable<Car['heatReadings']>[number];
export type PartCover = NonNullable<Part['cover']>;
export type Fastener = NonNullable<Part['fasteners']>[number];
export type Workshop = NonNullable<Car['workshop']>;
export type RulePack = NonNullable<Car['rulePacks']>[number];
export type RunDay = NonNullable<Car['runDays']>[number];
export type Lever = NonNullable<Car['levers']>[number];
export type LeverCable = NonNullable<Lever['cables']>[number];
export type LeverRod = NonNullable<Lever['rods']>[number];
export type LeverCylinder = NonNullable<Lever['cylinders']>[number];
export type LeverBracket = NonNullable<Lever['bracket']>;
export type SheetStock = NonNullable<Car['sheets']>[number];
export type Origin = NonNullable<Car['origins']>[number];
export type Reading = NonNullable<Port['measured']>[number];
export type PartClass = Part['class'];
export type EndType = PortEnd['type'];
export type Duty = Line['duty'];
export type LineState = Line['state'];
export type CrossingKind = Through['kind'];
