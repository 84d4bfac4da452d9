import { useElementSize } from '@mantine/hooks';
import type { ReactNode } from 'react';
import { heatShareBars, partTemperature } from '#book';
import type { HeatCase, PartPlace } from '#heat';
import { Picture } from '../book/picture.tsx';
import { sheetOf } from './sheet-of.ts';
import { LimitsTable } from './limits-table.tsx';
import { useHeatUnits } from './heat-units.ts';

/** A panel or a part opened: how hot, what makes it so, what it stands. */
export function BodyOpened({
  at,
  kind,
  id,
}: {
  readonly at: HeatCase;
  readonly kind: 'panel' | 'part';
  readonly id: string;
}): ReactNode {
  const said = useHeatUnits();
  const { ref, width } = useElementSize<HTMLElement>();
  const panel = kind === 'panel' ? at.panels.find((row) => row.panel === id) : undefined;
  const part = kind === 'part' ? at.parts.find((row) => row.part === id) : undefined;
  const body = panel ?? part;
  if (body === undefined) return <p>{`${id} is not worked out in this case.`}</p>;
  const hottest = panel?.worstC ?? part!.surfaceC;
  const under = part?.underC === undefined ? '' : `, ${said.degrees(part.underC)} under its cover`;
  const peak = body.peak === undefined ? '' : `, highest after ${Math.round(body.peak.atMin)} min`;
  return (
    <section ref={ref} aria-label={body.name} className="cook-opened">
      <h2>{body.name}</h2>
      <p className="flow-sentence">{`${said.degrees(hottest)} (± ${said.difference(body.errorK)})${under}${peak}`}</p>
      {panel === undefined ? null : <p>{`Mean over the whole of it: ${said.degrees(panel.meanC)}.`}</p>}
      {part === undefined ? null : (
        <p>{`It gives ${Math.round(part.toAirW)} W to the air and ${Math.round(part.byRadiationW)} W by radiation. ${part.places === undefined ? SAME_ALL_OVER : `Followed along its length in stretches, nothing carried from one to the next: the number is its hottest, ${said.length(hottestOf(part.places).alongMm)} from its first point.`}`}</p>
      )}
      {part?.places === undefined ? null : <Picture drawing={partTemperature(part, said.isInch, sheetOf(width))} />}
      {body.shares.length === 0 ? null : (
        <Picture drawing={heatShareBars(`What heats ${body.name}`, body.shares, said.isInch, sheetOf(width))} />
      )}
      <LimitsTable limits={body.limits} />
    </section>
  );
}

const SAME_ALL_OVER =
  'It counts as one temperature all over: draw a long exhaust as several parts, each with its own surface temperature.';

const hottestOf = (places: readonly PartPlace[]): PartPlace =>
  places.reduce((best, place) => (place.c > best.c ? place : best));
