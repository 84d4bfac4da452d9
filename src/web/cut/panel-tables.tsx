import type { ReactNode } from 'react';
import { type Panel, panelCornerIds } from '#car';
import type { LaidCorner, PanelLayout, PlacedHole } from '#panels';
import { formatNumber, mmPerInch } from '#units';
import { open } from '../bench/place.ts';
import { Key } from '../frame/key.tsx';
import { counted } from '../snags/counted.ts';
import { useCutWords } from './cut-words.ts';
import { areaWords, lengthWords, sizeWords } from './panel-numbers.ts';

interface Wish {
  readonly panel: Panel;
  readonly pieces: readonly PanelLayout[];
  readonly isInch: boolean;
}

const number = (mm: number, isInch: boolean): string =>
  (isInch ? formatNumber(mm / mmPerInch, 2) : formatNumber(mm, mm % 1 === 0 ? 0 : 1)).replace('-', '−');

/** Corners and tapes as read, against the sheet as it is laid out, and against the mirror. */
export function AsMeasured({ panel, pieces, isInch }: Wish): ReactNode {
  const corners = [...new Map(pieces.flatMap((piece) => piece.corners).map((corner) => [corner.id, corner])).values()];
  const unit = isInch ? 'in' : 'mm';
  const [first] = pieces;
  return (
    <section className="cut-section" aria-label="As measured">
      <h2>As measured</h2>
      {corners.length === 0 ? null : (
        <div className="cut-wide">
          <table className="sheet" aria-label="Corners">
            <thead>
              <tr>
                <th />
                <th className="num">{`rear ${unit}`}</th>
                <th className="num">{`right ${unit}`}</th>
                <th className="num">{`up ${unit}`}</th>
                <th className="num">known ±</th>
                <th className="num">off the sheet</th>
              </tr>
            </thead>
            <tbody>
              {corners.map((corner) => (
                <CornerRow key={corner.id} corner={corner} isInch={isInch} />
              ))}
            </tbody>
          </table>
        </div>
      )}
      {first === undefined || first.tapes.length === 0 ? null : <Tapes layout={first} isInch={isInch} />}
      <div className="keys no-print">
        {panel.template === undefined ? (
          <Key onClick={() => open({ kind: 'cut', id: `corners/${panel.id}` })}>Change corners, sheet, tapes</Key>
        ) : (
          <Key onClick={() => open({ kind: 'cut', id: `template/${panel.id}` })}>Change outline, sheet, place</Key>
        )}
      </div>
    </section>
  );
}

function CornerRow({ corner, isInch }: { readonly corner: LaidCorner; readonly isInch: boolean }): ReactNode {
  const { id, measured, at, knownToMm, outMm } = corner;
  return (
    <tr>
      <td>
        <strong>{id}</strong>
        {measured === undefined ? <span className="small soft"> by tapes</span> : null}
      </td>
      {(measured ?? at).map((mm, i) => (
        // Rearward, right, up: the place in the row is the name.
        <td className="num" key={`${i} ${mm}`}>
          {number(mm, isInch)}
        </td>
      ))}
      <td className="num">{lengthWords(knownToMm, isInch)}</td>
      <td className="num">{lengthWords(Math.abs(outMm), isInch)}</td>
    </tr>
  );
}

