import type { ReactNode } from 'react';
import type { Panel } from '#car';
import type { MirrorCorner, PanelLayout } from '#panels';
import { Picture } from '../book/picture.tsx';
import { lengthWords } from './panel-numbers.ts';
import { mirrorDrawing } from './mirror-drawing.ts';

interface Wish {
  readonly panel: Panel;
  readonly pieces: readonly PanelLayout[];
  readonly isInch: boolean;
}

const ways = [
  ['forward', 'rearward'],
  ['left', 'right'],
  ['down', 'up'],
] as const;
/** Less than this either way is not said [mm]. */
const LEAST_MM = 0.5;

/** "4 mm right, 4 mm up". */
function offWords({ off }: MirrorCorner, isInch: boolean): string {
  const words = off.flatMap((mm, i) =>
    Math.abs(mm) < LEAST_MM ? [] : [`${lengthWords(Math.abs(mm), isInch)} ${ways[i]![mm < 0 ? 0 : 1]}`],
  );
  return words.length === 0 ? 'nothing to speak of' : words.join(', ');
}

/** A panel against the mirror of its master: drawn, and corner by corner. */
export function Mirror({ panel, pieces, isInch }: Wish): ReactNode {
  const [first] = pieces;
  const mirror = first?.mirror;
  if (first === undefined || mirror === undefined) return null;
  const made = pieces.length === 1 ? mirrorDrawing(first, isInch) : undefined;
  const own = [
    ...(panel.edges === undefined ? [] : ['edges']),
    ...(panel.windows === undefined ? [] : ['windows']),
    ...(panel.holes === undefined ? [] : ['holes']),
    ...(panel.creases === undefined ? [] : ['creases']),
  ];
  return (
    <section className="cut-section" aria-label="Against its master">
      <h2>{`Against the mirror of ${mirror.master}`}</h2>
      {made === undefined ? null : (
        <figure className="cut-figure">
          <div className="cut-flat">
            <Picture drawing={made.drawing} />
          </div>
          <figcaption className="small soft">
            {`Full line: as measured here. Dashed: ${mirror.master} mirrored${made.times === 1 ? '' : `, what parts them drawn ${made.times} times as far`}.`}
          </figcaption>
        </figure>
      )}
      <table className="sheet" aria-label="Against the mirror">
        <thead>
          <tr>
            <th>corner</th>
            <th>stands off by</th>
            <th className="num">both known to ±</th>
            <th className="num">left, laid on as well as can be</th>
          </tr>
        </thead>
        <tbody>
          {mirror.corners.map((corner) => (
            <tr key={corner.id}>
              <td>{`${corner.offMm > corner.toleranceMm ? '▲ ' : ''}${corner.id}`}</td>
              <td>{offWords(corner, isInch)}</td>
              <td className="num">{lengthWords(corner.toleranceMm, isInch)}</td>
              <td className="num">{lengthWords(corner.leftMm, isInch)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="small soft">
        {`Its corners are its own; edges, windows, holes and creases are those of ${mirror.master}${own.length === 0 ? '' : `, but for its own ${own.join(', ')}`}. Each is cut from its own drawing.`}
      </p>
    </section>
  );
}
