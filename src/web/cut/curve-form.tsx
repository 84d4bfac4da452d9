import { type ReactNode, useState } from 'react';
import type { Panel } from '#car';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { useMarks } from '../tape/drafts.ts';
import { Form } from '../tape/form.tsx';
import { tapeUnit } from '../tape/tape-unit.ts';
import { AsTyped } from './as-typed.tsx';
import { setPanel } from './panel-edits.ts';
import { type Point, PointRows, pointsFrom, pointTexts, type Texts } from './point-rows.tsx';

/** The panel with an edge that runs through points on its way; straight where there are none. */
function withCurve(panel: Panel, [from, to]: readonly [string, string], through: readonly Point[]): Panel['edges'] {
  const edges = panel.edges ?? [];
  const at = edges.findIndex((edge) => [edge.from, edge.to].every((end) => end === from || end === to));
  const { throughMm: _, ...was } = edges[at] ?? { from, to };
  // The points run the way that the row names its ends.
  const run = was.from === from ? [...through] : [...through].reverse();
  const now = run.length === 0 ? was : { ...was, throughMm: run };
  const own = Object.keys(now).length > 2 ? [now] : [];
  return at < 0 ? [...edges, ...own] : [...edges.slice(0, at), ...own, ...edges.slice(at + 1)];
}

/** A curved edge by points along it, in order, by tape or pointed at on a scan. */
export function CurveForm({ panel: id, row: ends }: { readonly panel: string; readonly row: string }): ReactNode {
  const car = useCar()!;
  const unit = useSignal(tapeUnit);
  const panel = car.panels?.find((one) => one.id === id);
  const [from = '', to = ''] = ends.split(' ');
  const was = panel?.edges?.find((edge) => [edge.from, edge.to].every((end) => end === from || end === to));
  const [texts, setTexts] = useState<readonly Texts[]>(() => {
    const through = was?.throughMm ?? [];
    return pointTexts(was?.from === to ? [...through].reverse() : through);
  });
  const read = pointsFrom(texts, unit);
  useMarks(read.ok ? read.value.map((atMm, i) => ({ label: `${i + 1}`, atMm, faces: null })) : []);
  if (panel === undefined) return <p className="paper">{`There is no panel ${id} any more.`}</p>;
  const edges = read.ok ? withCurve(panel, [from, to], read.value) : undefined;
  const back = (): void => open({ kind: 'cut', id: `panel/${id}` });
  return (
    <Form
      title={`Curve of ${from}-${to}`}
      below={`Points that the edge passes through on its way from ${from} to ${to}, in order. Few that are sure are better than many; arcs are laid through them.`}
      keepWords="Keep it"
      made={
        read.ok
          ? { ok: true, value: { edits: setPanel(panel, 'edges', edges ?? []), done: `Edge ${from}-${to} changed` } }
          : read
      }
      onKept={back}
      onLeave={back}
    >
      {(isAsked) => (
        <>
          {texts.length === 0 ? <p>Straight: no point is said.</p> : null}
          <PointRows rows={texts} isAsked={isAsked} onRows={setTexts} />
          <AsTyped car={car} panel={edges === undefined ? null : { ...panel, edges }} about={`${from}-${to}`} />
        </>
      )}
    </Form>
  );
}
