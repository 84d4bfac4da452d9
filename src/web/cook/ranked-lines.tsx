import type { ReactNode } from 'react';
import type { HeatCase } from '#heat';
import { gapRuler } from '#book';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { Picture } from '../book/picture.tsx';
import { dutyWords } from '../fit/words.ts';
import { counted } from '../snags/counted.ts';
import { LevelMark } from '../snags/level-mark.tsx';
import { heatAddress } from './heat-place.ts';
import { useLengths } from '../tape/lengths.ts';
import { useHeatUnits } from './heat-units.ts';
import { type RankedLine, rankedLines, standingOf } from './ranked.ts';

/** Lines by margin, least first: which gets too hot, by how much, and where the limit comes from. */
export function RankedLines({ at }: { readonly at: HeatCase }): ReactNode {
  const rows = rankedLines(at);
  const over = rows.filter(({ line, limit }) => standingOf(limit, line.worst.errorK) === 'broken').length;
  const close = rows.filter(({ line, limit }) => standingOf(limit, line.worst.errorK) === 'close').length;
  return (
    <section aria-label="Lines by margin">
      <h2>{`${counted(rows.length, 'line')}: ${over} over a limit, ${close} within the error of one`}</h2>
      <ul className="line-list">
        {rows.map((row) => (
          <li key={row.line.line}>
            <Row row={row} at={at} />
          </li>
        ))}
      </ul>
    </section>
  );
}

const RULER = { width: 190, size: 12, unit: 'px' } as const;

function Row({ row: { line, limit }, at }: { readonly row: RankedLine; readonly at: HeatCase }): ReactNode {
  const car = useCar()!;
  const said = useHeatUnits();
  const lengths = useLengths();
  const of = car.lines.find(({ id }) => id === line.line);
  const state = standingOf(limit, line.worst.errorK);
  const level = state === 'broken' ? 'stop' : state === 'close' ? 'fix' : undefined;
  const peak = line.peak === undefined ? '' : `, after ${Math.round(line.peak.atMin)} min`;
  // Nobody knows a temperature here to a tenth.
  const told = (c: number): number => Math.round(said.isInch ? c * 1.8 + 32 : c);
  return (
    <button
      type="button"
      className="line-row"
      onClick={() =>
        open({ kind: 'cook', id: heatAddress({ caseId: at.case.id, about: { kind: 'line', id: line.line } }) })
      }
    >
      <span className="line-id">{line.line}</span>
      <span className="line-what">
        <strong>{of?.name ?? (of === undefined ? line.line : dutyWords(of, lengths))}</strong>
        <span className="soft small">
          {`${said.degrees(line.worst.surfaceC)} (± ${said.difference(line.worst.errorK)}) at ${said.length(line.worst.alongMm)}${peak}`}
        </span>
      </span>
      <span className="line-how">{level === undefined ? null : <LevelMark level={level} />}</span>
      {limit === undefined ? (
        <span className="line-gap small soft">No limit is known for what it is made of</span>
      ) : (
        <span className="line-gap small">
          <Picture
            drawing={gapRuler(
              {
                nominal: told(limit.valueC),
                worst: told(limit.valueC + line.worst.errorK),
                best: told(limit.valueC - line.worst.errorK),
                limit: told(limit.limitC),
                unit: said.isInch ? '°F' : '°C',
                side: 'most',
                what: `${line.line}, ${limit.name}`,
              },
              RULER,
            )}
          />
          <span>
            {limit.marginK < 0
              ? `${said.soldAs(limit.name)}: ${said.difference(-limit.marginK)} over`
              : `${said.soldAs(limit.name)}: ${said.difference(limit.marginK)} left`}
          </span>
        </span>
      )}
    </button>
  );
}
