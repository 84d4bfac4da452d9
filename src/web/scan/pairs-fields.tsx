import { TextInput } from '@mantine/core';
import type { ReactNode } from 'react';
import type { Car } from '#car';
import type { Placing } from '#intake';
import { Key } from '../frame/key.tsx';
import { PlaceFields } from '../tape/place-fields.tsx';
import { PointAt } from './point-at.tsx';
import { emptyPair, filePoint, filePointTexts, type PairDraft } from './scan-draft.ts';
import { useLengths } from '../tape/lengths.ts';

interface Wish {
  readonly car: Car;
  readonly pairs: readonly PairDraft[];
  readonly onPairs: (pairs: readonly PairDraft[]) => void;
  readonly placing: Placing | null;
  /** Which pairs the placing was worked out from, in its order. */
  readonly rows: readonly number[];
  readonly isAsked: boolean;
}

/** Points that are found on the scan and on the car; how far each then misses. */
export function PairsFields({ car, pairs, onPairs, placing, rows, isAsked }: Wish): ReactNode {
  const set = (i: number, pair: PairDraft): void => onPairs(pairs.map((old, k) => (k === i ? pair : old)));
  return (
    <>
      {pairs.map((pair, i) => (
        // A pair is what its number says.
        // eslint-disable-next-line react/no-array-index-key
        <section className="tape-section" aria-labelledby={`pair-${i}`} key={i}>
          <h2 id={`pair-${i}`}>
            {`Point ${i + 1}`} <Miss placing={placing} at={rows.indexOf(i)} />
          </h2>
          <OnScan pair={pair} isAsked={isAsked} onPair={(next) => set(i, next)} />
          <h3>On the car</h3>
          <PlaceFields car={car} draft={pair.onCar} isAsked={isAsked} onDraft={(onCar) => set(i, { ...pair, onCar })} />
        </section>
      ))}
      <div className="keys">
        <Key onClick={() => onPairs([...pairs, emptyPair])}>One more point</Key>
        {pairs.length > 3 ? <Key onClick={() => onPairs(pairs.slice(0, -1))}>Last point away</Key> : null}
      </div>
      <Said placing={placing} />
    </>
  );
}

function OnScan({
  pair,
  isAsked,
  onPair,
}: {
  readonly pair: PairDraft;
  readonly isAsked: boolean;
  readonly onPair: (pair: PairDraft) => void;
}): ReactNode {
  const isMissing = isAsked && filePoint(pair.onScan) === undefined;
  return (
    <>
      <h3>On the scan</h3>
      <PointAt
        words="Point at it on the scan"
        onPoint={({ atMm }) => onPair({ ...pair, onScan: filePointTexts(atMm) })}
      />
      <div className="facing-tip">
        {(['x', 'y', 'z'] as const).map((axis, k) => (
          <TextInput
            key={axis}
            label={`${axis} in the file, mm`}
            value={pair.onScan[k]!}
            inputMode="decimal"
            autoComplete="off"
            maxLength={20}
            error={isMissing ? 'is not known yet' : undefined}
            onChange={(event) =>
              onPair({
                ...pair,
                onScan: pair.onScan.map((old, i) => (i === k ? event.currentTarget.value : old)) as [
                  string,
                  string,
                  string,
                ],
              })
            }
          />
        ))}
      </div>
    </>
  );
}

/** A miss beyond this is worth measuring again [mm]. */
const MUCH_MM = 5;

function Miss({ placing, at }: { readonly placing: Placing | null; readonly at: number }): ReactNode {
  const { fine } = useLengths();
  const mm = placing?.ok === true && at >= 0 ? placing.residualsMm[at] : undefined;
  if (mm === undefined) return null;
  return (
    <span
      className={mm > MUCH_MM ? 'warn warn-fix small' : 'soft small'}
    >{`${mm > MUCH_MM ? '◆ ' : ''}misses by ${fine(mm)}`}</span>
  );
}

function Said({ placing }: { readonly placing: Placing | null }): ReactNode {
  const { fine, text } = useLengths();
  if (placing === null) return null;
  if (!placing.ok) return <p className="warn" role="status">{`▲ ${text(placing.fault)}`}</p>;
  return (
    <div role="status">
      <p>{`Placed: the points miss by ${fine(placing.rmsMm)} (root mean square). It is drawn on the car.`}</p>
      {placing.warnings.map((warning) => (
        <p className="warn warn-fix" key={warning}>{`◆ ${text(warning)}`}</p>
      ))}
    </div>
  );
}
