import { NativeSelect, TextInput } from '@mantine/core';
import { useLengths } from './lengths.ts';
import { type ReactNode, useMemo } from 'react';
import type { Car, Line } from '#car';
import { catalogue } from '#standards';
import { Key } from '../frame/key.tsx';
import { emptyPiece, type PieceDraft } from './line-extras.ts';
import { TapeField } from './read-field.tsx';

interface Wish {
  readonly car: Car;
  readonly line: Line;
  readonly pieces: readonly PieceDraft[];
  readonly onPieces: (pieces: readonly PieceDraft[]) => void;
  readonly isAsked: boolean;
}

/** What the line is made of, length by length; nothing said: one hose, whichever fits. */
export function PiecesFields({ car, line, pieces, onPieces, isAsked }: Wish): ReactNode {
  const { soldAs } = useLengths();
  const hoses = useMemo(
    () =>
      catalogue(car.catalogue).hoses.filter(
        (row) => line.dash === undefined || row.dash === undefined || row.dash === line.dash,
      ),
    [car.catalogue, line.dash],
  );
  const set = (i: number, change: Partial<PieceDraft>): void =>
    onPieces(pieces.map((piece, k) => (k === i ? { ...piece, ...change } : piece)));
  return (
    <section className="tape-section" aria-labelledby="pieces">
      <h2 id="pieces">Made of</h2>
      {pieces.length === 0 ? <p className="soft">One hose, whichever fits.</p> : null}
      <datalist id="hoses-that-fit">
        {hoses.map((row) => (
          <option key={row.id} value={row.id}>
            {soldAs(row.name)}
          </option>
        ))}
      </datalist>
      {pieces.map((piece, i) => (
        // A piece has no name; its place in the row is what it is.
        // eslint-disable-next-line react/no-array-index-key
        <div className="piece" role="group" aria-label={`Piece ${i + 1}`} key={i}>
          <NativeSelect
            label={`Piece ${i + 1}`}
            value={piece.kind}
            data={[
              { value: 'hose', label: 'hose' },
              { value: 'tube', label: 'hard tube' },
            ]}
            onChange={(event) => set(i, { kind: event.currentTarget.value as PieceDraft['kind'] })}
          />
          {piece.kind === 'hose' ? (
            <TextInput
              label="Which hose"
              list="hoses-that-fit"
              value={piece.hose}
              maxLength={80}
              error={isAsked && piece.hose.trim() === '' ? 'its id is wanted' : undefined}
              onChange={(event) => set(i, { hose: event.currentTarget.value })}
            />
          ) : (
            <Tube piece={piece} isAsked={isAsked} onPiece={(change) => set(i, change)} />
          )}
          <Key aria-label={`Take away piece ${i + 1}`} onClick={() => onPieces(pieces.filter((_, k) => k !== i))}>
            Take away
          </Key>
        </div>
      ))}
      <div className="keys">
        <Key onClick={() => onPieces([...pieces, emptyPiece])}>
          {pieces.length === 0 ? 'Say which' : 'One more piece'}
        </Key>
      </div>
    </section>
  );
}

interface TubeWish {
  readonly piece: PieceDraft;
  readonly isAsked: boolean;
  readonly onPiece: (change: Partial<PieceDraft>) => void;
}

function Tube({ piece, isAsked, onPiece }: TubeWish): ReactNode {
  return (
    <>
      <TapeField label="Outside diameter" text={piece.od} isAsked={isAsked} onText={(od) => onPiece({ od })} />
      <TapeField label="Wall" text={piece.wall} isAsked={isAsked} onText={(wall) => onPiece({ wall })} />
      <TapeField
        label="Radius of the bender"
        text={piece.bend}
        isAsked={isAsked}
        onText={(bend) => onPiece({ bend })}
      />
      <TextInput
        label="Material"
        value={piece.material}
        maxLength={80}
        onChange={(event) => onPiece({ material: event.currentTarget.value })}
      />
    </>
  );
}
