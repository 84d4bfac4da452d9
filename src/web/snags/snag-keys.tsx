import type { ReactNode } from 'react';
import type { Car } from '#car';
import type { Snag } from '#snags';
import { open } from '../bench/place.ts';
import { heatAddress, type HeatPlace } from '../cook/heat-place.ts';
import { Key } from '../frame/key.tsx';

/** Where a snag leads: to the card of its line, to its question at its place, to its panel, lever or part. */
export function SnagKeys({ snag, car }: { readonly snag: Snag; readonly car: Car }): ReactNode {
  return (
    <div className="keys">
      {snag.line === undefined ? null : (
        <Key weight="do" onClick={() => open({ kind: 'line', id: snag.line! })}>{`Card of ${snag.line}`}</Key>
      )}
      {snag.circuit === undefined ? null : (
        <Key onClick={() => open({ kind: 'flow', id: `${snag.circuit}..${snag.case ?? ''}` })}>How it flows there</Key>
      )}
      {snag.question !== 'cook' || !isHeatAsked(car) ? null : (
        <Key onClick={() => open({ kind: 'cook', id: heatAddress(hotPlace(snag)) })}>How hot it gets there</Key>
      )}
      {snag.question !== 'off' || !strippableHere(car, snag) ? null : (
        <Key onClick={() => open({ kind: 'off', id: `reach/${snag.part ?? snag.line}` })}>
          What comes off to reach it
        </Key>
      )}
      {snag.panel === undefined ? null : (
        <Key onClick={() => open({ kind: 'cut', id: `panel/${snag.panel}` })}>{`Panel ${snag.panel}`}</Key>
      )}
      {snag.lever === undefined ? null : (
        <Key onClick={() => open({ kind: 'cut', id: `lever/${snag.lever}` })}>{`Lever ${snag.lever}`}</Key>
      )}
      {snag.part === undefined || !car.parts.some((part) => part.id === snag.part) ? null : (
        <Key onClick={() => open({ kind: 'part', id: snag.part! })}>{`Part: ${snag.part}`}</Key>
      )}
      <Key onClick={() => open({ kind: 'snags' })}>All snags</Key>
    </div>
  );
}

const isHeatAsked = ({ parts, lines }: Car): boolean =>
  lines.length > 0 && parts.some(({ class: kind }) => kind === 'hot');

function hotPlace({ case: caseId, line, panel, part }: Snag): HeatPlace {
  const about =
    line !== undefined
      ? ({ kind: 'line', id: line } as const)
      : panel !== undefined
        ? ({ kind: 'panel', id: panel } as const)
        : part !== undefined
          ? ({ kind: 'part', id: part } as const)
          : ({ kind: 'lines' } as const);
  return { caseId, about };
}

/** Is it a thing of the car that one can ask to get at? */
const strippableHere = ({ parts, lines }: Car, { part, line }: Snag): boolean =>
  part === undefined ? lines.some(({ id }) => id === line) : parts.some(({ id }) => id === part);
