import type { PanelAnswer } from '#answers';
import { type PanelLayout, type PanelStrength, panelStrengthOf } from '#panels';
import { formatNumber, type Lengths } from '#units';

/** A panel with what its load does to it, or what it is by itself where the car file says none. */
export interface PanelUnderLoad extends PanelAnswer {
  readonly strength?: PanelStrength;
  readonly massSavedKg?: number;
  /** Nothing presses on it: it is told by itself. */
  readonly hasLoad?: boolean;
}

/** One panel under its load, with what is found of that behind the rest. */
export function panelUnderLoad(layout: PanelLayout, answer: PanelAnswer): PanelUnderLoad {
  const found = panelStrengthOf(layout, { unloaded: true });
  if (found === null) return answer;
  return {
    ...answer,
    ...(found.strength === undefined
      ? {}
      : { strength: found.strength, hasLoad: Object.keys(layout.panel.load ?? {}).some((key) => key !== 'held') }),
    ...(found.massSavedKg === undefined ? {} : { massSavedKg: found.massSavedKg }),
    findings: [...answer.findings, ...found.findings],
  };
}

/** The mesh behind a panel's windows, for the shears. */
export function meshRows({ panel, flats }: PanelUnderLoad, lengths: Lengths): string[] {
  const mm = (value: number): string => lengths.text(`${formatNumber(value)} mm`);
  return flats
    .flatMap(({ meshes }) => meshes)
    .map(
      ({ window, mesh, cutMm, frameMm, frameLongMm, fixings, freeMm2 }) =>
        `  ${panel} ${window}: ${mesh}, cut ${cutMm.map(mm).join(' x ')}; strip ${mm(frameMm)} wide, ${mm(frameLongMm)} in all; ${fixings.count} ${`${fixings.kind} ${fixings.size}`.trim()}; leaves ${freeOf(freeMm2, lengths)} open`,
    );
}

/** What closes the holes and sealed edges of one panel. */
export const sealRows = ({ flats }: PanelUnderLoad, lengths: Lengths): string[] =>
  flats
    .flatMap(({ seals }) => seals)
    .map(
      ({ at, words, longMm }) =>
        `  ${at}: ${lengths.text(words)}${longMm === undefined ? '' : `, ${lengths.text(`${formatNumber(longMm)} mm`)}`}`,
    );

const MM2_PER_IN2 = 645.16;
const freeOf = (mm2: number, { unit }: Lengths): string =>
  unit === 'in' ? `${formatNumber(mm2 / MM2_PER_IN2, 1)} in2` : `${formatNumber(mm2 / 100)} cm2`;

const KG_PER_LB = 0.45359237;
const PSI_PER_MPA = 145.037738;

/** Numbers of a panel under its load; each with what two meshes differ by. */
export function strengthRows({ strength, massSavedKg, hasLoad }: PanelUnderLoad, lengths: Lengths): string[] {
  if (strength === undefined) return [];
  const inches = lengths.unit === 'in';
  const { frequencyHz, deflectionMm, stressMpa, planeMpa, bucklingFactor } = strength;
  const row = (what: string, of: PanelStrength['frequencyHz'] | undefined, unit: string, times = 1, decimals = 1) =>
    of === undefined
      ? []
      : [
          `  ${what} ${formatNumber(of.value * times, decimals)} ${unit} (±${formatNumber(of.off * times, decimals)} by the mesh)`,
        ];
  return [
    hasLoad === true ? 'Under its load:' : 'By itself, no load stated:',
    ...row('own frequency', frequencyHz, 'Hz'),
    ...(massSavedKg === undefined
      ? []
      : [
          `  openings save ${inches ? `${formatNumber(massSavedKg / KG_PER_LB, 2)} lb` : `${formatNumber(1000 * massSavedKg)} g`}`,
        ]),
    ...(inches ? row('deflection', deflectionMm, 'in', 1 / 25.4, 3) : row('deflection', deflectionMm, 'mm', 1, 2)),
    ...(inches ? row('bending stress', stressMpa, 'psi', PSI_PER_MPA, 0) : row('bending stress', stressMpa, 'MPa')),
    ...(inches
      ? row('stress in its plane', planeMpa, 'psi', PSI_PER_MPA, 0)
      : row('stress in its plane', planeMpa, 'MPa')),
    ...row('buckles at', bucklingFactor, 'times the load on its edges', 1, 2),
  ];
}
