import { useElementSize } from '@mantine/hooks';
import type { ReactNode } from 'react';
import { bayAirPicture } from '#book';
import type { BayAdvice, BayAir, HeatCase, OpeningFlow } from '#heat';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { Picture } from '../book/picture.tsx';
import { Key } from '../frame/key.tsx';
import { BayKeys } from './bay-keys.tsx';
import { HeatFindings } from './heat-findings.tsx';
import { type HeatUnits, useHeatUnits } from './heat-units.ts';
import { sheetOf } from './sheet-of.ts';

/** The air of a bay: through each opening how much, which way and how hot; what is open about it; what more area is worth. */
export function BayOpened({ at, id }: { readonly at: HeatCase; readonly id: string }): ReactNode {
  const car = useCar()!;
  const said = useHeatUnits();
  const { ref, width } = useElementSize<HTMLElement>();
  const air = at.bays.find((one) => one.bay === id);
  const space = car.bays?.find((one) => one.id === id);
  if (air === undefined || space === undefined) return <p>{`The air of ${id} is not worked out in this case.`}</p>;
  return (
    <section ref={ref} aria-label={`Air of ${air.name}`} className="cook-opened">
      <h2>{`Air of ${air.name}`}</h2>
      <p className="flow-sentence">{sentenceOf(air, said)}</p>
      <Picture drawing={bayAirPicture(air, [space.minMm[2], space.maxMm[2]], said.isInch, sheetOf(width))} />
      <HeatFindings title="Open on this air" findings={at.findings.filter((one) => one.bay === id)} />
      <OpeningsTable air={air} />
      {air.advice === undefined ? null : <Advice advice={air.advice} />}
      <Drains air={air} />
      <BayKeys space={space} at={car.cases?.find((one) => one.id === at.case.id)} />
    </section>
  );
}

function sentenceOf(air: BayAir, said: HeatUnits): string {
  const over = air.airC - air.outsideC;
  const standing = air.asStanding ? ' The pressures outside are not all known, so the car is counted as standing.' : '';
  const flow = `${(air.massKgS * 1000).toFixed(0)} g/s go through, past what stands in it at some ${air.speedMPerS.toFixed(1)} m/s.`;
  return `${said.degrees(air.airC)}, ${said.difference(over)} over the air outside. ${flow}${standing}`;
}

function OpeningsTable({ air }: { readonly air: BayAir }): ReactNode {
  const said = useHeatUnits();
  return (
    <div className="flow-wide">
      <table className="sheet" aria-label="Openings">
        <thead>
          <tr>
            <th>opening</th>
            <th>way</th>
            <th className="num">flow</th>
            <th className="num">free</th>
            <th className="num">outside it</th>
          </tr>
        </thead>
        <tbody>
          {air.openings.map((row) => (
            <tr key={row.opening}>
              <td>
                {row.panel === undefined ? (
                  row.name
                ) : (
                  <Key
                    weight="bare"
                    className="printed"
                    onClick={() => open({ kind: 'cut', id: `panel/${row.panel}` })}
                  >
                    {row.name}
                  </Key>
                )}
              </td>
              <td>{wayWords(row)}</td>
              <td className="num">{said.airFlow(row.bothWaysM3S ?? row.flowM3S)}</td>
              <td className="num">{said.area(row.freeM2)}</td>
              <td className="num">{row.outsidePa === null ? 'wanted' : `${Math.round(row.outsidePa)} Pa`}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function wayWords(row: OpeningFlow): string {
  if (row.bothWaysM3S !== undefined && row.bothWaysM3S > 0) return '⇄ both';
  if (Math.abs(row.flowM3S) < 0.0005) return 'still';
  const way = row.flowM3S < 0 ? '→ in' : '← out';
  const isWrong = (row.lets === 'out' && row.flowM3S < 0) || (row.lets === 'in' && row.flowM3S > 0);
  return isWrong ? `▲ ${way}, meant to let ${row.lets}` : way;
}

function Advice({ advice }: { readonly advice: BayAdvice }): ReactNode {
  const said = useHeatUnits();
  return (
    <>
      {advice.wanted.length === 0 ? null : (
        <div className="flow-wide">
          <table className="sheet" aria-label="Area wanted">
            <thead>
              <tr>
                <th>{`for ${said.degrees(advice.wantC)}, in this panel alone`}</th>
                <th className="num">has free</th>
                <th className="num">wants free</th>
              </tr>
            </thead>
            <tbody>
              {advice.wanted.map((row) => (
                <tr key={row.panel}>
                  <td>{row.name}</td>
                  <td className="num">{said.area(row.freeCm2 / 1e4)}</td>
                  <td className="num">{row.wantCm2 === null ? 'none does it' : said.area(row.wantCm2 / 1e4)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      <div className="flow-wide">
        <table className="sheet" aria-label="What more area is worth">
          <thead>
            <tr>
              <th>{`${said.area(0.005)} more, free`}</th>
              <th className="num">air of the bay</th>
            </tr>
          </thead>
          <tbody>
            {advice.per50Cm2
              .toSorted((a, b) => a.changeK - b.changeK)
              .map((row) => (
                <tr key={row.opening}>
                  <td>{row.name}</td>
                  <td className="num">
                    {Math.abs(row.changeK) < 0.05
                      ? 'nothing'
                      : `${said.isInch ? (row.changeK * 1.8).toFixed(1) : row.changeK.toFixed(1)} ${said.isInch ? '°F' : 'K'}`.replace(
                          '-',
                          '−',
                        )}
                  </td>
                </tr>
              ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

function Drains({ air }: { readonly air: BayAir }): ReactNode {
  const said = useHeatUnits();
  if (air.drains.length === 0) return null;
  return (
    <details className="opened">
      <summary>{`Drains, kept apart: ${air.drains.length}`}</summary>
      <p className="small">No air is counted through them: they belong to water and oil.</p>
      <ul>
        {air.drains.map((row) => (
          <li key={row.opening}>
            {`${row.name}: ${said.area(row.areaM2)}, ${Math.abs(Math.round(row.overPa))} Pa ${row.overPa < 0 ? 'inwards' : 'outwards'}`}
          </li>
        ))}
      </ul>
    </details>
  );
}
