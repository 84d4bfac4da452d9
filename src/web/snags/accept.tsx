import { Textarea } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import type { AcceptedSnag } from '#car';
import { brokenBy, type Snag } from '#snags';
import { keep, useCar } from '../bench/bench.ts';
import { today, whoIsIt } from '../bench/who.ts';
import { Key } from '../frame/key.tsx';

/** To live with a snag: under a name, with a reason. It comes back by itself when it gets worse. */
export function Accept({ snag }: { readonly snag: Snag }): ReactNode {
  const car = useCar();
  const [why, setWhy] = useState('');
  if (car === null) return null;
  const others = (car.accepted ?? []).filter((row) => row.snag !== snag.id);
  const { accepted } = snag;
  const isStill = accepted !== undefined && !accepted.isWorse;
  const isWriting = why.trim() !== '';
  return (
    <>
      {accepted === undefined ? null : (
        <section className="seen" aria-label="Accepted">
          <p>
            <strong>{accepted.isWorse ? '▲ It has got worse since it was accepted' : 'Accepted'}</strong>
            {` by ${accepted.by}, ${accepted.on}: ${accepted.why}`}
          </p>
          <div className="keys">
            <Key onClick={() => void keep([{ do: 'set-accepted', rows: others }], 'Open again')}>Open it again</Key>
          </div>
        </section>
      )}
      {isStill && !isWriting ? null : (
        <details className="opened no-print">
          <summary>Accept it, with a reason</summary>
          <form
            onSubmit={(event) => {
              event.preventDefault();
              if (isWriting) void acceptIt(others, snag, why.trim()).then((isKept) => isKept && setWhy(''));
            }}
          >
            {isStill && isWriting ? (
              <p className="warn">{`▲ ${accepted.by} accepted it while you wrote. What you wrote still stands here, and goes in place of theirs when you accept it.`}</p>
            ) : null}
            <Textarea
              label="Why it may stay as it is"
              description="Your name and the day go with it; it is shown again if it gets worse. The event's rules and a qualified person come first."
              autosize
              minRows={2}
              maxLength={2000}
              value={why}
              onChange={(event) => setWhy(event.currentTarget.value)}
            />
            <div className="keys accept-keys">
              <Key type="submit" disabled={!isWriting}>
                Accept it
              </Key>
            </div>
          </form>
        </details>
      )}
    </>
  );
}

async function acceptIt(others: readonly AcceptedSnag[], snag: Snag, why: string): Promise<boolean> {
  const by = await whoIsIt();
  if (by === null) return false;
  const { id, level, value, limit, unit } = snag;
  const missed = brokenBy(snag);
  const row: AcceptedSnag = {
    snag: id,
    level,
    ...(Number.isFinite(missed) ? { missedPercent: Math.max(0, 100 * missed) } : {}),
    ...(value === undefined
      ? {}
      : { stood: `${value} ${unit ?? ''}${limit === undefined ? '' : ` of ${limit}`}`.trim() }),
    by,
    why,
    on: today(),
  };
  return keep([{ do: 'set-accepted', rows: [...others, row] }], 'Accepted');
}
