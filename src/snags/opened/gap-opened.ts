import { type Car, type Line, type Part, partKeepOffMm, partTolerance, portTolerance } from '#car';
import type { Way, WayGap } from '#lines';
import { describeSource } from '#sources';
import { keepOff, type KeepOffRow } from '#standards';
import type { Snag } from '../snag.ts';
import type { OpenedAt } from './opened-at.ts';
import type { OpenedInput, OpenedNumber, OpenedRule } from './opened-number.ts';
import { mm } from './opened-units.ts';
import { ownRule, publishedRule } from './rule-words.ts';

/** A gap to a part, as drawn or at worst: what was taken off it, and which of the keep-offs counts. */
export function gapOpened({ car, snag, line, way }: OpenedAt): OpenedNumber | null {
  const part = car.parts.find((row) => row.id === snag.part);
  if (part === undefined || line === undefined || snag.unit !== 'mm') return null;
  const gap = way === null ? undefined : meant(way, snag);
  const { rule, inputs } = keepOffRule(car, part, line);
  return {
    equation: EQUATION,
    inputs: [...(gap === undefined ? [] : gapInputs(car, part, line, gap)), ...inputs],
    range: RANGE,
    formulas: [],
    rule: near(car, part, line, way, snag) ?? rule,
  };
}

const EQUATION =
  'worst = least gap as drawn - part known to - ports known to - movement and hanging; the rule wants gap >= keep-off as drawn and at worst';
const RANGE =
  'gaps are right to 0.1 mm on the shapes as they stand in the car file; the shapes are as good as they were measured';

interface Gap {
  readonly gapMm: number;
  readonly worstMm: number;
}

const SAME_MM = 0.1;

/** Which of the gaps to a part a snag is about: it has its number. */
function meant(way: Way, { part, value = Number.NaN }: Snag): Gap | undefined {
  const row: WayGap | undefined = way.gaps.find((gap) => gap.part === part);
  if (row?.beyond === undefined) return row;
  const is = ({ gapMm, worstMm }: Gap): boolean =>
    Math.min(Math.abs(gapMm - value), Math.abs(worstMm - value)) < SAME_MM;
  return is(row) || !is(row.beyond) ? row : row.beyond;
}

function gapInputs(car: Car, part: Part, line: Line, { gapMm, worstMm }: Gap): OpenedInput[] {
  const partMm = partTolerance(part).knownToMm;
  const portsMm = Math.max(...[line.from, line.to].map((ref) => portTolerance(car, ref)?.knownToMm ?? 0));
  const restMm = gapMm - worstMm - partMm - portsMm;
  return [
    { name: 'gap as drawn, surface to surface', value: mm(gapMm) },
    { name: 'at worst', value: mm(worstMm) },
    { name: `${part.name ?? part.id} known to`, value: `±${mm(partMm)}`, from: 'as it was measured' },
    { name: 'ports of the line known to, the worse of them', value: `±${mm(portsMm)}`, from: 'as they were measured' },
    {
      name: 'movement between them, and how far the hose hangs either way',
      // Near its own part nothing is in doubt, and what is rounded may leave a hair.
      value: mm(Math.max(0, restMm)),
      from: part.movesWith === undefined ? 'worked out' : `worked out; the part moves with ${part.movesWith}`,
    },
  ];
}

/** Beside a port less may do: by the builder's word, or because the port face itself stands nearer than the rule. */
function near(car: Car, part: Part, line: Line, way: Way | null, { kind, limit }: Snag): OpenedRule | null {
  if (kind !== 'near-port' && way?.gaps.find((gap) => gap.part === part.id)?.near !== true) return null;
  for (const ref of [line.from, line.to]) {
    const [id, portId] = ref.split('.');
    const own = car.parts.find((row) => row.id === id)?.ports.find((port) => port.id === portId)?.near;
    if (own?.keepOffMm !== undefined && own.parts.includes(part.id))
      return ownRule(`beside ${ref} ${mm(own.keepOffMm)} do to ${part.id}; elsewhere the keep-off below counts`);
  }
  if (kind !== 'near-port') return null;
  return publishedRule(
    `beside a port the line may stand as near as the port face itself does, where its keep-off${limit === undefined ? '' : ` of ${mm(limit)}`} cannot be had; it is told, not hidden`,
    'common-practice',
  );
}

