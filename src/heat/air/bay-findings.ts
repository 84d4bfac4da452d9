import type { Level } from '#sources';
import type { HeatFinding } from '../finding.ts';
import type { BayAdvice, BayAir, OpeningFlow } from './bay-air-answer.ts';
import { WIRE_RANGE } from './mesh-loss.ts';
import type { ReadyBay } from './ready-bay.ts';

/** Less than this through an opening is no direction [m3/s]. */
const NOTHING_M3S = 0.0005;
/** Intake air hotter than that outside by this is told, and by this is to be mended [K]. Source: common-practice: 10 K are 3 % of the air. */
const INTAKE_NOTE_K = 5;
const INTAKE_FIX_K = 20;
/** Air that is drawn in at a drain by more than this holds water back [Pa]: a millimetre of it. */
const DRAIN_PA = -10;
/** The coefficient of two-way flow is not told beyond this [K]. */
const TWO_WAY_MOST_K = 130;

/** What is wrong with the air of a bay in one case. */
export function bayFindings(ready: ReadyBay, air: BayAir, advice: BayAdvice | undefined): readonly HeatFinding[] {
  const finding = findingOf(ready, air);
  return [
    ...settling(air, finding),
    ...fans(ready, finding),
    ...directions(air, finding),
    ...intakes(ready, air, finding),
    ...drains(air, finding),
    ...areas(advice, finding),
    ...meshes(ready, air, finding),
    ...bothWays(air, finding),
  ];
}

type Make = (
  code: string,
  level: Level,
  text: string,
  more?: Partial<Omit<HeatFinding, 'code' | 'level' | 'text'>>,
) => HeatFinding;

const findingOf =
  ({ ask }: ReadyBay, air: BayAir): Make =>
  (code, level, text, more = {}) => ({
    code,
    level,
    text: `${air.name}: ${text}`,
    source: 'two-orifice-stack',
    bay: air.bay,
    case: ask.case.id,
    cures: [],
    ...more,
  });

const deg = (c: number): string => `${Math.round(c)} degC`;
const lS = (m3S: number): string => `${Math.abs(m3S * 1000).toFixed(Math.abs(m3S) < 0.01 ? 1 : 0)} L/s`;
const cm2 = (area: number): string => `${Math.round(area)} cm2`;
const named = (rows: readonly string[]): string => rows.join(', ');

function settling(air: BayAir, finding: Make): readonly HeatFinding[] {
  const wanted = air.openings.filter(({ outsidePa }) => outsidePa === null);
  return [
    ...(air.unsettled === undefined
      ? []
      : [
          finding('bay-air-unsettled', 'fix', air.unsettled, {
            cures: ['an opening low in the bay and one high in it', 'a panel with a window'],
          }),
        ]),
    ...(wanted.length === 0
      ? []
      : [
          finding(
            'bay-pressure-wanted',
            'note',
            `the car drives and the pressure outside ${named(wanted.map(({ name }) => name))} is not known: counted as standing`,
            { cures: ['a column of water and a tube flush with the panel, read at a steady speed'] },
          ),
        ]),
  ];
}

const fans = ({ ask: { space } }: ReadyBay, finding: Make): readonly HeatFinding[] =>
  space.bay.fan === undefined || space.bay.fan.flowLMin !== undefined
    ? []
    : [
        finding('bay-fan-flow', 'note', 'the flow of its fan is not given: it counts as standing', {
          source: 'builder',
          cures: ['the flow of the fan'],
        }),
      ];

const driven = (air: BayAir): boolean => air.openings.some(({ outsidePa }) => outsidePa !== null && outsidePa !== 0);

function directions(air: BayAir, finding: Make): readonly HeatFinding[] {
  return air.openings
    .filter((row) => row.fan !== true && row.bothWaysM3S === undefined && Math.abs(row.flowM3S) > NOTHING_M3S)
    .filter((row) => (row.lets === 'out' && row.flowM3S < 0) || (row.lets === 'in' && row.flowM3S > 0))
    .map((row) => {
      const isIn = row.flowM3S < 0;
      return finding(
        isIn ? 'bay-vent-draws-in' : 'bay-inlet-blows-out',
        'fix',
        `${row.name} is to let air ${row.lets}, and ${lS(row.flowM3S)} ${isIn ? 'come in' : 'go out'} there`,
        {
          opening: row.opening,
          value: row.flowM3S * 1000,
          limit: 0,
          unit: 'L/s',
          place: row.atMm,
          cures: curesOf(air, row),
          inputs: [
            { name: 'inside over outside there', value: `${row.overPa.toFixed(1)} Pa` },
            { name: 'pressure outside it', value: `${(row.outsidePa ?? 0).toFixed(1)} Pa` },
          ],
        },
      );
    });
}

function curesOf(air: BayAir, row: OpeningFlow): readonly string[] {
  if (row.lets !== 'out') return ['another place for it, where the pressure outside is higher'];
  return [
    ...(air.intakes.some(({ massKgS }) => massKgS > 0)
      ? ['an airbox with its own opening for the engine, so that it no longer pulls on the bay']
      : []),
    ...(driven(air) ? ['another place for it, where the pressure outside is lower'] : []),
    'more opening low in the bay, for the air that comes in',
  ];
}

