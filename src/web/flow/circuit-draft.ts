import type { Circuit, Edit } from '#car';
import type { Parsed } from '#units';
import { type Figure, figureText, readFigure } from './figure.ts';

/** One figure of a circuit as it stands in the form. */
export interface CircuitFigure {
  /** Where it stands in the circuit: list, place in it, field. */
  readonly at: readonly [list: 'pumps' | 'vessels' | 'passages' | 'own', index: number, field: string];
  /** What it belongs to, in words. */
  readonly of: string;
  readonly figure: Figure | 'curve';
  readonly text: string;
}

type Row = Readonly<Record<string, unknown>>;
type Figures = Readonly<Record<string, Figure>>;

const pumpFigures: Figures = {
  displacementCcRev: { label: 'Displacement', unit: 'cc/rev', from: 0.001, to: 100_000, isNeeded: true },
  driveRatio: { label: 'Turns to one of the engine', unit: '', from: 0.001, to: 20, isNeeded: true },
  steadyLMin: { label: 'Delivers', unit: 'L/min', from: 0.001, to: 100_000, isNeeded: true },
  atRpm: { label: 'Curve measured at', unit: 'rpm', from: 1, to: 100_000, isNeeded: true },
  volumetricPercent: { label: 'Delivers of its displacement', unit: '%', from: 1, to: 100 },
  leastInletBar: { label: 'Least inlet it stands', unit: 'bar', from: -1, to: 10 },
};
const vesselFigures: Figures = {
  fillL: { label: 'Runs with', unit: 'L', from: 0, to: 10_000 },
  leastFillL: { label: 'Never less than', unit: 'L', from: 0, to: 10_000 },
  volumeL: { label: 'Holds to the brim', unit: 'L', from: 0.001, to: 10_000 },
  capBar: { label: 'Cap opens at', unit: 'bar', from: 0, to: 1000 },
};
const passageFigures: Figures = {
  restrictorMm: { label: 'Restrictor', unit: 'mm', from: 0.001, to: 500, isNeeded: true },
  boreMm: { label: 'Bore', unit: 'mm', from: 0.001, to: 500, isNeeded: true },
  lengthMm: { label: 'Length', unit: 'mm', from: 0.001, to: 100_000, isNeeded: true },
  checkBar: { label: 'Opens at', unit: 'bar', from: 0, to: 100, isNeeded: true },
  atC: { label: 'Curve measured at', unit: '°C', from: -60, to: 300 },
};
const ownFigures: Figures = {
  hiddenL: { label: 'Held up in the engine', unit: 'L', from: 0, to: 1000 },
  burnLPerH: { label: 'Fuel burnt at full load', unit: 'L/h', from: 0, to: 10_000 },
};

/** Fields that may be put in although they do not stand there yet. */
const MAY_BE_ADDED: ReadonlySet<string> = new Set([
  'leastInletBar',
  'volumetricPercent',
  'fillL',
  'leastFillL',
  'volumeL',
]);

const curveText = (points: readonly (readonly number[])[]): string =>
  points.map(([flow, kpa]) => `${flow} ${kpa}`).join('; ');

