import type { Level } from '#sources';
import type { PanelFinding } from '../finding.ts';
import { usualCornerMm, usualWebMm } from '../windows/window-rules.ts';
import type { WindowField } from '../windows/window-spec.ts';
import type { Estimated, PanelLoad, PanelStrength } from './panel-strength.ts';

/** A panel as its findings need it. */
export interface JudgedPanel {
  readonly panel: string;
  readonly thicknessMm: number;
  readonly yieldMpa?: number;
  readonly load: PanelLoad & { readonly shakeHz?: number };
}

/** Works a panel out with the same windows laid out otherwise, to put numbers into a cure; undefined where it cannot be. */
export type WorkedOtherwise = (change: {
  readonly webMm?: number;
  readonly count?: number;
  readonly thicknessMm?: number;
}) => PanelStrength | undefined;

/** Yield over what is reached: less is a stop below 1, a fix below 1.5. Source: common-practice. */
const YIELD_FACTOR = 1.5;
/** A panel's own frequency over what shakes it. Source: common-practice. */
const FREQUENCY_FACTOR = 1.2;

const whole = (x: number): string => x.toFixed(Math.abs(x) < 10 ? 1 : 0);

/** What a field of windows breaks of the rules of webs, edges and corners, and what it lacks of the free area wanted. */
export function windowFindings(
  panel: JudgedPanel,
  field: WindowField,
  asked: { readonly freeMm2?: number; readonly edgeMm?: number },
): PanelFinding[] {
  const found: PanelFinding[] = [];
  const web = usualWebMm(panel.thicknessMm);
  const about = { panel: panel.panel, at: field.id, unit: 'mm', source: 'common-practice' } as const;
  if (field.webMm !== undefined && field.webMm < web - 1e-6)
    found.push({
      ...about,
      code: 'window-web-thin',
      level: 'fix',
      text: `${field.id}: webs of ${whole(field.webMm)} mm, at least ${whole(web)} mm is usual`,
      value: field.webMm,
      limit: web,
      cures: [
        `webs of ${whole(web)} mm: the openings get smaller or ${Math.max(1, field.count - 1)} stand in a row instead of ${field.count}`,
      ],
    });
  const edge = asked.edgeMm ?? web;
  if (field.edgeMm < edge - 1e-6)
    found.push({
      ...about,
      code: 'window-edge-near',
      level: 'fix',
      text: `${field.id}: an opening is ${whole(field.edgeMm)} mm from the edge or something on the panel, ${whole(edge)} mm is asked`,
      value: field.edgeMm,
      limit: edge,
      cures: [`a field ${whole(2 * (edge - field.edgeMm))} mm smaller both ways`],
    });
  const corner = usualCornerMm(panel.thicknessMm);
  if (field.drillMm / 2 < corner - 0.05)
    found.push({
      ...about,
      code: 'window-corner-tight',
      level: 'fix',
      source: 'from-memory',
      text: `${field.id}: corners of ${whole(field.drillMm / 2)} mm radius start cracks, ${whole(corner)} mm is the least usual`,
      value: field.drillMm / 2,
      limit: corner,
      cures: [`a drill of ${whole(2 * corner)} mm for the corners`],
    });
  if (asked.freeMm2 !== undefined && field.freeMm2 < asked.freeMm2 * 0.999)
    found.push({
      ...about,
      code: 'window-area-short',
      level: 'fix',
      unit: 'cm2',
      text: `${field.id}: ${whole(field.freeMm2 / 100)} cm2 free, ${whole(asked.freeMm2 / 100)} cm2 wanted`,
      value: field.freeMm2 / 100,
      limit: asked.freeMm2 / 100,
      cures: [`${whole((asked.freeMm2 - field.freeMm2) / 100)} cm2 more in another panel, or mesh that is more open`],
    });
  return found;
}

/** Level of a factor against failing; undefined where it is enough. */
const levelOf = (factor: number): Level | undefined =>
  factor < 1 ? 'stop' : factor < YIELD_FACTOR ? 'fix' : undefined;

type Numbered = (value: (of: PanelStrength) => number | undefined, unit: string) => string[];

