import type { ReactNode } from 'react';
import { flowSentence, flowWords, type FlowUnits, pressureWords, volumeWords } from '#book';
import type { CircuitFlow, CircuitState } from '#flow';
import { formatNumber } from '#units';
import { useCar } from '../bench/bench.ts';

interface Part {
  readonly state: CircuitState;
  readonly units: FlowUnits;
}

/** What a dry sump's stages pull; absent for other circuits. */
export function Stages({ state, units }: Part): ReactNode {
  const stages = state.stages ?? [];
  if (stages.length === 0) return null;
  return (
    <table className="sheet" aria-label="Scavenge stages">
      <thead>
        <tr>
          <th scope="col">Stage</th>
          <th scope="col" className="num">
            Sweeps
          </th>
          <th scope="col" className="num">
            Oil, air
          </th>
          <th scope="col" className="num">
            Inlet
          </th>
        </tr>
      </thead>
      <tbody>
        {stages.map((stage) => (
          <tr key={stage.id}>
            <td>
              {stage.words}
              <span className="small soft flow-below">{`drains ${stage.drains}${stage.starved ? ', starved' : ''}`}</span>
            </td>
            <td className="num">{flowWords(stage.sweptM3S, units)}</td>
            <td className="num">
              {flowWords(stage.oilM3S, units)}
              <span className="flow-below">{flowWords(stage.airM3S, units)}</span>
            </td>
            <td className="num">
              {pressureWords(stage.inletPa, units)}
              <span className="small soft flow-below">
                {`${pressureWords(stage.inletSpreadPa[0], units)} to ${pressureWords(stage.inletSpreadPa[1], units)}`}
              </span>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** How each vessel stands: what it holds, gas over it, which ports are under. */
export function Vessels({ state, units }: Part): ReactNode {
  const car = useCar();
  if (state.vessels.length === 0) return null;
  return (
    <table className="sheet" aria-label="Vessels">
      <thead>
        <tr>
          <th scope="col">Vessel</th>
          <th scope="col" className="num">
            Holds
          </th>
          <th scope="col" className="num">
            Gas over it
          </th>
          <th scope="col">Ports</th>
        </tr>
      </thead>
      <tbody>
        {state.vessels.map((vessel) => (
          <tr key={vessel.part}>
            <td>{car?.parts.find(({ id }) => id === vessel.part)?.name ?? vessel.part}</td>
            <td className="num">
              {volumeWords(vessel.fillM3, units)}
              {vessel.volumeM3 === null ? null : (
                <span className="small soft flow-below">{`of ${volumeWords(vessel.volumeM3, units)}`}</span>
              )}
            </td>
            <td className="num">{pressureWords(vessel.gasPa, units)}</td>
            <td className="small">
              {vessel.mouths.map(({ port, share, headMm }) => (
                <span key={port} className="flow-below">
                  {`${port.split('.')[1] ?? port} ${share >= 1 ? `${flowSentence(`${formatNumber(headMm)} mm`, units)} under` : share <= 0 ? 'in the gas' : 'partly covered'}`}
                </span>
              ))}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** What the g of this case does to the tank, and the least that it must hold. */
export function Tanks({ flow, state, units }: Part & { readonly flow: CircuitFlow }): ReactNode {
  const tanks = state.tanks ?? [];
  if (tanks.length === 0) return null;
  return (
    <table className="sheet" aria-label="Tank under g">
      <tbody>
        {tanks.flatMap((tank) => {
          const least = flow.tanks?.find(({ outlet }) => outlet === tank.outlet)?.least;
          const rows: [name: string, value: string][] = [
            [`${tank.outlet}, oil over its bore`, flowSentence(`${formatNumber(tank.cover.headMm)} mm`, units)],
            [
              'Least fill that covers it at this g',
              tank.leastM3 === null ? 'none does' : volumeWords(tank.leastM3, units),
            ],
            [
              'Least fill that covers it in every case',
              least === undefined || least === null
                ? 'none does'
                : `${volumeWords(least.oilM3, units)} (${least.case})`,
            ],
            // What never ends is no number on the wire.
            [
              'Covered for',
              Number.isFinite(tank.secondsCovered)
                ? `${formatNumber(tank.secondsCovered, 1)} s`
                : 'as long as oil comes back',
            ],
          ];
          return rows.map(([name, value]) => (
            <tr key={`${tank.outlet} ${name}`}>
              <td>{name}</td>
              <td className="num">{value}</td>
            </tr>
          ));
        })}
      </tbody>
    </table>
  );
}
