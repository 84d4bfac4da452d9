import type { ReactNode } from 'react';
import type { Line } from '#car';
import type { Way } from '#lines';
import { useCar } from '../bench/bench.ts';
import type { Work } from '../bench/job.ts';
import { GapPicture } from '../book/gap-picture.tsx';
import { Key } from '../frame/key.tsx';
import { gapsTightestFirst } from './tightest.ts';
import { takenFrom } from './taken-from.ts';
import { counted } from '../snags/counted.ts';
import { useWhatIf, WhatIf } from './what-if.tsx';
import { partsToBuy } from './parts-to-buy.ts';
import { useLengths } from '../tape/lengths.ts';
import { cutWords, endWords, wayName } from './words.ts';

interface Wish {
  readonly line: Line;
  readonly taken: Way | null;
  readonly worked: readonly Way[] | null;
  readonly picked: number | null;
  readonly onPick: (rank: number | null) => void;
  readonly work: Work<readonly Way[]>;
}

/** One refused before anything was drawn, as for its hose, has no ends, no length and no cost: only its reason is told. */
export const isDrawn = ({ bodies }: Way): boolean => bodies.length > 0;

/** The way taken and those worked out, side by side; the picked one is drawn on the car. */
export function WaysList({ line, taken, worked, picked, onPick, work }: Wish): ReactNode {
  const whatIf = useWhatIf();
  const lengths = useLengths();
  const isMade = line.state !== 'planned';
  if (taken === null && worked === null) return null;
  const way = picked === null ? undefined : worked?.find((candidate) => candidate.rank === picked);
  const refused = worked?.find((row) => !isDrawn(row));
  const edits = way === undefined ? [] : [{ do: 'take-way' as const, line: line.id, way: takenFrom(way) }];
  return (
    <section className="ways" aria-label="Ways">
      <ul>
        {taken === null ? null : (
          <WayRow way={taken} name="taken" isPicked={picked === null} onPick={() => onPick(null)} />
        )}
        {worked?.filter(isDrawn).map((row) => (
          <WayRow
            key={row.rank}
            way={row}
            name={`${row.rank}`}
            isPicked={picked === row.rank}
            onPick={() => onPick(row.rank)}
          />
        ))}
      </ul>
      {way === undefined ? null : (
        <>
          {isMade ? (
            <p className="warn">{`${line.id} is ${line.state}: it stays as it is. Set it back to planned before another way is taken.`}</p>
          ) : null}
          <div className="keys">
            <Key
              weight="do"
              disabled={isMade || !way.feasible}
              onClick={() =>
                void work.keep(edits, `${line.id}: way ${way.rank} taken`).then((isKept) => isKept && work.clear())
              }
            >
              {`Take way ${way.rank}`}
            </Key>
            <Key disabled={isMade} onClick={() => whatIf.ask(edits)}>
              What would it change?
            </Key>
          </div>
          {way.feasible ? null : (
            <p className="warn">{`▲ Cannot be taken: ${way.fails.map((fail) => lengths.text(fail.text)).join('; ')}`}</p>
          )}
        </>
      )}
      {refused === undefined ? null : (
        <p className="warn">{`▲ No way: ${refused.fails.map((fail) => lengths.text(fail.text)).join('; ')}`}</p>
      )}
      <WhatIf asked={whatIf} />
    </section>
  );
}

interface RowWish {
  readonly way: Way;
  readonly name: string;
  readonly isPicked: boolean;
  readonly onPick: () => void;
}

function WayRow({ way, name, isPicked, onPick }: RowWish): ReactNode {
  const box = useCar()?.box ?? [];
  const lengths = useLengths();
  const tightest = gapsTightestFirst(way)[0];
  return (
    <li>
      <button type="button" className="way" aria-pressed={isPicked} onClick={onPick}>
        <span className="way-rank">{name}</span>
        <span className="way-what">
          <strong>{wayName(way)}</strong>
          <span className="small soft">
            {[
              way.pieces.map((piece) => cutWords(piece, lengths)).join(' + '),
              ...(way.clamps.length === 0 ? [] : [counted(way.clamps.length, 'clamp')]),
            ].join(' · ')}
          </span>
        </span>
        <span className="way-gap">
          {tightest === undefined ? (
            `nothing within ${lengths.one(150)}`
          ) : (
            <>
              <GapPicture gap={tightest} />
              <span className="small soft">{`to ${tightest.part}`}</span>
            </>
          )}
        </span>
        <span className="way-more small">
          <span className="soft">{`A ${endWords(way.ends[0])}; B ${endWords(way.ends[1])}`}</span>
          <span>{partsToBuy(way, box)}</span>
        </span>
      </button>
    </li>
  );
}
