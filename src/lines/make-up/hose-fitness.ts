import { type AssumedOfHose, type DutyNeed, type Fixing, type HoseRow, dutyNeeds } from '#standards';
import type { Duty } from '#standards';
import type { Finding } from '#sources';

/** What a line says of itself; the duty's usual figures stand in for what it does not say. */
export interface LineConditions {
  readonly duty: Duty;
  readonly dash?: number | undefined;
  readonly boreMm?: number | undefined;
  /** Highest working pressure [bar gauge]. */
  readonly pressureBar?: number | undefined;
  /** Deepest vacuum [bar below the air outside]. */
  readonly vacuumBar?: number | undefined;
  /** Highest fluid temperature [degC]. */
  readonly temperatureC?: number | undefined;
  /** Hottest air or surface round the line [degC], where known. */
  readonly ambientC?: number | undefined;
  readonly sleeve?: string | undefined;
}

/** A limit of the hose, by the name that a refused way prints. */
export interface HoseFinding extends Finding {
  readonly breaks: 'pressure' | 'temperature' | 'vacuum' | 'fluid' | 'mating';
}

/** How the hose is held, where that weakens the assembly. */
export interface HeldBy {
  readonly name: string;
  readonly fixing: Fixing | 'clamped' | 'tube';
  /** The end's own rating, where a row or the builder gives one [bar]. */
  readonly pressureBar?: number;
}

/** Most pressure of a hose held by a worm-drive clamp, and of a push-on end [bar]; common practice, no source. */
const clampedMostBar = 7;
const pushOnMostBar = 17;

/**
 * What speaks against this hose on this line: pressure, temperature, vacuum, fluid, and size. A broken limit is a `stop`, an
 * unknown one that the duty needs a `fix`; so is one that only the usual hose has, where the builder's row says nothing of it.
 * A sleeve earns no temperature.
 */
export function hoseFitness(
  hose: HoseRow,
  line: LineConditions,
  heldBy: readonly HeldBy[] = [],
): readonly HoseFinding[] {
  const need = dutyNeeds(line.duty);
  return [
    ...pressureFindings(hose, line, need, heldBy),
    ...temperatureFindings(hose, line, need),
    ...vacuumFindings(hose, line, need),
    ...fluidFindings(hose, need),
    ...sizeFindings(hose, line),
  ];
}

/** An assembly stands what the weaker of hose and ends stands [bar]; source SAE J516:2019. */
export function assemblyPressureBar(hose: HoseRow, heldBy: readonly HeldBy[]): { bar: number; weakest: string } {
  const ratings = heldBy.map((end) => ({ bar: end.pressureBar ?? usualBar(end.fixing), weakest: end.name }));
  return ratings.reduce((least, r) => (r.bar < least.bar ? r : least), { bar: hose.pressureBar, weakest: hose.name });
}

function usualBar(fixing: HeldBy['fixing']): number {
  if (fixing === 'clamped') return clampedMostBar;
  return fixing === 'push-on' ? pushOnMostBar : Number.POSITIVE_INFINITY;
}

/** A limit that was taken from the usual hose refuses nothing: the builder is to ask the maker. */
function onLimit(hose: HoseRow, limit: AssumedOfHose, text: string): Pick<HoseFinding, 'level' | 'text' | 'source'> {
  if (hose.assumed?.includes(limit) !== true) return { level: 'stop', text, source: hose.source };
  const asked = `its row in the car file does not say "${limit}", the figure is the usual hose's: ask its maker`;
  return { level: 'fix', text: `${text}; ${asked}`, source: 'common-practice' };
}

function pressureFindings(
  hose: HoseRow,
  line: LineConditions,
  need: DutyNeed,
  heldBy: readonly HeldBy[],
): HoseFinding[] {
  const wanted = line.pressureBar ?? need.pressureBar;
  const { bar, weakest } = assemblyPressureBar(hose, heldBy);
  if (wanted <= bar) return [];
  const ofHose = weakest === hose.name;
  const text = `${weakest} stands ${bar} bar, the line works at ${wanted} bar`;
  return [
    {
      code: 'hose-pressure',
      breaks: 'pressure',
      ...(ofHose ? onLimit(hose, 'pressureBar', text) : { level: 'stop', text, source: 'common-practice' }),
      value: wanted,
      limit: bar,
      unit: 'bar',
    },
  ];
}

