import { NativeSelect } from '@mantine/core';
import type { ReactNode } from 'react';
import type { Car } from '#car';
import { Key } from '../frame/key.tsx';
import { Check } from './check.tsx';
import { crossingsOf } from './line-draft.ts';
import { freshFacing, freshPlace, type ThroughDraft } from './line-through.ts';
import { PlaceFields } from './place-fields.tsx';
import { FacingFields } from './port-fields.tsx';

interface Wish {
  readonly car: Car;
  readonly through: readonly ThroughDraft[];
  readonly onThrough: (through: readonly ThroughDraft[]) => void;
  readonly isAsked: boolean;
}

/** What it passes through, in order from its start; where, if that is fixed. */
export function ThroughFields({ car, through, onThrough, isAsked }: Wish): ReactNode {
  const known = crossingsOf(car);
  if (known.length === 0 && through.length === 0)
    return <p className="small soft">No part of the car lets lines through; a part says so on its own paper.</p>;
  const words = (way: string): string => known.find(({ value }) => value === way)?.label ?? way;
  const set = (i: number, fixed: ThroughDraft['fixed']): void =>
    onThrough(through.map((step, k) => (k === i ? { ...step, fixed } : step)));
  return (
    <fieldset className="through tape-section">
      <legend>Passes through</legend>
      <ul className="solid-list">
        {through.map(({ way, fixed }, i) => (
          <li key={way}>
            <span>{words(way)}</span>
            <Key aria-label={`Take away ${words(way)}`} onClick={() => onThrough(through.filter((_, k) => k !== i))}>
              Take away
            </Key>
            <div className="solid-changed" role="group" aria-label={`Where it passes ${words(way)}`}>
              <Check
                label="The place is fixed"
                checked={fixed !== null}
                onCheck={(isFixed) => set(i, isFixed ? freshPlace : null)}
              />
              {fixed === null ? null : (
                <Fixed car={car} fixed={fixed} isAsked={isAsked} onFixed={(next) => set(i, next)} />
              )}
            </div>
          </li>
        ))}
      </ul>
      <NativeSelect
        className="no-print"
        label="One more, after those"
        value=""
        data={[
          { value: '', label: 'pick a way through' },
          ...known.filter(({ value }) => !through.some(({ way }) => way === value)),
        ]}
        onChange={(event) => {
          const way = event.currentTarget.value;
          if (way !== '') onThrough([...through, { way, fixed: null, was: null }]);
        }}
      />
    </fieldset>
  );
}

interface FixedWish {
  readonly car: Car;
  readonly fixed: NonNullable<ThroughDraft['fixed']>;
  readonly onFixed: (fixed: NonNullable<ThroughDraft['fixed']>) => void;
  readonly isAsked: boolean;
}

function Fixed({ car, fixed, onFixed, isAsked }: FixedWish): ReactNode {
  return (
    <>
      <PlaceFields car={car} draft={fixed.place} isAsked={isAsked} onDraft={(place) => onFixed({ ...fixed, place })} />
      <Check
        label="So is the way that it runs there"
        checked={fixed.facing !== null}
        onCheck={(isFixed) => onFixed({ ...fixed, facing: isFixed ? freshFacing : null })}
      />
      {fixed.facing === null ? null : (
        <FacingFields draft={fixed.facing} isAsked={isAsked} onDraft={(facing) => onFixed({ ...fixed, facing })} />
      )}
    </>
  );
}
