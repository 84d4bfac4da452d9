import { NativeSelect } from '@mantine/core';
import type { ReactNode } from 'react';
import type { TemplateShape } from '#panels';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { PointAt } from '../scan/point-at.tsx';
import { ReadField } from '../tape/read-field.tsx';
import { tapeMm } from '../tape/tape-text.ts';
import { toldAs } from '../tape/told-as.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { LEAST_MATCHES, type MatchDraft } from './match-draft.ts';
import { allCorners, cornerName } from './outline-corners.ts';

interface Wish {
  readonly shape: TemplateShape;
  readonly matches: readonly MatchDraft[];
  readonly isAsked: boolean;
  readonly onMatches: (matches: readonly MatchDraft[]) => void;
}

const axes = ['Rearward', 'Right', 'Up'] as const;
const tenth = (mm: number): string => `${Math.round(mm * 10) / 10 + 0} mm`;

/** Corners of the template where they are on the car, by tape or pointed at on a scan. */
export function MatchFields({ shape, matches, isAsked, onMatches }: Wish): ReactNode {
  const set = (i: number, change: Partial<MatchDraft>): void =>
    onMatches(matches.map((one, k) => (k === i ? { ...one, ...change } : one)));
  return (
    <section className="tape-section" aria-label="Where it is on the car">
      <h2>Where it is on the car</h2>
      <p className="small soft">
        Three corners or more, well apart, from the car’s datum or pointed at on a scan. With none the flat can be cut,
        but it stands nowhere.
      </p>
      {matches.map((match, i) => (
        // A match is what its number says.
        // eslint-disable-next-line react/no-array-index-key
        <Match key={i} i={i} shape={shape} match={match} isAsked={isAsked} onMatch={(change) => set(i, change)} />
      ))}
      <div className="keys">
        <Key onClick={() => onMatches([...matches, { corner: '1', own: [0, 0], at: ['', '', ''] }])}>
          One more corner
        </Key>
        {matches.length > LEAST_MATCHES ? (
          <Key onClick={() => onMatches(matches.slice(0, -1))}>Last one away</Key>
        ) : null}
      </div>
    </section>
  );
}

interface MatchWish {
  readonly i: number;
  readonly shape: TemplateShape;
  readonly match: MatchDraft;
  readonly isAsked: boolean;
  readonly onMatch: (change: Partial<MatchDraft>) => void;
}

function Match({ i, shape, match, isAsked, onMatch }: MatchWish): ReactNode {
  const unit = useSignal(tapeUnit);
  const [x, y] = match.own;
  const isBlank = match.at.every((text) => text.trim() === '');
  const typed = (axis: number, text: string): MatchDraft['at'] => {
    const [a, b, c] = match.at.map((was, k) => (k === axis ? text : was));
    return [a!, b!, c!];
  };
  return (
    <div className="template-match" role="group" aria-label={`Point ${i + 1} on the car`}>
      <div className="pair">
        <NativeSelect
          label={`Point ${i + 1}: corner`}
          value={match.corner}
          data={[
            ...allCorners(shape).map((at) => cornerName(at)),
            ...(match.corner === 'own' ? [{ value: 'own', label: `none: ${tenth(x)}, ${tenth(y)}` }] : []),
          ]}
          onChange={(event) => onMatch({ corner: event.currentTarget.value })}
        />
        <PointAt
          words="Point at it on the car"
          onPoint={({ atMm: [a, b, c] }) => onMatch({ at: [tenth(a), tenth(b), tenth(c)] })}
        />
      </div>
      <div className="facing-tip">
        {axes.map((axis, k) => (
          <ReadField
            key={axis}
            label={axis}
            spoken={`Point ${i + 1}, ${axis.toLowerCase()}`}
            text={match.at[k]!}
            isAsked={isAsked && !isBlank}
            read={(text) => tapeMm(text, unit)}
            told={(mm, text) => toldAs(text, mm)}
            onText={(text) => onMatch({ at: typed(k, text) })}
          />
        ))}
      </div>
    </div>
  );
}