/** Every figure of a circuit that a form may change. */
export function circuitFigures(
  circuit: Circuit,
  isInch: boolean,
  partName: (id: string) => string,
): readonly CircuitFigure[] {
  const rows = (
    list: CircuitFigure['at'][0],
    index: number,
    of: string,
    row: Row,
    figures: Figures,
  ): CircuitFigure[] => {
    const curve = row['curveLMinKpa'] as readonly (readonly number[])[] | undefined;
    const plain = Object.entries(figures)
      .filter(([field]) => row[field] !== undefined || (MAY_BE_ADDED.has(field) && isAddable(row, field)))
      .map(
        ([field, figure]): CircuitFigure => ({
          at: [list, index, field],
          of,
          figure,
          text: figureText(row[field] as number | undefined, figure.unit, isInch),
        }),
      );
    return curve === undefined
      ? plain
      : [{ at: [list, index, 'curveLMinKpa'], of, figure: 'curve', text: curveText(curve) }, ...plain];
  };
  return [
    ...(circuit.pumps ?? []).flatMap((pump, i) =>
      rows('pumps', i, pump.name ?? pump.id ?? pump.from, pump, pumpFigures),
    ),
    ...(circuit.passages ?? []).flatMap((passage, i) =>
      rows('passages', i, passage.name ?? passage.id ?? passage.from, passage, passageFigures),
    ),
    ...(circuit.vessels ?? []).flatMap((vessel, i) => rows('vessels', i, partName(vessel.part), vessel, vesselFigures)),
    ...rows('own', 0, 'The circuit', circuit, ownFigures),
  ];
}

const isAddable = (row: Row, field: string): boolean =>
  field !== 'volumetricPercent' || row['displacementCcRev'] !== undefined;

/** "25 9; 50 25": flow in L/min and loss in kPa, two or more points. */
export function readCurve(text: string): Parsed<readonly (readonly [number, number])[]> {
  const points = text
    .split(/[;\n]/u)
    .map((one) => one.trim())
    .filter((one) => one !== '')
    .map((one) =>
      one
        .split(/[\s:]+/u)
        .map((number) => (/^\d+(?:[.,]\d+)?$/u.test(number) ? Number(number.replace(',', '.')) : Number.NaN)),
    );
  const no = (why: string): Parsed<never> => ({
    ok: false,
    fault: `Curve: ${why}; two or more points are wanted, such as 25 9; 50 25 [L/min kPa]`,
    ways: [],
  });
  const wrong = points.findIndex(
    (point) => point.length !== 2 || !point.every((number) => number >= 0 && number <= 100_000),
  );
  if (wrong >= 0) return no(`point ${wrong + 1} is no pair of numbers`);
  if (points.length < 2) return no(`${points.length} point${points.length === 1 ? ' stands' : 's stand'} there`);
  if (new Set(points.map(([flow]) => flow)).size < points.length) return no('two points have the same flow');
  return { ok: true, value: points.map(([flow = 0, kpa = 0]) => [flow, kpa] as const) };
}

/** The edits of what was changed in the form, a list of the circuit each. */
export function circuitEdits(
  circuit: Circuit,
  figures: readonly CircuitFigure[],
  texts: Readonly<Record<string, string>>,
  isInch: boolean,
): Parsed<readonly Edit[]> {
  const next: { [list: string]: Row[] } = {};
  const own: Edit[] = [];
  for (const figure of figures) {
    const text = texts[keyOf(figure)] ?? figure.text;
    if (text === figure.text) continue;
    const read = figure.figure === 'curve' ? readCurve(text) : readFigure(text, figure.figure, isInch);
    if (!read.ok) return { ...read, fault: `${figure.of}: ${read.fault}` };
    const [list, index, field] = figure.at;
    const change = (row: Row): Row => {
      const { [field]: _, ...rest } = row;
      return read.value === undefined ? rest : { ...row, [field]: read.value };
    };
    if (list === 'own')
      own.push({
        do: 'set-circuit',
        circuit: circuit.id,
        field,
        ...(read.value === undefined ? {} : { value: read.value }),
      } as unknown as Edit);
    else
      next[list] = (next[list] ?? (circuit[list] as unknown as Row[])).map((row, i) =>
        i === index ? change(row) : row,
      );
  }
  const lists = Object.entries(next).map(
    ([field, value]) => ({ do: 'set-circuit', circuit: circuit.id, field, value }) as unknown as Edit,
  );
  const edits = [...lists, ...own];
  return { ok: true, value: edits.length === 0 ? [] : [{ do: 'several', edits }] };
}

export const keyOf = ({ at }: CircuitFigure): string => at.join('.');
