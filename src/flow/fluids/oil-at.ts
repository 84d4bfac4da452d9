import type { Finding } from '#sources';
import { oilConductivity, oilDensity, oilSpecificHeat } from './engine-oil.ts';
import type { FluidState } from './fluid-state.ts';
import { type KnownState, type OilSpec, remark } from './fluid-spec.ts';
import { findOilGrade, type OilGrade, type WinterGrade, shearedMPas, winterGrades } from './j300.ts';
import { viscosityAt40 } from './viscosity-index.ts';
import { type ViscosityPoint, viscosityOnLine, waltherLine } from './walther.ts';

/** Density of an oil that states none, from memory: 840 to 890. */
const usualAt15KgM3 = 870;
const hotC = 100;
/** Oil without a winter grade, from memory: the viscosity index of the thickest, the usual and the thinnest when cold. */
const plainIndex = { most: 85, usual: 97, least: 115 } as const;
/** A 0W has no colder grade that it fails: it is taken to crank no thinner than this share of its limit (own choice). */
const thinnestCranking = 0.5;
/** Viscosities from mPa s and kg/m3 to mm2/s. */
const cStOf = (mPas: number, densityKgM3: number): number => (mPas * 1000) / densityKgM3;

/** Two points of a line. */
type Pair = readonly [ViscosityPoint, ViscosityPoint];

/** A grade's corners: points when cold and when hot, of the thinnest, the usual and the thickest oil. */
interface GradeBand {
  readonly cold: { readonly least: ViscosityPoint; readonly usual: ViscosityPoint; readonly most: ViscosityPoint };
  readonly hot: { readonly least: ViscosityPoint; readonly usual: ViscosityPoint; readonly most: ViscosityPoint };
}

/** The cranking limit of the next colder grade, which an oil of this grade fails. */
function thinnestWinterPoint(winter: WinterGrade, at15KgM3: number): ViscosityPoint {
  const row = winterGrades.findIndex((grade) => grade.grade === winter.grade);
  const colder = winterGrades[row - 1];
  const { crankingC, crankingMPas } = colder ?? winter;
  const mPas = colder === undefined ? crankingMPas * thinnestCranking : crankingMPas;
  return { temperatureC: crankingC, cSt: cStOf(mPas, oilDensity(crankingC, at15KgM3)) };
}

function gradeBand({ winter, hot }: OilGrade, at15KgM3: number): GradeBand {
  const leastCSt = Math.max(hot.leastAt100CSt, winter?.leastAt100CSt ?? 0);
  const usualCSt = (leastCSt + hot.belowAt100CSt) / 2;
  const atHot = (cSt: number): ViscosityPoint => ({ temperatureC: hotC, cSt });
  const ends = { least: atHot(leastCSt), usual: atHot(usualCSt), most: atHot(hot.belowAt100CSt) };
  if (winter === undefined) {
    const at40 = (cSt: number, index: number): ViscosityPoint => ({ temperatureC: 40, cSt: viscosityAt40(cSt, index) });
    const cold = {
      least: at40(leastCSt, plainIndex.least),
      usual: at40(usualCSt, plainIndex.usual),
      most: at40(hot.belowAt100CSt, plainIndex.most),
    };
    return { cold, hot: ends };
  }
  const cold = (temperatureC: number, mPas: number): ViscosityPoint => ({
    temperatureC,
    cSt: cStOf(mPas, oilDensity(temperatureC, at15KgM3)),
  });
  return {
    cold: {
      least: thinnestWinterPoint(winter, at15KgM3),
      usual: cold(winter.crankingC, winter.crankingMPas),
      most: cold(winter.pumpingC, winter.pumpingMPas),
    },
    hot: ends,
  };
}

const onLine = ([one, other]: Pair, temperatureC: number): number =>
  viscosityOnLine(waltherLine(one, other), temperatureC);