function intakes({ ask }: ReadyBay, air: BayAir, finding: Make): readonly HeatFinding[] {
  const isUnknown = ask.case.engineRpm > 0 && ask.case.powerKw === undefined;
  if (isUnknown && air.intakes.length > 0)
    return [
      finding(
        'bay-intake-power',
        'note',
        `what ${named(air.intakes.map(({ name }) => name))} draws is not counted: the case has no power`,
        {
          source: 'common-practice',
          cures: ['the power of the case'],
        },
      ),
    ];
  return air.intakes
    .filter(({ massKgS, overK }) => massKgS > 0 && overK >= INTAKE_NOTE_K)
    .map((row) =>
      finding(
        'bay-intake-hot',
        row.overK >= INTAKE_FIX_K ? 'fix' : 'note',
        `${row.name} draws ${(row.massKgS * 1000).toFixed(row.massKgS < 0.01 ? 1 : 0)} g/s at ${deg(row.airC)}, ${Math.round(row.overK)} degrees hotter than outside`,
        {
          part: row.part,
          value: row.overK,
          limit: INTAKE_FIX_K,
          unit: 'K',
          source: 'common-practice',
          place: row.atMm,
          cures: ['an airbox or a trunk to an opening of its own, apart from the hot air'],
        },
      ),
    );
}

const drains = (air: BayAir, finding: Make): readonly HeatFinding[] =>
  air.drains
    .filter(({ overPa }) => overPa < DRAIN_PA)
    .map((row) =>
      finding(
        'bay-drain-draws',
        'note',
        `air is drawn in at ${row.name} by ${Math.abs(Math.round(row.overPa))} Pa: it holds ${Math.round(-row.overPa / 9.81)} mm of water back, and takes dirt along`,
        {
          opening: row.opening,
          value: row.overPa,
          limit: DRAIN_PA,
          unit: 'Pa',
          place: row.atMm,
          cures: ['a short tube that ends in still air, or a flap'],
        },
      ),
    );

function areas(advice: BayAdvice | undefined, finding: Make): readonly HeatFinding[] {
  if (advice === undefined || advice.wanted.length === 0) return [];
  const doing = advice.wanted.flatMap((row) => (row.wantCm2 === null ? [] : [{ ...row, wantCm2: row.wantCm2 }]));
  const cures = [
    ...doing.map((row) => `${cm2(row.wantCm2)} free in ${row.name} (it has ${cm2(row.freeCm2)})`),
    ...advice.per50Cm2
      .filter(({ changeK }) => changeK < -0.5)
      .sort((a, b) => a.changeK - b.changeK)
      .slice(0, 2)
      .map((row) => `50 cm2 more at ${row.name}: ${(-row.changeK).toFixed(1)} degrees less`),
  ];
  const none = doing.length === 0 ? '; more in one panel alone does not do it' : '';
  return [
    finding('bay-area-wanted', 'note', `more opening is wanted for ${deg(advice.wantC)}${none}`, {
      limit: advice.wantC,
      unit: 'degC',
      source: 'common-practice',
      cures,
    }),
  ];
}

/** Openings whose woven mesh is outside of its table, with the Reynolds number there. */
const offTable = ({ open }: ReadyBay, air: BayAir): readonly string[] =>
  open.flatMap(({ opening, name, areaM2, mesh }) => {
    const flow = air.openings.find((row) => row.opening === opening);
    if (mesh?.wireGapM === undefined || flow === undefined) return [];
    const reynolds = (Math.abs(flow.flowM3S) / (areaM2 * mesh.openShare)) * (mesh.wireGapM / KINEMATIC_M2S);
    return reynolds < WIRE_RANGE.least || reynolds > WIRE_RANGE.most ? [`${name} (${Math.round(reynolds)})`] : [];
  });

function meshes(ready: ReadyBay, air: BayAir, finding: Make): readonly HeatFinding[] {
  const out: HeatFinding[] = [];
  const off = offTable(ready, air);
  const { least, most } = WIRE_RANGE;
  if (off.length > 0) {
    const text = `the table of woven mesh goes from Re ${least} to ${most}: its end counts at ${named(off)}`;
    out.push(finding('bay-mesh-range', 'note', text, { source: 'applied-fluid-dynamics-handbook' }));
  }
  const vague = ready.open.filter(
    ({ mesh }) => mesh !== undefined && mesh.wireGapM === undefined && mesh.punched !== true,
  );
  if (vague.length > 0) {
    const text = `of the mesh over ${named(vague.map(({ name }) => name))} only its open share is known: the kind that loses most is counted`;
    const cures = ['what the mesh is: woven wire, or sheet with round, square or hexagon holes'];
    out.push(finding('bay-mesh-unknown', 'note', text, { source: 'idelchik-handbook', cures }));
  }
  return out;
}

function bothWays(air: BayAir, finding: Make): readonly HeatFinding[] {
  if (!air.openings.some(({ bothWaysM3S }) => (bothWaysM3S ?? 0) > 0)) return [];
  const overK = Math.abs(air.airC - air.outsideC);
  const text = 'hot air goes out and cold comes in through the same openings: one low and one high would carry more';
  const own = finding('bay-two-way', 'note', text, {
    source: 'kiel-wilson-1986',
    cures: ['an opening low in the bay'],
  });
  if (overK <= TWO_WAY_MOST_K) return [own];
  const range = `flow both ways through one opening is told up to ${TWO_WAY_MOST_K} degrees of difference; here it is ${Math.round(overK)}`;
  const more = { source: 'ashrae-1997-ventilation', value: overK, limit: TWO_WAY_MOST_K, unit: 'K' };
  return [own, finding('bay-two-way-range', 'note', range, more)];
}

/** Of air at 60 degC, for which table's end counts [m2/s]. */
const KINEMATIC_M2S = 1.9e-5;
