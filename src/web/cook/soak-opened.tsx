import { useElementSize } from '@mantine/hooks';
import type { ReactNode } from 'react';
import { soakChart } from '#book';
import type { HeatCase, Soak, SoakSeries } from '#heat';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { Picture } from '../book/picture.tsx';
import { Key } from '../frame/key.tsx';
import { heatAddress } from './heat-place.ts';
import { useHeatUnits } from './heat-units.ts';
import { rankedLines } from './ranked.ts';
import { sheetOf } from './sheet-of.ts';

const MOST_DRAWN = 5;

/** The minutes after switching off: curves of what gets hottest, each line's highest and when, what is off and what runs on. */
export function SoakOpened({ at }: { readonly at: HeatCase }): ReactNode {
  const car = useCar()!;
  const said = useHeatUnits();
  const { ref, width } = useElementSize<HTMLElement>();
  const { soak } = at;
  if (soak === undefined) return <p>This case is running: nothing soaks in it.</p>;
  const rank = rankedLines(at).map(({ line }) => line.line);
  const lines = rank.flatMap((id) => soak.lines.find((one) => one.id === id) ?? []);
  const hottest = soak.parts.toSorted((a, b) => b.c[0]! - a.c[0]!).slice(0, MOST_DRAWN);
  const sheet = sheetOf(width);
  const from = car.cases?.find(({ id }) => id === soak.after);
  return (
    <section ref={ref} aria-label="Minute by minute" className="cook-opened">
      <h2>{`After ${from?.name ?? soak.after}, minute by minute`}</h2>
      {soak.boils.map((boils) => (
        <p key={boils.line} className="warn">
          {`▲ ${boils.line} boils at ${said.degrees(boils.atC)} from ${boils.fromMin.toFixed(1)} min on and holds there${boils.litres < 1e-3 ? '' : `: ${(1000 * boils.litres).toFixed(0)} mL go off as steam`}.${boils.dryMin === undefined ? '' : ` That is all it holds: dry from ${boils.dryMin.toFixed(0)} min on, if nothing runs in after it; what is told from there on is its wall with steam in it.`}`}
        </p>
      ))}
      <p>{soakWords(soak, (id) => car.panels?.find((panel) => panel.id === id)?.name ?? id)}</p>
      <Picture drawing={soakChart('Lines nearest to a limit', soak, lines.slice(0, MOST_DRAWN), said.isInch, sheet)} />
      <Picture drawing={soakChart('What is hottest cools', soak, hottest, said.isInch, sheet)} />
      {soak.bays.length === 0 ? null : (
        <Picture drawing={soakChart('Air of the bays', soak, soak.bays, said.isInch, sheet)} />
      )}
      <PeakTable at={at} lines={lines} />
    </section>
  );
}

function soakWords(soak: Soak, panelName: (id: string) => string): string {
  const parts = [
    soak.coversOff.length === 0 ? 'Covers on' : `Off: ${soak.coversOff.map(panelName).join(', ')}`,
    soak.fanRunsMin === 0 ? 'fan stands' : `fan runs on ${soak.fanRunsMin} min`,
    soak.pumpRunsMin === 0 ? 'pump stands' : `pump runs on ${soak.pumpRunsMin} min`,
  ];
  return `${parts.join(', ')}. Heat in, out and stored agree to a share of ${soak.unbalanced.toExponential(0)}.`;
}

function PeakTable({ at, lines }: { readonly at: HeatCase; readonly lines: readonly SoakSeries[] }): ReactNode {
  const said = useHeatUnits();
  return (
    <div className="flow-wide">
      <table className="sheet" aria-label="Highest of each line">
        <thead>
          <tr>
            <th>line</th>
            <th className="num">switched off</th>
            <th className="num">highest</th>
            <th className="num">after</th>
          </tr>
        </thead>
        <tbody>
          {lines.map(({ id, c, peak }) => (
            <tr key={id}>
              <td>
                <Key
                  weight="bare"
                  className="printed"
                  onClick={() =>
                    open({ kind: 'cook', id: heatAddress({ caseId: at.case.id, about: { kind: 'line', id } }) })
                  }
                >
                  {id}
                </Key>
              </td>
              <td className="num">{said.degrees(c[0]!)}</td>
              <td className="num">{said.degrees(peak.c)}</td>
              <td className="num">{`${peak.atMin.toFixed(1)} min`}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