/** Cures as sentences with the number before and after, each worked out. */
function workedCures(
  panel: JudgedPanel,
  strength: PanelStrength,
  otherwise: WorkedOtherwise,
  webMm: number | undefined,
): Numbered {
  const thicker = nextThicknessMm(panel.thicknessMm);
  return (value, unit) => {
    const was = value(strength);
    const told = (words: string, answer: PanelStrength | undefined): string[] => {
      const now = answer && value(answer);
      return was === undefined || now === undefined ? [] : [`${words}: ${whole(was)} -> ${whole(now)} ${unit}`.trim()];
    };
    const wider = webMm === undefined ? undefined : Math.round(1.5 * webMm);
    return [
      ...(wider === undefined
        ? []
        : told(`webs of ${wider} mm instead of ${whole(webMm!)}`, otherwise({ webMm: wider }))),
      ...told(`${thicker} mm sheet instead of ${panel.thicknessMm}`, otherwise({ thicknessMm: thicker })),
    ];
  };
}

/** Stress at its faces: of bending and in its plane, the greatest of each together wherever it is [MPa]. */
function facesMpa({ stressMpa, planeMpa }: PanelStrength): Estimated | undefined {
  if (stressMpa === undefined || planeMpa === undefined) return stressMpa ?? planeMpa;
  return { value: stressMpa.value + planeMpa.value, off: stressMpa.off + planeMpa.off };
}

function stressFinding(
  { yieldMpa }: JudgedPanel,
  strength: PanelStrength,
): Omit<PanelFinding, 'panel' | 'source' | 'cures'> | undefined {
  const faces = facesMpa(strength);
  if (faces === undefined || yieldMpa === undefined) return undefined;
  const level = levelOf(yieldMpa / (faces.value + faces.off));
  if (level === undefined) return undefined;
  const { stressMpa, planeMpa } = strength;
  const told = [
    ...(stressMpa === undefined ? [] : [`${whole(stressMpa.value)} MPa of bending`]),
    ...(planeMpa === undefined ? [] : [`${whole(planeMpa.value)} MPa in its plane`]),
  ].join(' and ');
  return {
    code: 'panel-stress-high',
    level,
    text: `${told} (+-${whole(faces.off)} by the mesh), its yield strength is ${whole(yieldMpa)} MPa`,
    value: faces.value,
    limit: yieldMpa / YIELD_FACTOR,
    unit: 'MPa',
  };
}

/** A panel's strength against what it must stand; each cure is worked out with `otherwise`. */
export function strengthFindings(
  panel: JudgedPanel,
  strength: PanelStrength,
  otherwise: WorkedOtherwise,
  webMm?: number,
): PanelFinding[] {
  const found: PanelFinding[] = [];
  const about = { panel: panel.panel, source: 'plate-theory' } as const;
  const cures = workedCures(panel, strength, otherwise, webMm);
  const [shakeHz, hz] = [panel.load.shakeHz, strength.frequencyHz.value];
  if (shakeHz !== undefined && hz < FREQUENCY_FACTOR * shakeHz)
    found.push({
      ...about,
      code: 'panel-frequency-low',
      level: hz < shakeHz ? 'stop' : 'fix',
      text: `its own frequency is ${whole(hz)} Hz, it is shaken at ${whole(shakeHz)} Hz`,
      value: hz,
      limit: FREQUENCY_FACTOR * shakeHz,
      unit: 'Hz',
      cures: cures((of) => of.frequencyHz.value, 'Hz'),
    });
  const stress = stressFinding(panel, strength);
  if (stress !== undefined) found.push({ ...about, ...stress, cures: cures((of) => facesMpa(of)?.value, 'MPa') });
  const buckles = strength.bucklingFactor;
  const at = buckles === undefined ? undefined : levelOf(buckles.value - buckles.off);
  if (buckles !== undefined && at !== undefined)
    found.push({
      ...about,
      code: 'panel-buckles',
      level: at,
      text: `it buckles at ${whole(buckles.value)} times the load on its edges`,
      value: buckles.value,
      limit: YIELD_FACTOR,
      unit: '',
      cures: cures((of) => of.bucklingFactor?.value, 'times'),
    });
  // One of them: an open point is known by its panel and code.
  if (strength.limits.length > 0)
    found.push({
      ...about,
      code: 'panel-model-ends',
      level: 'note',
      text: strength.limits.join('; '),
      source: 'common-practice',
      cures: ['test it on the car before it is relied on'],
    });
  return found;
}

/** Sheets as they are sold [mm]. Source: common-practice. */
const SOLD_MM = [0.5, 0.7, 0.8, 0.9, 1, 1.2, 1.5, 1.6, 2, 2.5, 3, 4, 5, 6];
const nextThicknessMm = (mm: number): number => SOLD_MM.find((sold) => sold > mm + 0.01) ?? 1.25 * mm;
