import { type ReactNode, useState } from 'react';
import type { Panel } from '#car';
import type { Parsed } from '#units';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { PointAt } from '../scan/point-at.tsx';
import { useMarks } from '../tape/drafts.ts';
import { Form } from '../tape/form.tsx';
import { ReadField } from '../tape/read-field.tsx';
import { readAs, tapeMm, type TapeUnit } from '../tape/tape-text.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { AsTyped } from './as-typed.tsx';
import { setPanel } from './panel-edits.ts';

type Point = [number, number, number];
type Texts = readonly [string, string, string];

const axes = ['Rearward', 'Right', 'Up'] as const;
const tenth = (mm: number): number => Math.round(mm * 10) / 10 + 0;
const blank: Texts = ['', '', ''];

function pointsFrom(texts: readonly Texts[], unit: TapeUnit): Parsed<readonly Point[]> {
  const points: Point[] = [];
  for (const [n, row] of texts.entries()) {
    const point: number[] = [];
    for (const [i, text] of row.entries()) {
      const read = tapeMm(text, unit);
      if (!read.ok) return { ...read, fault: `point ${n + 1}, ${axes[i]!.toLowerCase()}: ${read.fault}` };
      point.push(tenth(read.value));
    }
    points.push(point as Point);
  }
  return { ok: true, value: points };
}

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
    return (was?.from === to ? [...through].reverse() : through).map(
      ([x, y, z]): Texts => [`${x} mm`, `${y} mm`, `${z} mm`],
    );
  });
  const read = pointsFrom(texts, unit);
  useMarks(read.ok ? read.value.map((atMm, i) => ({ label: `${i + 1}`, atMm, faces: null })) : []);
  if (panel === undefined) return <p className="paper">{`There is no panel ${id} any more.`}</p>;
  const edges = read.ok ? withCurve(panel, [from, to], read.value) : undefined;
  const back = (): void => open({ kind: 'cut', id: `panel/${id}` });
  const set = (n: number, row: Texts): void => setTexts(texts.map((one, k) => (k === n ? row : one)));
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
          {texts.map((row, n) => (
            // A point is what its number says.
            // eslint-disable-next-line react/no-array-index-key
            <OnePoint
              key={n}
              n={n}
              texts={row}
              isAsked={isAsked}
              onTexts={(next) => set(n, next)}
              onAway={() => setTexts(texts.filter((_, k) => k !== n))}
            />
          ))}
          <div className="keys">
            <Key onClick={() => setTexts([...texts, blank])}>One more point</Key>
          </div>
          <AsTyped car={car} panel={edges === undefined ? null : { ...panel, edges }} about={`${from}-${to}`} />
        </>
      )}
    </Form>
  );
}

interface PointWish {
  readonly n: number;
  readonly texts: Texts;
  readonly isAsked: boolean;
  readonly onTexts: (texts: Texts) => void;
  readonly onAway: () => void;
}

function OnePoint({ n, texts, isAsked, onTexts, onAway }: PointWish): ReactNode {
  const unit = useSignal(tapeUnit);
  return (
    <section className="tape-section" aria-label={`Point ${n + 1}`}>
      <div className="facing-tip">
        {axes.map((axis, i) => (
          <ReadField
            key={axis}
            label={axis}
            spoken={`Point ${n + 1}, ${axis.toLowerCase()}`}
            text={texts[i]!}
            isAsked={isAsked}
            read={(text) => tapeMm(text, unit)}
            told={(mm, text) => readAs(text, mm)}
            onText={(text) => onTexts(texts.map((was, k) => (k === i ? text : was)) as unknown as Texts)}
          />
        ))}
      </div>
      <PointAt
        words="Point at it on the car"
        onPoint={({ atMm: [x, y, z] }) => onTexts([`${tenth(x)} mm`, `${tenth(y)} mm`, `${tenth(z)} mm`])}
      />
      <div className="keys">
        <Key onClick={onAway}>{`Take point ${n + 1} out`}</Key>
      </div>
    </section>
  );
}
