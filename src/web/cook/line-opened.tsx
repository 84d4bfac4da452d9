import { useElementSize } from '@mantine/hooks';
import type { ReactNode } from 'react';
import { heatShareBars, lineTemperature } from '#book';
import type { HeatAnswer, HeatCase, LineHeat } from '#heat';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { Picture } from '../book/picture.tsx';
import { Key } from '../frame/key.tsx';
import { useLengths } from '../tape/lengths.ts';
import { dutyWords } from '../fit/words.ts';
import { Opened } from '../flow/opened.tsx';
import { CureList } from './cure-list.tsx';
import { HeatFindings } from './heat-findings.tsx';
import { heatAddress } from './heat-place.ts';
import { type HeatUnits, useHeatUnits } from './heat-units.ts';
import { LimitsTable } from './limits-table.tsx';
import { leastOf } from './ranked.ts';
import { sheetOf } from './sheet-of.ts';

/** One line opened: how hot along it, what makes it so at its hottest, what it stands, what would cure it. */
export function LineOpened({
  answer,
  at,
  id,
}: {
  readonly answer: HeatAnswer;
  readonly at: HeatCase;
  readonly id: string;
}): ReactNode {
  const car = useCar()!;
  const said = useHeatUnits();
  const lengths = useLengths();
  const { ref, width } = useElementSize<HTMLElement>();
  const line = at.lines.find((one) => one.line === id);
  const own = car.lines.find((one) => one.id === id);
  if (line === undefined)
    return <p>{`${id} has no way taken, so nothing is known of how hot it gets: take one of its ways first.`}</p>;
  const name = own?.name ?? (own === undefined ? id : dutyWords(own, lengths));
  const sheet = sheetOf(width);
  return (
    <section ref={ref} aria-label={`${id} opened`} className="cook-opened">
      <h2>{`${id} · ${name}`}</h2>
      <p className="flow-sentence">{sentenceOf(line, said)}</p>
      {own?.sleeve === undefined ? null : (
        <p className="small soft">
          {`It wears ${own.sleeve}. A fire sleeve buys time in a flame; it keeps nothing cool in a soak.`}
        </p>
      )}
      <Picture drawing={lineTemperature(line, said.isInch, sheet)} />
      <Picture drawing={heatShareBars(`What makes ${id} hot there`, line.worst.shares, said.isInch, sheet)} />
      <LimitsTable limits={line.limits} />
      <InEveryCase answer={answer} line={id} />
      <CureList line={line} at={at} />
      <HeatFindings title={`Open on ${id}`} findings={at.findings.filter((finding) => finding.line === id)} />
      <Opened title="Open the numbers" rows={rowsOf(line, said)} holds="the way that is taken, as it hangs; this case">
        <p>
          Radiation by rays between real surfaces with everything in the way, convection to the air of the bay, the
          wall, what flows inside. The error counts the rays, and how well emissivities and given temperatures are
          known.
        </p>
      </Opened>
      <div className="keys no-print">
        <Key onClick={() => open({ kind: 'line', id })}>{`Card of ${id}`}</Key>
      </div>
    </section>
  );
}

function sentenceOf(line: LineHeat, said: HeatUnits): string {
  const { worst } = line;
  const limit = leastOf(line.limits);
  const when = line.peak === undefined ? '' : `, ${Math.round(line.peak.atMin)} min after switching off`;
  const hot = `${said.degrees(worst.surfaceC)} (± ${said.difference(worst.errorK)}) at its hottest, ${said.length(worst.alongMm)} along${when}`;
  if (limit === undefined) return `${hot}. What it stands is not known.`;
  const inside = `Its ${limit.what} comes to ${said.degrees(limit.valueC)} and stands ${said.degrees(limit.limitC)}`;
  return `${hot}. ${inside}: ${limit.marginK < 0 ? `${said.difference(-limit.marginK)} over` : `${said.difference(limit.marginK)} left`}.`;
}

function rowsOf(line: LineHeat, said: HeatUnits) {
  const { worst } = line;
  const row = (name: string, value: string) => ({ name, value, from: 'this answer' });
  return [
    row('outside', said.degrees(worst.surfaceC)),
    row('under its sleeve', said.degrees(worst.underC)),
    row('inside of its wall', said.degrees(worst.innerC)),
    row(`${line.carries} comes in at`, said.degrees(line.fluidInC)),
    row('and leaves at', said.degrees(line.fluidOutC)),
    row('flow', line.flowM3S === 0 ? 'standing' : `${(line.flowM3S * 60_000).toFixed(1)} L/min`),
    row('heat taken up over its length', `${Math.round(line.heatInW)} W`),
    ...worst.shares.map((share) =>
      row(`from ${share.name}`, `${share.watts.toFixed(2)} W, ${said.difference(share.kelvin)}`),
    ),
  ];
}

/** The same line in all cases: one number each, to be opened. */
function InEveryCase({ answer, line }: { readonly answer: HeatAnswer; readonly line: string }): ReactNode {
  const said = useHeatUnits();
  return (
    <div className="flow-wide">
      <table className="sheet" aria-label={`${line} in every case`}>
        <thead>
          <tr>
            <th>case</th>
            <th className="num">hottest</th>
            <th className="num">left</th>
          </tr>
        </thead>
        <tbody>
          {answer.cases.map((at) => {
            const own = at.lines.find((one) => one.line === line);
            const limit = own === undefined ? undefined : leastOf(own.limits);
            return (
              <tr key={at.case.id}>
                <td>
                  <Key
                    weight="bare"
                    className="printed"
                    onClick={() =>
                      open({ kind: 'cook', id: heatAddress({ caseId: at.case.id, about: { kind: 'line', id: line } }) })
                    }
                  >
                    {at.case.name ?? at.case.id}
                  </Key>
                </td>
                <td className="num">{own === undefined ? 'not worked out' : said.degrees(own.worst.surfaceC)}</td>
                <td className="num">
                  {limit === undefined
                    ? 'not known'
                    : `${limit.marginK < 0 ? '▲ ' : ''}${said.difference(limit.marginK)}`}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