function Tapes({ layout, isInch }: { readonly layout: PanelLayout; readonly isInch: boolean }): ReactNode {
  return (
    <table className="sheet" aria-label="Tapes">
      <thead>
        <tr>
          <th>tape</th>
          <th className="num">read</th>
          <th className="num">longer than all readings together have it</th>
        </tr>
      </thead>
      <tbody>
        {layout.tapes.map(({ from, to, readMm, residualMm, oddness }) => (
          <tr key={`${from} ${to}`}>
            <td>{`${from} to ${to}`}</td>
            <td className="num">{lengthWords(readMm, isInch)}</td>
            <td className="num">
              {`${lengthWords(residualMm, isInch).replace('-', '−')}${oddness > ODD ? ' ▲ odd one out' : ''}`}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** As `TapeCheck` has it: above this a reading stands out from the others. */
const ODD = 2;

/** Every edge in the order of the corners, with what is done to it. */
export function Edges({ panel, pieces, isInch }: Wish): ReactNode {
  const corners = panelCornerIds(panel);
  const laid = pieces.flatMap(({ edges }) => edges);
  return (
    <section className="cut-section" aria-label="Edges">
      <h2>Edges</h2>
      <ul>
        {corners.map((id, i) => {
          const to = corners[(i + 1) % corners.length]!;
          const isThis = (edge: { readonly from: string; readonly to: string }): boolean =>
            [edge.from, edge.to].every((end) => end === id || end === to);
          const edge = laid.find(isThis);
          const long = edge?.lengthMm;
          const own = panel.edges?.find(isThis);
          // A mirror has what its master has, where it says nothing itself.
          const spec = edge?.spec ?? own;
          return (
            <li className="cut-thing" key={id}>
              <span>
                <strong>{`${id}-${to}`}</strong>
                {long === undefined ? '' : ` ${lengthWords(long, isInch)}`}
                <span className="small soft cut-below">
                  {spec === undefined ? 'left as cut' : edgeWords(spec, isInch)}
                  {panel.mirrorOf === undefined || own !== undefined || spec === undefined
                    ? ''
                    : `; from ${panel.mirrorOf.panel}`}
                  {fixingWords(pieces, edge?.id, isInch)}
                </span>
              </span>
              <span className="cut-two">
                <Key
                  weight="bare"
                  aria-label={`Change edge ${id}-${to}`}
                  onClick={() => open({ kind: 'cut', id: `edge/${panel.id}/${id} ${to}` })}
                >
                  Change
                </Key>
                <Key
                  weight="bare"
                  aria-label={`Curve of edge ${id}-${to}`}
                  onClick={() => open({ kind: 'cut', id: `curve/${panel.id}/${id} ${to}` })}
                >
                  Curve
                </Key>
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

/** "; 7 fixings 148 mm apart at most, 2 slotted": what is laid into the flat. */
function fixingWords(pieces: readonly PanelLayout[], edge: string | undefined, isInch: boolean): string {
  const on = pieces.flatMap(({ fixings }) => fixings.filter((one) => one.edge === edge));
  if (on.length === 0) return '';
  const steps = on.slice(1).map(({ at: [x, y] }, i) => Math.hypot(x - on[i]!.at[0], y - on[i]!.at[1]));
  const apart = steps.length === 0 ? '' : `, ${lengthWords(Math.max(...steps), isInch)} apart at most`;
  const slotted = on.filter(({ slotMm }) => slotMm !== undefined).length;
  return `; ${counted(on.length, 'fixing')}${apart}${slotted === 0 ? '' : `, ${slotted} slotted`}`;
}

/** "flange 20 mm, 90° to the inside; rivnut M5 every 100 mm; sealed". */
export function edgeWords(edge: NonNullable<Panel['edges']>[number], isInch: boolean): string {
  const { flange, joggle, tabs, fixing, overlapMm, joins, sealed, throughMm, note } = edge;
  const mm = (value: number): string => lengthWords(value, isInch);
  const words = [
    ...(flange === undefined ? [] : [`flange ${mm(flange.heightMm)}, ${flange.turnDeg}° to the ${flange.towards}`]),
    ...(joggle === undefined
      ? []
      : [`joggle ${mm(joggle.stepMm)} to the ${joggle.towards}, land ${mm(joggle.landMm)}`]),
    ...(tabs === undefined ? [] : [`${tabs.count} tabs ${mm(tabs.widthMm)} wide, ${mm(tabs.heightMm)} high`]),
    ...(fixing === undefined
      ? []
      : [
          `${fixing.kind}${fixing.size === undefined ? '' : ` ${fixing.size}`}${fixing.pitchMm === undefined ? '' : ` every ${mm(fixing.pitchMm)}`}${fixing.into === undefined ? '' : ` into ${fixing.into}`}`,
        ]),
    ...(overlapMm === undefined ? [] : [`laps ${mm(overlapMm)}`]),
    ...(joins === undefined ? [] : [`meets ${joins}`]),
    ...(throughMm === undefined ? [] : ['curved, as measured']),
    ...(sealed === true ? ['sealed'] : []),
    ...(note === undefined ? [] : [note]),
  ];
  return words.length === 0 ? 'left as cut' : words.join('; ');
}

export function Windows({ panel, pieces, isInch }: Wish): ReactNode {
  const words = useCutWords();
  const fields = pieces.flatMap(({ windows }) => windows);
  // A mirror has its master's windows, where it says none itself.
  const master = panel.windows === undefined ? panel.mirrorOf?.panel : undefined;
  const windows = panel.windows ?? (master === undefined ? [] : (pieces[0]?.panel.windows ?? []));
  return (
    <section className="cut-section" aria-label="Windows">
      <h2>Windows</h2>
      {windows.length === 0 ? <p className="soft">None.</p> : null}
      <ul>
        {windows.map((window) => {
          const field = fields.find(({ id }) => id === window.id);
          return (
            <li className="cut-thing" key={window.id}>
              <span>
                <strong>{window.id}</strong>
                {` ${window.name ?? ''} ${window.count ?? ''} ${window.shape}${window.sizeMm === undefined ? '' : `, ${sizeWords(window.sizeMm, isInch)}`}`}
                <span className="small soft cut-below">
                  {field === undefined ? 'not laid into the flat: see what is open' : words(fieldWords(field, isInch))}
                </span>
              </span>
              {master === undefined ? (
                <Key
                  weight="bare"
                  aria-label={`Change window ${window.id}`}
                  onClick={() => open({ kind: 'cut', id: `window/${panel.id}/${window.id}` })}
                >
                  Change
                </Key>
              ) : (
                <Key weight="bare" onClick={() => open({ kind: 'cut', id: `panel/${master}` })}>{`From ${master}`}</Key>
              )}
            </li>
          );
        })}
      </ul>
      <div className="keys no-print">
        <Key onClick={() => open({ kind: 'cut', id: `window/${panel.id}/` })}>Put a window in</Key>
      </div>
    </section>
  );
}

type Field = PanelLayout['windows'][number];

/** "453 cm² free, mesh counted · webs 12 mm · 24 mm to what is nearest · drill 24 mm"; of mesh only where there is some. */
export const fieldWords = ({ openMm2, freeMm2, webMm, edgeMm, drillMm, notes }: Field, isInch: boolean): string =>
  [
    `${areaWords(freeMm2, isInch)} free${freeMm2 < openMm2 ? ', mesh counted' : ''}`,
    ...(webMm === undefined ? [] : [`webs ${lengthWords(webMm, isInch)}`]),
    `${lengthWords(edgeMm, isInch)} to what is nearest`,
    `drill ${lengthWords(drillMm, isInch)}`,
    ...notes,
  ].join(' · ');

/** Holes that the builder said, and those that lines and hot pipes on their ways make. */
export function Holes({ panel, pieces, isInch }: Wish): ReactNode {
  const own = new Set((panel.holes ?? []).map(({ id }) => id));
  const all = pieces.flatMap(({ holes }) => holes);
  return (
    <section className="cut-section" aria-label="Holes">
      <h2>Holes, and what goes through</h2>
      {all.length === 0 ? <p className="soft">Nothing goes through it on the ways that are taken.</p> : null}
      <ul>
        {all.map((hole) => (
          <li className="cut-thing" key={`${hole.id} ${hole.at.join(' ')}`}>
            <span>
              <strong>{hole.for === '' ? hole.id : hole.for}</strong>
              {` ${holeSize(hole, isInch)}`}
              <span className="small soft cut-below">{holePlace(hole, isInch)}</span>
            </span>
            {own.has(hole.id) ? (
              <Key
                weight="bare"
                aria-label={`Change hole ${hole.id}`}
                onClick={() => open({ kind: 'cut', id: `hole/${panel.id}/${hole.id}` })}
              >
                Change
              </Key>
            ) : hole.line === undefined ? null : (
              <Key weight="bare" onClick={() => open({ kind: 'line', id: hole.line! })}>{`Card of ${hole.line}`}</Key>
            )}
          </li>
        ))}
      </ul>
      <div className="keys no-print">
        <Key onClick={() => open({ kind: 'cut', id: `hole/${panel.id}/` })}>Put a hole in</Key>
      </div>
    </section>
  );
}

const holeSize = ({ sizeMm, diameterMm, longMm }: PlacedHole, isInch: boolean): string =>
  sizeMm !== undefined
    ? sizeWords(sizeMm, isInch)
    : longMm === undefined
      ? `Ø ${lengthWords(diameterMm, isInch)}`
      : `slot ${lengthWords(diameterMm, isInch)} × ${lengthWords(longMm, isInch)}`;

const holePlace = ({ at, seal, fitted }: PlacedHole, isInch: boolean): string =>
  [
    `along ${lengthWords(at[0], isInch)}, in ${lengthWords(at[1], isInch)}`,
    ...(seal === undefined ? (fitted === undefined ? [] : [fitted]) : [seal]),
  ].join(' · ');