function temperatureFindings(hose: HoseRow, line: LineConditions, need: DutyNeed): HoseFinding[] {
  const sleeve = line.sleeve === undefined ? '' : `; the sleeve does not raise what the hose stands (navy-14315)`;
  const hot = (what: string, value: number): HoseFinding[] =>
    value <= hose.maxC
      ? []
      : [
          {
            code: 'hose-hot',
            breaks: 'temperature',
            ...onLimit(hose, 'maxC', `${hose.name} stands ${hose.maxC} °C, ${what} reaches ${value} °C${sleeve}`),
            value,
            limit: hose.maxC,
            unit: '°C',
          },
        ];
  const cold: HoseFinding[] =
    need.minC >= hose.minC
      ? []
      : [
          {
            code: 'hose-cold',
            level: 'fix',
            breaks: 'temperature',
            text: `${hose.name} is good down to ${hose.minC} °C, the line may stand at ${need.minC} °C`,
            value: need.minC,
            limit: hose.minC,
            unit: '°C',
            source: hose.source,
          },
        ];
  return [
    ...hot('what runs in it', line.temperatureC ?? need.maxC),
    ...(line.ambientC === undefined ? [] : hot('what lies round it', line.ambientC)),
    ...cold,
  ];
}

function vacuumFindings(hose: HoseRow, line: LineConditions, need: DutyNeed): HoseFinding[] {
  const wanted = line.vacuumBar ?? need.vacuumBar;
  if (wanted <= 0) return [];
  if (hose.vacuumBar === null) {
    return [
      {
        code: 'hose-vacuum-unknown',
        level: 'fix',
        breaks: 'vacuum',
        text: `${hose.name}: no vacuum rating known; suction of ${wanted} bar on hot oil may draw it flat. Ask its maker, or take a hose with a rating`,
        limit: wanted,
        unit: 'bar',
        source: need.source,
      },
    ];
  }
  if (hose.vacuumBar >= wanted) return [];
  const text = `${hose.name} stands ${hose.vacuumBar} bar of vacuum, the line is sucked to ${wanted} bar below the air outside`;
  return [
    {
      code: 'hose-vacuum',
      level: 'stop',
      breaks: 'vacuum',
      text,
      value: wanted,
      limit: hose.vacuumBar,
      unit: 'bar',
      source: hose.source,
    },
  ];
}

function fluidFindings(hose: HoseRow, need: DutyNeed): HoseFinding[] {
  if (!hose.fluids.includes(need.fluid)) {
    const text = `${hose.name} is for ${hose.fluids.join(', ')}, not for ${need.fluid}`;
    return [{ code: 'hose-fluid', level: 'stop', breaks: 'fluid', text, source: hose.source }];
  }
  if (!need.conductiveLiner || hose.conductive === true) return [];
  if (hose.conductive === false) {
    const text = `${hose.name}: its liner does not lead static away; running ${need.fluid} charges it until it burns through`;
    return [{ code: 'hose-static', level: 'stop', breaks: 'fluid', text, source: need.source }];
  }
  const plastic = hose.family.includes('ptfe');
  const text = `${hose.name}: not known whether its liner leads static away, as ${need.fluid} wants`;
  return [{ code: 'hose-static-unknown', level: plastic ? 'fix' : 'note', breaks: 'fluid', text, source: need.source }];
}

/** A bore up to this much off the one asked is the same size under another name. */
const boreShare = 0.1;

function sizeFindings(hose: HoseRow, line: LineConditions): HoseFinding[] {
  if (line.dash !== undefined && hose.dash !== undefined && hose.dash !== line.dash) {
    const text = `${hose.name} is a -${hose.dash}, the line is a -${line.dash}`;
    return [
      {
        code: 'hose-size',
        level: 'stop',
        breaks: 'mating',
        text,
        value: hose.dash,
        limit: line.dash,
        unit: 'dash',
        source: 'builder',
      },
    ];
  }
  if (line.boreMm === undefined || Math.abs(hose.boreMm - line.boreMm) <= boreShare * line.boreMm) return [];
  const level = hose.boreMm < line.boreMm ? 'stop' : 'fix';
  const text = `${hose.name} has a bore of ${hose.boreMm} mm, the line asks for ${line.boreMm} mm`;
  return [
    {
      code: 'hose-bore',
      level,
      breaks: 'mating',
      text,
      value: hose.boreMm,
      limit: line.boreMm,
      unit: 'mm',
      source: 'builder',
    },
  ];
}
