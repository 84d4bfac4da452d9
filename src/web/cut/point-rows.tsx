import type { ReactNode } from 'react';
import type { Parsed } from '#units';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { PointAt } from '../scan/point-at.tsx';
import { ReadField } from '../tape/read-field.tsx';
import { tapeMm, type TapeUnit } from '../tape/tape-text.ts';
import { toldAs } from '../tape/told-as.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { keptText } from '../tape/kept-text.ts';

export type Point = [number, number, number];
export type Texts = readonly [string, string, string];

const axes = ['Rearward', 'Right', 'Up'] as const;
const tenth = (mm: number): number => Math.round(mm * 10) / 10 + 0;
const blank: Texts = ['', '', ''];

/** Points as they are typed; one line where a number cannot be read. */
export function pointsFrom(texts: readonly Texts[], unit: TapeUnit): Parsed<readonly Point[]> {
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

/** Points as the form shows them. */
export const pointTexts = (points: readonly (readonly number[])[]): readonly Texts[] =>
  points.map(([x, y, z]): Texts => [x, y, z].map((mm) => keptText(mm!, 0.1)) as unknown as Texts);

interface RowsWish {
  readonly rows: readonly Texts[];
  readonly isAsked: boolean;
  readonly onRows: (rows: readonly Texts[]) => void;
  /** Beside the number of a point, such as how far it turns there. */
  readonly told?: (n: number) => string;
}

/** Points on the car in their order, by tape or pointed at. */
export function PointRows({ rows, isAsked, onRows, told }: RowsWish): ReactNode {
  return (
    <>
      {rows.map((row, n) => (
        // A point is what its number says.
        // eslint-disable-next-line react/no-array-index-key
        <OnePoint
          key={n}
          n={n}
          texts={row}
          isAsked={isAsked}
          told={told?.(n) ?? ''}
          onTexts={(next) => onRows(rows.map((one, k) => (k === n ? next : one)))}
          onMore={() => onRows([...rows.slice(0, n + 1), blank, ...rows.slice(n + 1)])}
          onAway={() => onRows(rows.filter((_, k) => k !== n))}
        />
      ))}
      {rows.length > 0 ? null : (
        <div className="keys">
          <Key onClick={() => onRows([blank])}>Put a point in</Key>
        </div>
      )}
    </>
  );
}

interface PointWish {
  readonly n: number;
  readonly texts: Texts;
  readonly isAsked: boolean;
  readonly told: string;
  readonly onTexts: (texts: Texts) => void;
  readonly onMore: () => void;
  readonly onAway: () => void;
}

function OnePoint({ n, texts, isAsked, told, onTexts, onMore, onAway }: PointWish): ReactNode {
  const unit = useSignal(tapeUnit);
  return (
    <section className="tape-section" aria-label={`Point ${n + 1}`}>
      <h3>{`Point ${n + 1}${told}`}</h3>
      <div className="facing-tip">
        {axes.map((axis, i) => (
          <ReadField
            key={axis}
            label={axis}
            spoken={`Point ${n + 1}, ${axis.toLowerCase()}`}
            text={texts[i]!}
            isAsked={isAsked}
            read={(text) => tapeMm(text, unit)}
            told={(mm, text) => toldAs(text, mm)}
            onText={(text) => onTexts(texts.map((was, k) => (k === i ? text : was)) as unknown as Texts)}
          />
        ))}
      </div>
      <PointAt
        words="Point at it on the car"
        onPoint={({ atMm: [x, y, z] }) => onTexts([keptText(x, 0.1), keptText(y, 0.1), keptText(z, 0.1)])}
      />
      <div className="keys">
        <Key onClick={onMore}>{`One more after ${n + 1}`}</Key>
        <Key onClick={onAway}>{`Take point ${n + 1} out`}</Key>
      </div>
    </section>
  );
}
