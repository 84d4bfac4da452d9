import type { ReactNode } from 'react';
import {
  flowSentence,
  flowWords,
  type FlowUnits,
  heatWords,
  lossWords,
  pressureWords,
  speedWords,
  volumeWords,
} from '#book';
import type { CircuitFlow, CircuitState, LineFlow } from '#flow';
import { formatNumber } from '#units';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { picked } from '../car/view.ts';
import { FormulasShown } from '../fit/formula-shown.tsx';
import { Key } from '../frame/key.tsx';
import { tapeUnit } from '../tape/tape-unit.ts';
import { carriedFormulas, carriedRows } from './carried-rows.ts';
import { FITTING } from './circuit-rows.tsx';
import { Opened } from './opened.tsx';
import { Stages, Tanks, Vessels } from './vessel-tables.tsx';
import { Fuel, Water } from './water-fuel-tables.tsx';

interface Wish {
  readonly flow: CircuitFlow;
  readonly state: CircuitState;
}

/** The same in numbers: each line, pump, stage, way through a part and vessel. */
export function FlowTables({ flow, state }: Wish): ReactNode {
  const units = useSignal(tapeUnit) === 'in' ? 'inch' : 'metric';
  return (
    <section aria-label="In numbers" className="flow-tables">
      <h2>{`In numbers, ${state.case.name ?? state.case.id}`}</h2>
      <CaseWords state={state} units={units} />
      <Lines state={state} units={units} />
      <div className="flow-wide">
        <Pumps state={state} units={units} />
      </div>
      <div className="flow-wide">
        <Stages state={state} units={units} />
      </div>
      <div className="flow-wide">
        <Vessels state={state} units={units} />
      </div>
      <div className="flow-wide">
        <Tanks flow={flow} state={state} units={units} />
      </div>
      <Water flow={flow} state={state} units={units} />
      <Fuel flow={flow} state={state} units={units} />
      {flow.states.length === 0 ? null : <Limits />}
    </section>
  );
}

interface Part {
  readonly state: CircuitState;
  readonly units: FlowUnits;
}

function CaseWords({ state, units }: Part): ReactNode {
  const { engineRpm, altitudeM, airC } = state.case;
  const words = [
    `${formatNumber(engineRpm)} rpm`,
    ...(state.temperatureC === null ? [] : [`fluid at ${heatWords(state.temperatureC, units)}`]),
    ...(airC === undefined ? [] : [`air at ${heatWords(airC, units)}`]),
    ...(altitudeM === undefined ? [] : [`${flowSentence(`${formatNumber(altitudeM)} m`, units)} up`]),
    ...(state.fluid === null
      ? []
      : [
          `${formatNumber((state.fluid.viscosityPaS / state.fluid.densityKgM3) * 1e6, 1)} cSt`,
          `${formatNumber(state.fluid.densityKgM3)} kg/m³`,
        ]),
  ];
  return <p className="small soft">{words.join(' · ')}</p>;
}

const carried: Readonly<Record<LineFlow['carries'], string>> = {
  liquid: '',
  'oil and air': 'oil and air',
  gas: 'gas',
  drain: 'runs by gravity',
};

function Lines({ state, units }: Part): ReactNode {
  if (state.lines.length === 0) return null;
  return (
    <div className="flow-wide">
      <table className="sheet flow-lines" aria-label="Lines">
        <thead>
          <tr>
            <th scope="col">Line</th>
            <th scope="col" className="num">
              Flow
            </th>
            <th scope="col" className="num">
              Speed
            </th>
            <th scope="col" className="num">
              From, to
            </th>
            <th scope="col" className="num">
              Lost
            </th>
          </tr>
        </thead>
        <tbody>
          {state.lines.map((line) => (
            <LineRow key={line.line} line={line} units={units} />
          ))}
        </tbody>
      </table>
      <OpenedLine state={state} units={units} />
    </div>
  );
}

function LineRow({ line, units }: { readonly line: LineFlow; readonly units: FlowUnits }): ReactNode {
  const chosen = useSignal(picked);
  const car = useCar();
  return (
    <tr aria-selected={line.line === chosen}>
      <td>
        <button
          type="button"
          className="word"
          aria-pressed={line.line === chosen}
          onClick={() => picked.set(line.line)}
        >
          <strong>{line.line}</strong>
        </button>
        <span className="small soft flow-below">
          {[car?.lines.find(({ id }) => id === line.line)?.name, carried[line.carries]].filter(Boolean).join(', ')}
        </span>
      </td>
      <td className="num">
        {flowWords(line.flowM3S, units)}
        {line.voidShare === undefined ? null : (
          <span className="small soft flow-below">{`${formatNumber(100 * line.voidShare)} % air`}</span>
        )}
      </td>
      <td className="num">
        {speedWords(line.velocityMS, units)}
        <span className="small soft flow-below">{`${regimes[line.regime]}, Re ${formatNumber(line.reynolds)}`}</span>
      </td>
      <td className="num">
        {pressureWords(line.fromPa, units)}
        <span className="flow-below">{pressureWords(line.toPa, units)}</span>
      </td>
      <td className="num">{lossWords(line.dropPa, units)}</td>
    </tr>
  );
}

