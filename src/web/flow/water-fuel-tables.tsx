import type { ReactNode } from 'react';
import { flowSentence, flowWords, type FlowUnits, heatWords, pressureWords } from '#book';
import type { CircuitFlow, CircuitState } from '#flow';
import { formatNumber } from '#units';

interface Wish {
  readonly flow: CircuitFlow;
  readonly state: CircuitState;
  readonly units: FlowUnits;
}

type Row = readonly [name: string, value: string];

/** How hot the water is, how near to boiling, how the header stands to it; absent for other circuits. */
export function Water({ flow, state, units }: Wish): ReactNode {
  const water = state.coolant;
  if (water === undefined) return null;
  const kw = (watts: number): string => `${formatNumber(watts / 1000, watts < 10_000 ? 1 : 0)} kW`;
  const { worst } = water;
  return (
    <Rows
      title="Water"
      rows={[
        ['Out of the engine', heatWords(water.outletC, units)],
        ['The radiator takes off, with air at ' + heatWords(water.airC, units), kw(water.carriedOffW)],
        ...(water.heatW === null ? [] : [['Heat into the water, as stated', kw(water.heatW)] as const]),
        ...(water.settlesC === null ? [] : [['Settles at', heatWords(water.settlesC, units)] as const]),
        ['Header, over the air outside', pressureWords(water.headerPa, units)],
        ...(worst === null
          ? []
          : [
              [
                `Nearest to boiling: ${worst.words}`,
                `${formatNumber(worst.marginK)} K under, boils at ${heatWords(worst.boilsAtC, units)}`,
              ] as const,
            ]),
        ...water.inlets.map((inlet): Row => [`Inlet of ${inlet.words}`, pressureWords(inlet.gaugePa, units)]),
        ...water.traps.map((trap): Row => ['Air stays as the car is pulled here', trap.words]),
        ...(flow.heights?.fill ?? []).map(
          (step, i): Row => [
            `Fill, step ${i + 1}: ${step.words}`,
            flowSentence(`${formatNumber(step.litres, 1)} L`, units),
          ],
        ),
      ]}
    />
  );
}

/** Lift, pot and rail; absent for other circuits. */
export function Fuel({ state, units }: Wish): ReactNode {
  const { fuel } = state;
  if (fuel === undefined) return null;
  return (
    <Rows
      title="Fuel"
      rows={[
        ...(fuel.burnM3S === null ? [] : [['Burnt at full load', flowWords(fuel.burnM3S, units)] as const]),
        ['Lifted', flowWords(fuel.liftM3S, units)],
        ['Goes back', flowWords(fuel.returnM3S, units)],
        ...(fuel.railPa === null ? [] : [['At the rail', pressureWords(fuel.railPa, units)] as const]),
        ...(fuel.potS === null ? [] : [['The surge pot feeds it for', `${formatNumber(fuel.potS)} s`] as const]),
      ]}
    />
  );
}

function Rows({ title, rows }: { readonly title: string; readonly rows: readonly Row[] }): ReactNode {
  return (
    <table className="sheet" aria-label={title}>
      <tbody>
        {rows.map(([name, value]) => (
          <tr key={`${name} ${value}`}>
            <td>{name}</td>
            <td className="num flow-wraps">{value}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
