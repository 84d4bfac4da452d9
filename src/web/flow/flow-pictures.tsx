import { useElementSize } from '@mantine/hooks';
import { type ReactNode, useMemo } from 'react';
import {
  circuitPicture,
  type Drawing,
  type FlowUnits,
  gPicture,
  heightLadder,
  lossBars,
  pressureStrip,
  type Sheet,
  type SweepLimits,
  sweepPictures,
  tankPicture,
} from '#book';
import type { Car, Circuit } from '#car';
import {
  type CircuitFlow,
  type CircuitState,
  type FlowFinding,
  type GGPicture,
  guides,
  mainWay,
  type TankUnderG,
} from '#flow';
import { useCar } from '../bench/bench.ts';
import { useSignal } from '../bench/signal.ts';
import { Picture } from '../book/picture.tsx';
import { picked } from '../car/view.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import type { CarFlow } from './car-flow.ts';
import { findingsIn, markedLines } from './open-findings.ts';

interface Wish {
  readonly answer: CarFlow;
  readonly flow: CircuitFlow;
  readonly state: CircuitState;
  readonly worst: FlowFinding | undefined;
}

const SIZE = 14;
const LEAST_WIDTH = 300;
const MOST_WIDTH = 620;
const TANK_HIGH = 250;
const MOST_G_WIDTH = 420;

/** The circuit drawn: its plan, its pressure from end to end, the pieces of one line, over engine speed, its tank. */
export function FlowPictures({ answer, flow, state, worst }: Wish): ReactNode {
  const car = useCar();
  const units = useSignal(tapeUnit) === 'in' ? 'inch' : 'metric';
  const { ref, width } = useElementSize<HTMLDivElement>();
  const chosen = useSignal(picked);
  const circuit = car?.circuits?.find(({ id }) => id === flow.circuit);
  const sheet = useMemo(
    (): Sheet => ({ width: Math.min(MOST_WIDTH, Math.max(LEAST_WIDTH, Math.round(width))), size: SIZE, unit: 'px' }),
    [width],
  );
  const drawn = useMemo(
    () =>
      car === null || circuit === undefined
        ? []
        : drawings({ answer, flow, state, worst, car, circuit, chosen, units, sheet }),
    [answer, flow, state, worst, car, circuit, chosen, units, sheet],
  );
  return (
    <div ref={ref} className="flow-pictures">
      {drawn.map(({ name, pictures }) =>
        pictures.length === 0 ? null : (
          <section key={name} aria-label={name}>
            <h2>{name}</h2>
            {pictures.map((drawing) => (
              <Picture key={drawing.title} drawing={drawing} />
            ))}
          </section>
        ),
      )}
    </div>
  );
}

interface DrawWish extends Wish {
  readonly car: Car;
  readonly circuit: Circuit;
  readonly chosen: string | null;
  readonly units: FlowUnits;
  readonly sheet: Sheet;
}

interface Group {
  readonly name: string;
  readonly pictures: readonly Drawing[];
}

function drawings(wish: DrawWish): Group[] {
  const { answer, flow, state, car, circuit, units, sheet } = wish;
  const caseName = state.case.name ?? state.case.id;
  const marked = markedLines(findingsIn(flow, state.case.id));
  const line = lineShown(wish);
  const ofLine = state.lines.find((one) => one.line === line);
  const way = mainWay(circuit, (id) => car.lines.find((one) => one.id === id), state);
  const sweeps = answer.views?.sweeps.filter((one) => one.circuit === flow.circuit) ?? [];
  return [
    {
      name: `The circuit, ${caseName}`,
      pictures: [circuitPicture({ car, circuit, state, chosen: line, marked }, units, sheet)],
    },
    {
      name: 'Pressure from end to end',
      pictures: way.length < 2 ? [] : [pressureStrip(way, way.map(({ words }) => words).join(', '), units, sheet)],
    },
    {
      name: line === undefined ? 'What each piece loses' : `What each piece of ${line} loses`,
      pictures: ofLine === undefined || ofLine.pieces.length === 0 ? [] : [lossBars(ofLine, units, sheet)],
    },
    {
      name: 'Over engine speed',
      pictures: sweepPictures(sweeps, flow.kind === 'dry-sump' ? oilLimits(circuit) : {}, units, sheet),
    },
    {
      name: 'Heights of the water',
      pictures: flow.heights === undefined ? [] : [heightLadder(flow.heights.ladder, units, sheet)],
    },
    { name: 'The tank under g', pictures: tankPictures(wish) },
  ];
}

/** What the curves are held against: the pump's own least inlet, where it is stated. */
const oilLimits = ({ pumps = [] }: Circuit): SweepLimits => ({
  barPerThousandRpm: guides.oilPerThousandRpm.value,
  leastInletBar:
    pumps.find(({ leastInletBar }) => leastInletBar !== undefined)?.leastInletBar ?? guides.leastInlet.value,
});

/** The line that is picked, else the one the worst finding is about, else the one that loses most. */
function lineShown({ state, chosen, worst }: DrawWish): string | undefined {
  const has = (id: string | null | undefined): id is string => state.lines.some(({ line }) => line === id);
  if (has(chosen)) return chosen;
  if (has(worst?.line)) return worst.line;
  return state.lines.toSorted((a, b) => Math.abs(b.dropPa) - Math.abs(a.dropPa))[0]?.line;
}

function tankPictures({ answer, flow, state, units, sheet }: DrawWish): Drawing[] {
  const sections =
    answer.views?.tanks.filter((one) => one.circuit === flow.circuit && one.case === state.case.id) ?? [];
  return [
    ...sections.map(({ section }) => tankPicture(section, units, sheet, TANK_HIGH)),
    ...(flow.tanks ?? []).flatMap((tank) => reachPictures(tank, units, sheet)),
  ];
}

const isBaredIn = ({ cells }: GGPicture): boolean =>
  cells.some((row) => row.some(([cover]) => cover?.covering !== 'covered'));

/** The running fill, and of lower ones those that a g in the picture bares; where none does, the picture of the least fill says it all. */
function reachPictures({ pictures, greatest, outlet }: TankUnderG, units: FlowUnits, sheet: Sheet): Drawing[] {
  const bared = pictures.filter((picture, i) => i === 0 || isBaredIn(picture));
  return (bared.some(isBaredIn) ? bared : pictures.slice(-1)).map((picture) => {
    const rows = greatest.find(({ oilM3 }) => oilM3 === picture.oilM3)?.rows;
    const wish = { picture, outlet: picture.outlets[0] ?? outlet, ...(rows === undefined ? {} : { greatest: rows }) };
    return gPicture(wish, units, { ...sheet, width: Math.min(sheet.width, MOST_G_WIDTH) });
  });
}