const regimes = { laminar: 'laminar', between: 'between', turbulent: 'turbulent' } as const;

/** The line that is picked, opened: what went in, and the formulas. */
function OpenedLine({ state, units }: Part): ReactNode {
  const chosen = useSignal(picked);
  const line = state.lines.find((one) => one.line === chosen) ?? state.lines[0];
  if (line === undefined) return null;
  const bores = [
    ...new Set(line.pieces.map(({ boreMm }) => flowSentence(`${formatNumber(boreMm, 1)} mm`, units))),
  ].join(', ');
  return (
    <Opened
      title={`Open the numbers of ${line.line}`}
      rows={[
        { name: 'Flow', value: flowWords(line.flowM3S, units), from: 'the network of the whole circuit, settled' },
        { name: 'Bores, in their order', value: bores, from: 'hose, hose ends and adapters as they are taken' },
        { name: 'Holds', value: volumeWords(line.volumeM3, units), from: 'bore and length of each piece' },
        ...carriedRows(line, state, units),
        ...line.assumed.map((text) => ({ name: 'Assumed', value: text, from: 'the car as it stands' })),
      ]}
      holds="Steady flow of one fluid, oil and air as one that goes at one speed. Hose ends and adapters are known to a factor of two, bends and friction to some 30 %; between Reynolds 2000 and 4000 it may be either kind of flow."
    >
      <div className="keys no-print">
        {[
          ...new Set(
            line.pieces.flatMap(({ what, row }) => (what === 'hose-end' || what === 'adapter' ? (row ?? []) : [])),
          ),
        ].map((row) => (
          <Key key={row} onClick={() => open({ kind: 'flow', id: `${FITTING}..${row}` })}>{`Measured: ${row}`}</Key>
        ))}
      </div>
      <FormulasShown ids={[...LINE_FORMULAS, ...carriedFormulas(line)]} />
    </Opened>
  );
}

const LINE_FORMULAS = [
  'line-velocity',
  'bore-reynolds',
  'friction-all-regimes',
  'bend-loss',
  'fitting-three-constants',
];
const PUMP_FORMULAS = ['displacement-pump-flow', 'pump-slip-constant', 'pump-inlet-pressure'];

function Pumps({ state, units }: Part): ReactNode {
  if (state.pumps.length === 0) return null;
  return (
    <>
      <table className="sheet" aria-label="Pumps">
        <thead>
          <tr>
            <th scope="col">Pump</th>
            <th scope="col" className="num">
              Delivers
            </th>
            <th scope="col" className="num">
              Inlet, outlet
            </th>
            <th scope="col" className="num">
              Relief
            </th>
          </tr>
        </thead>
        <tbody>
          {state.pumps.map((pump) => (
            <tr key={pump.id}>
              <td>{pump.words}</td>
              <td className="num">
                {flowWords(pump.flowM3S, units)}
                {pump.sweptM3S === undefined ? null : (
                  <span className="small soft flow-below">{`sweeps ${flowWords(pump.sweptM3S, units)}`}</span>
                )}
              </td>
              <td className="num">
                {pressureWords(pump.fromPa, units)}
                <span className="flow-below">{pressureWords(pump.toPa, units)}</span>
              </td>
              <td className="num">{pump.reliefM3S === 0 ? 'shut' : flowWords(pump.reliefM3S, units)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <Opened
        title="Open the numbers of the pumps"
        rows={state.pumps.flatMap((pump) =>
          pump.sweptM3S === undefined
            ? []
            : [
                {
                  name: `${pump.words} sweeps`,
                  value: flowWords(pump.sweptM3S, units),
                  from: 'displacement, drive ratio and engine speed of the car file',
                },
              ],
        )}
        holds="Slip by one constant from one measured point; where none is stated, usual figures from memory."
      >
        <FormulasShown ids={PUMP_FORMULAS} />
      </Opened>
    </>
  );
}

function Limits(): ReactNode {
  return <p className="small soft">Steady flow, one temperature a circuit. Pressures are above the air outside.</p>;
}
