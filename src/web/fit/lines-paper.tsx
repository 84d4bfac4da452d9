import type { ReactNode } from 'react';
import type { Line } from '#car';
import type { Way } from '#lines';
import { useCar, useStanding, wayOf } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { GapPicture } from '../book/gap-picture.tsx';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { LevelMark } from '../snags/level-mark.tsx';
import { counted } from '../snags/counted.ts';
import { openSnags } from '../snags/open-snags.ts';
import type { Standing } from '../server/answers.ts';
import { gapsTightestFirst } from './tightest.ts';
import { PlanAll } from './plan-all.tsx';
import { dutyWords, portWords } from './words.ts';
import type { Lengths } from '#units';
import { useLengths } from '../tape/lengths.ts';
import './fit.css';

/** All lines of the car: from where to where, how they stand, and where each is tightest. The 3D view in words. */
export function LinesPaper(): ReactNode {
  const car = useCar();
  const judged = useStanding();
  if (car === null) return null;
  return (
    <article className="paper">
      <PaperHead
        below={
          car.lines.length === 0 ? undefined : 'Tightest place of each, as drawn (worst to best), and what it wants.'
        }
      >
        {counted(car.lines.length, 'line')}
      </PaperHead>
      {car.lines.length === 0 ? (
        <p>No lines yet: a line joins two ports of two parts.</p>
      ) : (
        <PlanAll car={car} judged={judged} />
      )}
      <ul className="line-list">
        {car.lines.map((line) => (
          <li key={line.id}>
            <LineRow line={line} judged={judged} />
          </li>
        ))}
      </ul>
      <div className="keys">
        <Key weight={car.lines.length === 0 ? 'do' : 'plain'} onClick={() => open({ kind: 'tape', id: 'join' })}>
          Join two ports
        </Key>
        <Key onClick={() => open({ kind: 'parts' })}>{`${counted(car.parts.length, 'part')} of the car`}</Key>
      </div>
    </article>
  );
}

function LineRow({ line, judged }: { readonly line: Line; readonly judged: Standing | null }): ReactNode {
  const car = useCar()!;
  const way = wayOf(judged, line.id);
  const lengths = useLengths();
  const tightest = way === null ? undefined : gapsTightestFirst(way)[0];
  const worst =
    judged === null
      ? undefined
      : openSnags(judged.snags).find((snag) => snag.line === line.id && snag.level !== 'note');
  return (
    <button type="button" className="line-row" onClick={() => open({ kind: 'line', id: line.id })}>
      <span className="line-id">{line.id}</span>
      <span className="line-what">
        <strong>{line.name ?? dutyWords(line, lengths)}</strong>
        <span className="soft small">{`${portWords(car, line.from)} → ${portWords(car, line.to)}`}</span>
      </span>
      <span className="line-how">
        {worst === undefined ? null : <LevelMark level={worst.level} />}
        <span className="state-word small">{line.state}</span>
      </span>
      {tightest === undefined ? (
        <span className="line-gap small soft">{noGapWords(judged, way, lengths)}</span>
      ) : (
        <span className="line-gap small">
          <GapPicture gap={tightest} width={178} />
          <span>{`to ${tightest.part}`}</span>
        </span>
      )}
    </button>
  );
}

function noGapWords(judged: Standing | null, way: Way | null, lengths: Lengths): string {
  if (judged === null) return 'being judged';
  return way === null ? 'no way taken' : `nothing within ${lengths.one(150)}`;
}
