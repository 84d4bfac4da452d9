import { type Drawing, type PathShape, palettes, type Spot } from '#book';
import { type Outline, outlinePoints, type Point2, sideArc } from '#geometry';
import {
  outlineFromImage,
  type PhotoHints,
  type PhotoOutline,
  readPhoto,
  readReference,
  REFERENCE_WORDS,
} from '#intake';
import { type FlatPattern, lowestOf, templateOf } from '#panels';
import { dxfText, svgText } from '#paper';
import { formatNumber, parseLength } from '#units';
import type { Asked, Command } from './command.ts';
import { CommandFault } from './command-fault.ts';
import { exitCode } from './exit-code.ts';
import { outFile } from './out-file.ts';
import { quoted } from './quoted.ts';
import { jsonOption } from './usual-options.ts';

type Found = Extract<PhotoOutline, { ok: true }>;

const USUAL_THICKNESS_MM = 4;
const MARGIN_MM = 10;
const DECIMALS = 2;

export const template: Command = {
  name: 'template',
  about: 'the outline of a cardboard template from a photo of it beside a reference of known size',
  operands: [{ name: 'PHOTO', about: 'a JPEG or PNG photo' }],
  options: [
    { name: 'reference', value: 'KIND:SIZES', about: 'what lies beside it, such as square:600x400 or frame:800x600' },
    { name: 'reference-thickness', value: 'LENGTH', about: 'how far its face lies above the bench; 0 if not said' },
    {
      name: 'reference-known',
      value: 'LENGTH',
      about: 'how well its sizes are known, plus or minus; 0.5 mm if not said',
    },
    { name: 'thickness', value: 'LENGTH', about: 'of the cardboard; 4 mm if not said' },
    {
      name: 'corners',
      value: 'X,Y ...',
      about: 'four corners of the reference in the photo, in pixels, if it is not found by itself',
    },
    { name: 'on', value: 'X,Y', about: 'a place on the template in the photo, in pixels, if two things could be it' },
    { name: 'out', value: 'FILE', about: '.svg and .dxf 1:1, or .json as a panel of the car file takes it' },
    jsonOption,
  ],
  more: [
    `References: ${REFERENCE_WORDS}.`,
    'Of a square the four corners are its outer corner, the outer tip of its first arm, its inner corner, the outer tip of its other arm.',
    'An outline that would be off by more than 2 mm is refused.',
  ],
  async run(asked, terminal) {
    const [file = ''] = asked.operands;
    const wish = wishOf(asked);
    const name = asked.value('out');
    const write = name === undefined ? undefined : writerOf(name);
    const out = name === undefined ? undefined : await outFile(name, file);
    const photo = await readPhoto(file);
    if (!photo.ok) throw new CommandFault([`${quoted(file)}: ${photo.fault}`]);
    const answer = outlineFromImage(photo.image, wish);
    if (!answer.ok) throw new CommandFault([`${quoted(file)}: ${answer.refusal}`]);
    const atNought = moved(answer);
    if (out !== undefined && write !== undefined) await out.write(write(atNought, wish.thicknessMm));
    if (asked.has('json')) terminal.out(`${JSON.stringify(document(atNought))}\n`);
    else terminal.out(`${inWords(atNought, name).join('\n')}\n`);
    return exitCode.done;
  },
};

function wishOf(asked: Asked) {
  const words = asked.value('reference');
  if (words === undefined) throw new CommandFault([`template: --reference is missing; allowed: ${REFERENCE_WORDS}`]);
  const reference = readReference(words);
  if (reference === undefined) throw new CommandFault([`--reference: ${quoted(words)}; allowed: ${REFERENCE_WORDS}`]);
  const corners = asked.value('corners');
  const on = asked.value('on');
  const hints: PhotoHints = {
    ...(corners === undefined ? {} : { referencePx: picks('corners', corners, 4) }),
    ...(on === undefined ? {} : { templatePx: picks('on', on, 1)[0]! }),
  };
  const known = asked.value('reference-known');
  return {
    reference: {
      ...reference,
      thicknessMm: lengthOf(asked, 'reference-thickness', 0),
      ...(known === undefined ? {} : { knownToMm: lengthOf(asked, 'reference-known', 0) }),
    },
    thicknessMm: lengthOf(asked, 'thickness', USUAL_THICKNESS_MM),
    hints,
  };
}

const MOST_THICK_MM = 60;

function lengthOf(asked: Asked, option: string, usual: number): number {
  const text = asked.value(option);
  if (text === undefined) return usual;
  const parsed = parseLength(text);
  const mm = parsed.ok && parsed.value.kind === 'length' ? parsed.value.mm : Number.NaN;
  if (!(mm >= 0 && mm <= MOST_THICK_MM))
    throw new CommandFault([
      `--${option}: ${quoted(text)}; allowed: a length from 0 to ${MOST_THICK_MM} mm, such as "4 mm"`,
    ]);
  return mm;
}

