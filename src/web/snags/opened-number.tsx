import type { ReactNode } from 'react';
import { type Car, partTolerance } from '#car';
import type { Way, WayGap } from '#lines';
import { formatNumber } from '#units';
import { partOf, useCar, useStanding, wayOf } from '../bench/bench.ts';
import type { Snag } from '#snags';

interface Opened {
  readonly equation: string;
  readonly inputs: readonly (readonly [name: string, value: string])[];
  readonly range: string;
}

const mm = (value: number): string => `${formatNumber(value, 1)} mm`;

/** A gap: what it is made of. Which gap of a part is meant is told by its number. */
function openedGap(car: Car, snag: Snag, gap: WayGap): Opened {
  const isBeyond =
    gap.beyond !== undefined &&
    snag.value !== undefined &&
    Math.min(Math.abs(gap.beyond.gapMm - snag.value), Math.abs(gap.beyond.worstMm - snag.value)) < 0.1;
  const { gapMm, worstMm, keepOffMm } = isBeyond ? gap.beyond! : gap;
  const part = partOf(car, gap.part);
  return {
    equation:
      'worst = nominal - (how well both are known + what moves between them + how far the hose hangs either way)',
    inputs: [
      ['nominal, surface to surface', mm(gapMm)],
      ['worst', mm(worstMm)],
      ['taken off in all', mm(gapMm - worstMm)],
      ...(part === undefined
        ? []
        : [[`${part.name ?? part.id} known to`, `±${mm(partTolerance(part).knownToMm)}`] as const]),
      ...(part?.movesWith === undefined ? [] : [[`${part.name ?? part.id} moves with`, part.movesWith] as const]),
      ['wants', mm(keepOffMm)],
    ],
    range:
      'gaps are proved to 0.1 mm on the shapes as they stand in the car; the shapes are as good as they were measured',
  };
}

function openedBend(way: Way): Opened {
  return {
    equation: 'tightest radius of the centreline as the hose hangs, against the least one the hose allows',
    inputs: way.pieces.flatMap((piece, i) => [
      [`piece ${i + 1}, ${piece.hose ?? 'tube'}: does`, mm(piece.tightestBendMm)] as const,
      [`piece ${i + 1}: may`, mm(piece.minBendRadiusMm)] as const,
    ]),
    range: 'as hung, without pressure; a hose under pressure straightens a little',
  };
}

function opened(car: Car, snag: Snag, way: Way | null): Opened | null {
  if (way === null) return null;
  const gap = snag.part === undefined ? undefined : way.gaps.find((row) => row.part === snag.part);
  if (gap !== undefined && snag.unit === 'mm') return openedGap(car, snag, gap);
  return snag.id.includes('-bend') ? openedBend(way) : null;
}

/** The number opened up: its equation, what went in, how far it holds, where the limit comes from. */
export function OpenedNumber({ snag }: { readonly snag: Snag }): ReactNode {
  const car = useCar();
  const judged = useStanding();
  if (car === null) return null;
  const number = opened(car, snag, snag.line === undefined ? null : wayOf(judged, snag.line));
  if (number === null) return null;
  return (
    <details className="opened">
      <summary>Open the number</summary>
      <p>{number.equation}</p>
      <table className="sheet">
        <tbody>
          {number.inputs.map(([name, value]) => (
            <tr key={name}>
              <td>{name}</td>
              <td className="num">{value}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="small">{`Holds: ${number.range}.`}</p>
      <p className="small">{`Limit from: ${snag.source}.`}</p>
    </details>
  );
}