const fuelOrBrake: ReadonlySet<Line['duty']> = new Set(['fuel', 'fuel-return', 'fuel-vent', 'brake', 'clutch']);

/** The rule that makes the keep-off from a line to a part, and every figure that was looked at for it. */
export function keepOffRule(
  car: Car,
  part: Part,
  line: Pick<Line, 'duty' | 'keepOffMm'>,
): { readonly rule: OpenedRule; readonly mm: number; readonly inputs: readonly OpenedInput[] } {
  const usual = usualRow(part);
  const table = part.class === 'hot' && part.shielded === true ? 'hotShielded' : part.class;
  const figures: (OpenedInput & { readonly mm: number; readonly rule: OpenedRule })[] = [];
  const add = (valueMm: number | undefined, name: string, rule: OpenedRule, from: string): void => {
    if (valueMm !== undefined) figures.push({ name, value: mm(valueMm), from, mm: valueMm, rule });
  };
  const published = (row: KeepOffRow): OpenedRule => publishedRule(`${row.text}: at least ${mm(row.mm)}`, row.source);
  const ofCar = car.keepOffMm?.[table];
  add(usual.mm, `usual, ${usual.text}`, published(usual), describeSource(usual.source));
  if (ofCar !== undefined && ofCar !== usual.mm)
    add(ofCar, 'set for the car', ownRule(`on this car ${mm(ofCar)} to ${WORDS[table]}`), 'you, in the car file');
  if (part.keepOffMm !== undefined)
    add(
      part.keepOffMm,
      `set on ${part.id}`,
      ownRule(`${mm(part.keepOffMm)} to ${part.name ?? part.id}`),
      'you, in the car file',
    );
  const fromHot = keepOff('fuel-brake-hot');
  if (part.class === 'hot' && fuelOrBrake.has(line.duty))
    add(fromHot.mm, fromHot.text, published(fromHot), describeSource(fromHot.source));
  if (line.keepOffMm !== undefined)
    add(line.keepOffMm, "the line's own", ownRule(`${mm(line.keepOffMm)} to anything`), 'you, in the car file');
  const counts = Math.max(partKeepOffMm(car, part, line.duty), line.keepOffMm ?? 0);
  const rule = figures.findLast((figure) => figure.mm === counts)?.rule ?? published(usual);
  return { rule, mm: counts, inputs: figures.map(({ name, value, from }) => ({ name, value, ...(from && { from }) })) };
}

const WORDS = {
  hot: 'bare hot parts',
  hotShielded: 'shielded hot parts',
  moving: 'moving parts',
  fixed: 'fixed parts',
} as const;

function usualRow(part: Part): KeepOffRow {
  if (part.class !== 'hot') return keepOff(part.class);
  if (part.shielded === true) return keepOff('hot-shielded');
  return keepOff(part.turbine === true ? 'turbine' : 'hot');
}

/** Two lines beside each other. */
export function lineGapOpened({ car, snag }: OpenedAt): OpenedNumber {
  const usual = keepOff('line');
  const own = car.keepOffMm?.line;
  return {
    equation: 'gap = least distance of the two centrelines - half of both outside diameters; wanted: gap >= keep-off',
    inputs: [
      ...(snag.value === undefined ? [] : [{ name: 'gap as drawn', value: mm(snag.value) }]),
      { name: `usual, ${usual.text}`, value: mm(usual.mm), from: describeSource(usual.source) },
      ...(own === undefined ? [] : [{ name: 'set for the car', value: mm(own), from: 'you, in the car file' }]),
    ],
    range: 'both as they hang, right to 0.1 mm; beside each other they are held by their clamps',
    formulas: [],
    rule:
      own === undefined || own === usual.mm
        ? publishedRule(`${usual.text}: at least ${mm(usual.mm)}`, usual.source)
        : ownRule(`on this car ${mm(own)} between lines`),
  };
}