function picks(option: string, text: string, count: number): Point2[] {
  const found = text
    .trim()
    .split(/\s+/u)
    .map((pair) => pair.split(',').map(Number));
  const points = found.filter(
    (pair) => pair.length === 2 && pair.every((value) => Number.isFinite(value) && value >= 0),
  );
  if (found.length !== count || points.length !== count)
    throw new CommandFault([
      `--${option}: ${quoted(text)}; allowed: ${count === 1 ? 'x,y in pixels from the top left' : `${count} places "x,y x,y ..." in pixels from the top left`}`,
    ]);
  return points.map(([x, y]): Point2 => [x!, y!]);
}

/** The outline moved so that its lowest x and y are nought. */
function moved(found: Found): Found {
  const [x, y] = lowestOf(found.outline);
  const shift = (outline: Outline): Outline =>
    outline.map((corner) => ({ ...corner, at: [corner.at[0] - x, corner.at[1] - y] }));
  return { ...found, outline: shift(found.outline), openings: found.openings.map(shift) };
}

const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals));

function document({ outline, openings, errorMm, report }: Found) {
  return {
    template: templateOf({ outline, openings }, errorMm, [0, 0]),
    errorMm: rounded(errorMm, DECIMALS),
    partsOfErrorMm: {
      camera: rounded(report.error.cameraMm, DECIMALS),
      height: rounded(report.error.heightMm, DECIMALS),
      edge: rounded(report.error.edgeMm, DECIMALS),
    },
    tiltDeg: rounded(report.tiltDeg, 0),
    spanPercent: report.spanShare.map((share) => Math.round(100 * share)),
    check: report.check,
  };
}

type Writer = (found: Found, thicknessMm: number) => string;

function writerOf(name: string): Writer {
  const ending = /\.(svg|dxf|json)$/iu.exec(name)?.[1]?.toLowerCase();
  if (ending === 'svg') return (found) => svgText(drawing(found), palettes.paper);
  if (ending === 'dxf') return (found, thicknessMm) => dxfText({ patterns: [pattern(found, thicknessMm)] });
  if (ending === 'json') return (found) => `${JSON.stringify(document(found), null, 2)}\n`;
  throw new CommandFault([`--out: ${quoted(name)}; allowed: a name that ends in .svg, .dxf or .json`]);
}

function pattern(found: Found, thicknessMm: number): FlatPattern {
  return {
    panel: 'TEMPLATE',
    name: `from a photo, +-${found.errorMm.toFixed(1)} mm`,
    sheet: 'card',
    thicknessMm,
    outline: found.outline,
    cutOuts: found.openings.map((outline, i) => ({ outline, name: `opening ${i + 1}` })),
    holes: [],
    slots: [],
    folds: [],
    meshes: [],
    seals: [],
    marks: [],
    words: [],
    corners: [],
  };
}

/** The outline 1:1 on a sheet just large enough. */
function drawing(found: Found): Drawing {
  const points = outlinePoints(found.outline);
  const [w, h] = [Math.max(...points.map((p) => p[0])), Math.max(...points.map((p) => p[1]))];
  const spot = ([x, y]: Point2): Spot => [MARGIN_MM + x, MARGIN_MM + h - y];
  const path = (outline: Outline) => {
    const steps = outline.map((_, i): PathShape['steps'][number] => {
      const to = spot(outline[(i + 1) % outline.length]!.at);
      const arc = sideArc(outline, i);
      if (arc === undefined) return { to };
      // y turns over on the sheet: what goes to the left there goes counter-clockwise still, as it is seen
      return { to, radius: arc.radius, isClockwise: arc.through < 0, isLarge: Math.abs(arc.through) > Math.PI };
    });
    return {
      kind: 'path',
      start: spot(outline[0]!.at),
      steps,
      isClosed: true,
      pen: { role: 'ink', width: 0.25 },
    } as const;
  };
  return {
    title: 'Template',
    description: `Outline from a photo, 1:1, known to +-${found.errorMm.toFixed(1)} mm`,
    width: w + 2 * MARGIN_MM,
    height: h + 2 * MARGIN_MM,
    unit: 'mm',
    shapes: [found.outline, ...found.openings].map(path),
  };
}

function inWords(found: Found, name: string | undefined): string[] {
  const { outline, openings, errorMm, report } = found;
  const points = outlinePoints(outline);
  const size = [0, 1].map((k) => formatNumber(Math.max(...points.map((p) => p[k]!)))).join(' x ');
  const arcs = outline.filter(({ bulge }) => (bulge ?? 0) !== 0).length;
  const part = (mm: number): string => mm.toFixed(1);
  return [
    `Template ${size} mm, ${outline.length - arcs} straight sides and ${arcs} arcs, ${openings.length === 1 ? '1 opening' : `${openings.length} openings`}.`,
    `Known to +-${errorMm.toFixed(1)} mm in size and shape (95 of 100): camera and reference ${part(report.error.cameraMm)}, height of the card ${part(report.error.heightMm)}, edge ${part(report.error.edgeMm)}.`,
    `The camera leaned ${formatNumber(report.tiltDeg)} degrees; ${report.scalePxPerMm.toFixed(1)} pixels to a mm; the lens moves a corner by ${report.lensPercent.toFixed(1)} %.`,
    'Check before cutting:',
    ...report.check.map((line) => `  ${line}`),
    ...(name === undefined ? [] : [name]),
  ];
}
