import type { Cover, SectionOutlet, SectionSpot, TankSection } from '#flow';
import { formatInches, formatNumber } from '#units';
import type { Drawing, Shape, Spot } from './drawing.ts';
import { type FlowUnits, volumeWords } from './flow-words.ts';
import type { Sheet } from './gap-ruler.ts';
import { coveringLevel, coveringWords, gWords } from './g-words.ts';
import { levelMark, levelRole } from './level-mark.ts';
import { block, fewRows, row, shrunkSize } from './text-block.ts';
import { ABOVE, BELOW, ROW } from './text-width.ts';

/**
 * A tank cut upright along the pull: its inside, the oil in it (tinted and hatched), the surface and where it stands at rest
 * (dashed), the arrow of the pull, each outlet as a bar with its mark: dot covered, diamond partly, triangle uncovered.
 */
export function tankPicture(section: TankSection, units: FlowUnits, sheet: Sheet, mostHeight = sheet.width): Drawing {
  const { size, width } = sheet;
  const head = headRows(section, units, sheet);
  const spots = section.insideMm.flat();
  const [left, right] = rangeOf(spots, 0);
  const [bottom, top] = rangeOf(spots, 1);
  const arrowRoom = size * ARROW_ROOM;
  const scale = Math.min((width - arrowRoom - size) / (right - left), mostHeight / (top - bottom));
  const at = ([x, z]: SectionSpot): Spot => [size * 0.5 + (x - left) * scale, head.height + size + (top - z) * scale];
  const below = head.height + size + (top - bottom) * scale;
  const foot = footRows(section, [0, below + size * 0.9], sheet);
  return {
    title: `${section.tank} at ${gWords(section.g)}`,
    description: sectionWords(section, units),
    unit: sheet.unit,
    width,
    height: below + size * 0.9 + foot.height,
    shapes: [
      ...head.shapes,
      ...oilShapes(section, at, size),
      ...section.outlets.flatMap((outlet) => outletShapes(outlet, at, size)),
      ...pullShapes(section, [size * 0.5 + (right - left) * scale + arrowRoom * 0.55, head.height + size * 3.2], size),
      ...foot.shapes,
    ],
  };
}

/** Room beside the tank for the arrow of the pull [em]. */
const ARROW_ROOM = 6.5;

function rangeOf(spots: readonly SectionSpot[], axis: 0 | 1): readonly [number, number] {
  const values = spots.map((s) => s[axis]);
  return [Math.min(...values), Math.max(...values)];
}

/** "out covered, 42 mm of oil over its bore". */
function coverWords(cover: Cover | undefined, id: string, units: FlowUnits): string {
  if (cover === undefined) return `${id}: not known`;
  const head = Math.abs(cover.headMm);
  const depth = units === 'inch' ? formatInches(head) : `${formatNumber(head, 0)} mm`;
  if (cover.covering === 'covered') return `${id} covered, ${depth} of oil over its bore`;
  const short = `${depth} more to cover its bore`;
  if (cover.covering === 'uncovered') return `${id} uncovered, ${short}`;
  return `${id} ${coveringWords.partly}, ${formatNumber(cover.share * 100, 0)} % of its bore; ${short}`;
}

function sectionWords(section: TankSection, units: FlowUnits): string {
  const oil = `${section.tank} with ${volumeWords(section.oilM3, units)} of ${volumeWords(section.volumeM3, units)}, ${gWords(section.g)}.`;
  if (section.surface.kind === 'none') return `${oil} ${section.surface.why}.`;
  const outlets = section.outlets.map((o) => `${coverWords(o.cover, o.id, units)}.`).join(' ');
  return `${oil} Cut upright, the right hand of the picture is ${section.rightWords}. ${outlets}`.trim();
}

