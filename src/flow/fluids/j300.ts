import { nearestName, type SourceId } from '#sources';

/** A winter grade: what it must not exceed when cold. */
export interface WinterGrade {
  readonly grade: string;
  /** Cranking (high shear) [mPa s], not above this at `crankingC`. */
  readonly crankingMPas: number;
  readonly crankingC: number;
  /** Pumping (low shear, no yield stress) [mPa s], not above this at `pumpingC`. */
  readonly pumpingMPas: number;
  readonly pumpingC: number;
  /** Least kinematic viscosity at 100 C [mm2/s]. */
  readonly leastAt100CSt: number;
  readonly source: SourceId;
}

/** A grade by its viscosity when hot. */
export interface HotGrade {
  readonly grade: string;
  /** Kinematic viscosity at 100 C [mm2/s], at least. */
  readonly leastAt100CSt: number;
  /** And below this. */
  readonly belowAt100CSt: number;
  /** High-temperature high-shear viscosity at 150 C [mPa s], at least. */
  readonly leastShearedMPas: number;
  readonly source: SourceId;
}

const source = 'sae-j300';

/** Coldest first. */
export const winterGrades = [
  { grade: '0W', crankingMPas: 6200, crankingC: -35, pumpingMPas: 60_000, pumpingC: -40, leastAt100CSt: 3.8, source },
  { grade: '5W', crankingMPas: 6600, crankingC: -30, pumpingMPas: 60_000, pumpingC: -35, leastAt100CSt: 3.8, source },
  { grade: '10W', crankingMPas: 7000, crankingC: -25, pumpingMPas: 60_000, pumpingC: -30, leastAt100CSt: 4.1, source },
  { grade: '15W', crankingMPas: 7000, crankingC: -20, pumpingMPas: 60_000, pumpingC: -25, leastAt100CSt: 5.6, source },
  { grade: '20W', crankingMPas: 9500, crankingC: -15, pumpingMPas: 60_000, pumpingC: -20, leastAt100CSt: 5.6, source },
  {
    grade: '25W',
    crankingMPas: 13_000,
    crankingC: -10,
    pumpingMPas: 60_000,
    pumpingC: -15,
    leastAt100CSt: 9.3,
    source,
  },
] as const satisfies readonly WinterGrade[];

/** Thinnest first. The 40 of this table is that of 15W-40, 20W-40, 25W-40 and plain 40; see `shearedMPas`. */
export const hotGrades = [
  { grade: '8', leastAt100CSt: 4, belowAt100CSt: 6.1, leastShearedMPas: 1.7, source },
  { grade: '12', leastAt100CSt: 5, belowAt100CSt: 7.1, leastShearedMPas: 2, source },
  { grade: '16', leastAt100CSt: 6.1, belowAt100CSt: 8.2, leastShearedMPas: 2.3, source },
  { grade: '20', leastAt100CSt: 6.9, belowAt100CSt: 9.3, leastShearedMPas: 2.6, source },
  { grade: '30', leastAt100CSt: 9.3, belowAt100CSt: 12.5, leastShearedMPas: 2.9, source },
  { grade: '40', leastAt100CSt: 12.5, belowAt100CSt: 16.3, leastShearedMPas: 3.7, source },
  { grade: '50', leastAt100CSt: 16.3, belowAt100CSt: 21.9, leastShearedMPas: 3.7, source },
  { grade: '60', leastAt100CSt: 21.9, belowAt100CSt: 26.1, leastShearedMPas: 3.7, source },
] as const satisfies readonly HotGrade[];

/** A 40 with a light winter grade may shear thinner [mPa s]. */
const lightForty = { winters: ['0W', '5W', '10W'], leastShearedMPas: 3.5 } as const;

/** What "10W-60" or "40" stands for. */
export interface OilGrade {
  /** As written in the table: "10W-60". */
  readonly name: string;
  readonly winter?: WinterGrade;
  readonly hot: HotGrade;
}

/** A 25W must be thicker at 100 C than a 20 may be: no oil can be both. */
const canBeBoth = (winter: WinterGrade, hot: HotGrade): boolean => winter.leastAt100CSt < hot.belowAt100CSt;

/** Every multigrade and plain grade, as written. */
export const oilGradeNames: readonly string[] = [
  ...winterGrades.flatMap((winter) =>
    hotGrades.filter((hot) => canBeBoth(winter, hot)).map((hot) => `${winter.grade}-${hot.grade}`),
  ),
  ...hotGrades.map((hot) => hot.grade),
];

/** Least high-temperature high-shear viscosity of a grade at 150 C [mPa s]: in bearings, not in lines. */
export function shearedMPas({ winter, hot }: OilGrade): number {
  const isLight = winter !== undefined && lightForty.winters.some((grade) => grade === winter.grade);
  return hot.grade === '40' && isLight ? lightForty.leastShearedMPas : hot.leastShearedMPas;
}

/** The grade of this name, spaces, case and a leading SAE aside; undefined when the table has none. */
export function findOilGrade(written: string): OilGrade | undefined {
  const name = written.replaceAll(/\s/g, '').toUpperCase().replace(/^SAE/, '');
  const [, winterName, hotName] = /^(?:(\d{1,2}W)-)?(\d{1,2})$/.exec(name) ?? [];
  const hot = hotGrades.find((row) => row.grade === hotName);
  if (hot === undefined) return undefined;
  if (winterName === undefined) return { name, hot };
  const winter = winterGrades.find((row) => row.grade === winterName);
  return winter !== undefined && canBeBoth(winter, hot) ? { name, winter, hot } : undefined;
}

/** The grade that was most likely meant by one that is not in the table: "10W60" and "10w/60" for 10W-60. */
export function nearestOilGrade(written: string): string | undefined {
  const short = written.slice(0, 32).replaceAll(/\s|sae/gi, '');
  const [, winter, hot] = /^(\d{1,2})w[^\d]?(\d{1,2})$/i.exec(short) ?? [];
  const joined = `${winter}W-${hot}`;
  return oilGradeNames.includes(joined) ? joined : nearestName(short, oilGradeNames);
}