/** Measured points, coldest first; the second from the viscosity index where that is stated instead. */
function measured(spec: OilSpec): readonly ViscosityPoint[] {
  const points = (spec.points ?? []).toSorted((p, q) => p.temperatureC - q.temperatureC);
  const [only] = points;
  if (only === undefined || points.length > 1 || spec.viscosityIndex === undefined) return points;
  return [{ temperatureC: 40, cSt: viscosityAt40(only.cSt, spec.viscosityIndex) }, only];
}

/** On the line through the two points that the temperature lies between, or through the two at the end. */
function throughPoints(points: readonly ViscosityPoint[], temperatureC: number): number {
  const above = points.findIndex((point) => point.temperatureC >= temperatureC);
  const upper = above < 0 ? points.length - 1 : Math.max(above, 1);
  const one = points[upper - 1];
  const other = points[upper];
  return one === undefined || other === undefined ? Number.NaN : onLine([one, other], temperatureC);
}

function rangeRemarks(points: readonly ViscosityPoint[], temperatureC: number): Finding[] {
  const coldest = points[0]?.temperatureC ?? temperatureC;
  const warmest = points.at(-1)?.temperatureC ?? temperatureC;
  if (temperatureC < coldest)
    return [
      remark(
        'oil-colder-than-measured',
        `viscosity at ${temperatureC} C is drawn on from ${coldest} C: cold, waxing and thickened oils leave the line, mostly upward`,
        'astm-d341',
      ),
    ];
  if (temperatureC > warmest + 20)
    return [
      remark('oil-hotter-than-measured', `viscosity at ${temperatureC} C is drawn on from ${warmest} C`, 'astm-d341'),
    ];
  return [];
}

function gradeRemarks(grade: OilGrade, temperatureC: number): Finding[] {
  const band = remark(
    'oil-grade-is-a-band',
    `${grade.name} is a band: least, usual and most are shown; two viscosities from the data sheet make it one line. In bearings it may shear down to ${shearedMPas(grade)} mPa s at 150 C`,
    'sae-j300',
  );
  if (grade.winter !== undefined && temperatureC >= grade.winter.crankingC) return [band];
  if (grade.winter === undefined && temperatureC >= 0) return [band];
  const colderThan =
    grade.winter === undefined
      ? 'nothing is said of a plain grade when cold'
      : 'colder than its cranking limit is stated';
  return [band, remark('oil-colder-than-grade', `${grade.name} at ${temperatureC} C: ${colderThan}`, 'sae-j300')];
}

/** Oil at a temperature; the question must have been checked. */
export function oilAt(spec: OilSpec, temperatureC: number): KnownState {
  const at15 = spec.densityAt15KgM3 ?? usualAt15KgM3;
  const densityKgM3 = oilDensity(temperatureC, at15);
  const stateOf = (cSt: number): FluidState => ({
    densityKgM3,
    viscosityPaS: cSt * 1e-6 * densityKgM3,
    specificHeatJKgK: oilSpecificHeat(temperatureC),
    conductivityWMK: oilConductivity(temperatureC),
    vapourAbsPa: 0,
  });
  const density =
    spec.densityAt15KgM3 === undefined
      ? [remark('oil-density-assumed', `density ${usualAt15KgM3} kg/m3 at 15 C is assumed (840 to 890)`, 'from-memory')]
      : [];
  const points = measured(spec);
  const grade = points.length > 1 ? undefined : findOilGrade(spec.grade ?? '');
  if (grade === undefined)
    return {
      state: stateOf(throughPoints(points, temperatureC)),
      remarks: [...rangeRemarks(points, temperatureC), ...density],
    };
  const band = gradeBand(grade, at15);
  // The lines cross at 100 C: beyond, the oil that was thickest when cold is the thinnest.
  const [toLeast, toMost] =
    temperatureC <= hotC ? [band.cold.least, band.cold.most] : [band.cold.most, band.cold.least];
  return {
    state: stateOf(onLine([band.cold.usual, band.hot.usual], temperatureC)),
    spread: {
      least: stateOf(onLine([toLeast, band.hot.least], temperatureC)),
      most: stateOf(onLine([toMost, band.hot.most], temperatureC)),
    },
    remarks: [...gradeRemarks(grade, temperatureC), ...density],
  };
}
