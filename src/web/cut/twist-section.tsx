import type { ReactNode } from 'react';
import type { Panel } from '#car';
import type { PanelLayout } from '#panels';
import { formatNumber } from '#units';
import { open } from '../bench/place.ts';
import { Key } from '../frame/key.tsx';
import { acrossOf } from './crease-pairs.ts';
import { lengthWords } from './panel-numbers.ts';

interface Wish {
  readonly panel: Panel;
  readonly pieces: readonly PanelLayout[];
  readonly isInch: boolean;
}

type Crease = NonNullable<Panel['creases']>[number];

const isOf =
  (from: string, to: string) =>
  (crease: Crease): boolean =>
    [crease.from, crease.to].every((end) => end === from || end === to);

/** How far its corners are from one plane, and the creases, splits and reliefs that take that up. */
export function Twist({ panel, pieces, isInch }: Wish): ReactNode {
  const pairs = acrossOf(panel);
  const [first] = pieces;
  const { surface } = first ?? {};
  if (pairs.length === 0 || surface === undefined) return null;
  const { creases = [] } = panel;
  const own = creases.length === 0 ? `off by ${lengthWords(surface.outMm, isInch)} at ${surface.outAt}` : null;
  const lift =
    surface.liftMm === undefined || creases.length > 0
      ? ''
      : `; laid on a bench its fourth corner stands up ${lengthWords(surface.liftMm, isInch)}`;
  return (
    <section className="cut-section" aria-label="Twist">
      <h2>Twist</h2>
      {own === null ? null : <p>{`Its corners are ${own} from the plane nearest to all${lift}.`}</p>}
      <ul>
        {creases.map((crease) => (
          <li className="cut-thing" key={`${crease.from} ${crease.to}`}>
            <span>
              <strong>{`${crease.from}-${crease.to}`}</strong>
              {crease.kind === 'split'
                ? ` split, lapping ${lengthWords(crease.overlapMm ?? 20, isInch)}`
                : ` ${crease.kind === 'relief' ? `slit from ${crease.from}` : 'creased'}${turnWords(pieces, crease)}`}
            </span>
            <Change panel={panel} crease={crease} />
          </li>
        ))}
      </ul>
      <div className="keys no-print">
        {pairs
          .filter(([from, to]) => !creases.some(isOf(from, to)))
          .map(([from, to]) => (
            <Key
              key={`${from} ${to}`}
              onClick={() => open({ kind: 'cut', id: `crease/${panel.id}/${from} ${to}` })}
            >{`Crease, split or slit ${from}-${to}`}</Key>
          ))}
      </div>
    </section>
  );
}

function Change({ panel, crease: { from, to } }: { readonly panel: Panel; readonly crease: Crease }): ReactNode {
  return (
    <Key
      weight="bare"
      aria-label={`Change crease ${from}-${to}`}
      onClick={() => open({ kind: 'cut', id: `crease/${panel.id}/${from} ${to}` })}
    >
      Change
    </Key>
  );
}

/** ", bent 4.8° up", as far as it is laid out. */
function turnWords(pieces: readonly PanelLayout[], { from, to }: Crease): string {
  for (const { creases, corners, facets } of pieces) {
    const ids = corners.map(({ id }) => id);
    if (facets.length < 2 || !ids.includes(from) || !ids.includes(to)) continue;
    const [bend] = creases;
    if (creases.length === 1 && bend !== undefined) return `, bent ${formatNumber(bend.turnDeg, 1)}° ${bend.way}`;
  }
  return '';
}