function headRows(section: TankSection, units: FlowUnits, { size, width }: Sheet): { shapes: Shape[]; height: number } {
  const title = `${section.tank}: ${volumeWords(section.oilM3, units)} of ${volumeWords(section.volumeM3, units)}`;
  const big = shrunkSize(title, width, size * 1.15, size * 0.8, 'bold');
  const shapes: Shape[] = [row([0, big * ABOVE], title, { size: big, weight: 'bold' })];
  let baseline = big * ABOVE;
  for (const text of fewRows(gWords(section.g), width, 2, size)) {
    baseline += size * ROW;
    shapes.push(row([0, baseline], text, { size, role: 'soft' }));
  }
  if (section.surface.kind === 'none') {
    const rows = fewRows(section.surface.why, width, 3, size, 'bold');
    const words = block([0, baseline + size * BELOW], rows, { size, weight: 'bold', role: 'stop' });
    return { shapes: [...shapes, ...words.shapes], height: baseline + words.height + size * BELOW };
  }
  for (const { id, cover } of section.outlets) {
    const level = cover === undefined ? 'note' : coveringLevel[cover.covering];
    for (const [i, text] of fewRows(coverWords(cover, id, units), width - size, 2, size).entries()) {
      baseline += size * ROW;
      if (i === 0) shapes.push(levelMark(level, [0, baseline], size));
      shapes.push(row([size, baseline], text, { size, role: level === 'note' ? 'ink' : levelRole[level] }));
    }
  }
  return { shapes, height: baseline + size * BELOW };
}

function oilShapes(section: TankSection, at: (s: SectionSpot) => Spot, size: number): Shape[] {
  const closed = (loops: readonly (readonly SectionSpot[])[], look: object): Shape[] =>
    loops.map((loop) => ({ kind: 'polyline', points: loop.map(at), isClosed: true, ...look }));
  const line = (pairs: TankSection['levelMm'], pen: Extract<Shape, { kind: 'line' }>['pen']): Shape[] =>
    pairs.map(([s, t]) => ({ kind: 'line', from: at(s), to: at(t), pen }));
  return [
    ...closed(section.oilMm, { fill: 'tape', hatch: { role: 'oil', pitch: size * 0.9 } }),
    ...line(section.restMm, { role: 'soft', width: size * 0.08, dash: [size * 0.5, size * 0.35] }),
    ...line(section.levelMm, { role: 'oil', width: size * 0.2 }),
    ...closed(section.insideMm, { pen: { role: 'ink', width: size * 0.16 } }),
  ];
}

/** Its bore, and its name above it. */
function outletShapes(outlet: SectionOutlet, at: (s: SectionSpot) => Spot, size: number): Shape[] {
  const rim = outlet.rimMm.map(at);
  const level = outlet.cover === undefined ? 'note' : coveringLevel[outlet.cover.covering];
  const role = level === 'note' ? 'ink' : levelRole[level];
  const top = Math.min(...rim.map(([, y]) => y));
  const x = rim.reduce((sum, s) => sum + s[0], 0) / rim.length;
  return [
    { kind: 'polyline', points: rim, isClosed: true, pen: { role: 'card', width: size * 0.6 } },
    { kind: 'polyline', points: rim, isClosed: true, fill: 'card', pen: { role, width: size * 0.35 } },
    row([x + size * 0.4, top - size * 0.35], outlet.id, { size, weight: 'bold', role, halo: 'card' }),
  ];
}

/** The pull as an arrow with its size. */
function pullShapes(section: TankSection, from: Spot, size: number): Shape[] {
  if (section.pull === undefined || section.surface.kind === 'none') return [];
  const [x, z] = section.pull;
  const long = size * 2.6;
  const along: Spot = [x, -z];
  const [tail, tip]: [Spot, Spot] = [
    [from[0] - (along[0] * long) / 2, from[1] - (along[1] * long) / 2],
    [from[0] + (along[0] * long) / 2, from[1] + (along[1] * long) / 2],
  ];
  const back = (by: number, aside: number): Spot => [
    tip[0] - along[0] * by - along[1] * aside,
    tip[1] - along[1] * by + along[0] * aside,
  ];
  return [
    { kind: 'line', from: tail, to: back(size * 0.6, 0), pen: { role: 'ink', width: size * 0.18 } },
    {
      kind: 'polyline',
      points: [tip, back(size * 0.8, size * 0.38), back(size * 0.8, -size * 0.38)],
      isClosed: true,
      fill: 'ink',
    },
    row([from[0], from[1] - size * 2.1], 'pull', { size, role: 'soft', anchor: 'middle' }),
    row([from[0], from[1] + size * 2.7], `${formatNumber(section.surface.totalG, 2)} g`, { size, anchor: 'middle' }),
  ];
}

function footRows(
  section: TankSection,
  at: Spot,
  { size, width }: Sheet,
): { shapes: readonly Shape[]; height: number } {
  const small = size * 0.85;
  const words = `Cut through the middle along the pull; to the right is ${section.rightWords}. Dashed: the level at rest.`;
  const rows = fewRows(words, width, 3, small);
  return block(at, rows, { size: small, role: 'soft' });
}
