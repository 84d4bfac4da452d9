import { type ReactNode, useEffect } from 'react';
import type { Panel } from '#car';
import type { PieceStrength } from '#crew';
import type { PanelStrength } from '#panels';
import { formatNumber, mmPerInch } from '#units';
import { kept } from '../bench/bench.ts';
import { useWork } from '../bench/job.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { FoundInFlat } from './found-in-flat.tsx';

/** What a panel's load does to it: worked out on the server as soon as the panel is open, since it takes a second or two. */
export function Strength({ panel, isInch }: { readonly panel: Panel; readonly isInch: boolean }): ReactNode {
  const { id = '', revision = 0 } = useSignal(kept) ?? {};
  const work = useWork<readonly PieceStrength[]>();
  const { begin, clear } = work;
  const load = JSON.stringify(panel.load ?? {});
  const isAsked = load !== '{}';
  useEffect(() => {
    if (isAsked) begin(id, { kind: 'strength', panel: panel.id });
    else clear();
  }, [id, revision, isAsked, load, panel.id, begin, clear]);
  const { job } = work;
  return (
    <section className="cut-section" aria-label="Strength">
      <h2>Strong enough?</h2>
      {isAsked ? (
        <p>{loadWords(panel.load!, isInch)}</p>
      ) : (
        <p className="soft">Nothing is said of what it must stand.</p>
      )}
      {isAsked && work.isBusy ? <p role="status">Its strength is being worked out</p> : null}
      {isAsked && job?.state === 'fault' ? <p className="warn">{`▲ ${job.text ?? 'not worked out'}`}</p> : null}
      {isAsked && job?.state === 'done'
        ? job.answer?.map((piece) => <OfPiece key={piece.piece ?? 0} piece={piece} isInch={isInch} />)
        : null}
      <div className="keys no-print">
        <Key onClick={() => open({ kind: 'cut', id: `load/${panel.id}` })}>
          {isAsked ? 'Change what it must stand' : 'Say what it must stand'}
        </Key>
      </div>
    </section>
  );
}

type Load = NonNullable<Panel['load']>;

const psiOf = (mpa: number): number => mpa * 145.037738;
const POUNDS_PER_INCH = 5.710147;
const KG_PER_LB = 0.45359237;

/** "Simply held; 2.5 kPa across it; shaken by 8 g at 60 Hz". */
function loadWords({ held, pressureKpa, shakeG, shakeHz, shearNPerMm, pressNPerMm }: Load, isInch: boolean): string {
  const along = (n: number): string =>
    isInch ? `${formatNumber(n * POUNDS_PER_INCH, 1)} lb/in` : `${formatNumber(n, 1)} N/mm`;
  return [
    held === undefined
      ? 'How its edges are held is not said: simply held is taken'
      : held === 'simply'
        ? 'Simply held'
        : 'Clamped all round',
    ...(pressureKpa === undefined
      ? []
      : [
          isInch
            ? `${formatNumber(psiOf(pressureKpa / 1000), 2)} psi across it`
            : `${formatNumber(pressureKpa, 2)} kPa across it`,
        ]),
    ...(shakeG === undefined ? [] : [`shaken by ${formatNumber(shakeG, 1)} g`]),
    ...(shakeHz === undefined ? [] : [`shaken at ${formatNumber(shakeHz)} Hz`]),
    ...(shearNPerMm === undefined ? [] : [`shear ${along(shearNPerMm)}`]),
    ...(pressNPerMm === undefined ? [] : [`pressed by ${along(pressNPerMm)}`]),
  ].join('; ');
}

function OfPiece({ piece, isInch }: { readonly piece: PieceStrength; readonly isInch: boolean }): ReactNode {
  const { strength, massSavedKg, findings } = piece;
  const grave = findings.filter(({ level }) => level !== 'note');
  return (
    <>
      {piece.piece === undefined ? null : <h3>{`Piece ${piece.piece}`}</h3>}
      {strength === undefined ? null : <Numbers strength={strength} savedKg={massSavedKg} isInch={isInch} />}
      {strength !== undefined && grave.length === 0 ? (
        <p>Nothing to stop or fix under this load, as far as the model goes.</p>
      ) : null}
      <FoundInFlat findings={findings} />
      {grave.length === 0 ? null : <Cures findings={grave} />}
    </>
  );
}

function Cures({ findings }: { readonly findings: PieceStrength['findings'] }): ReactNode {
  const cures = [...new Set(findings.flatMap((finding) => finding.cures))];
  return cures.length === 0 ? null : (
    <ul className="cures" aria-label="What would cure it">
      {cures.map((cure) => (
        <li key={cure}>{cure}</li>
      ))}
    </ul>
  );
}

type Row = readonly [name: string, value: string, off: string];

interface NumbersWish {
  readonly strength: PanelStrength;
  readonly savedKg: number | undefined;
  readonly isInch: boolean;
}

function Numbers({ strength, savedKg, isInch }: NumbersWish): ReactNode {
  const { frequencyHz, deflectionMm, stressMpa, planeMpa, bucklingFactor, limits } = strength;
  const row = (
    name: string,
    of: PanelStrength['deflectionMm'],
    unit: string,
    times: number,
    decimals: number,
  ): readonly Row[] =>
    of === undefined
      ? []
      : [[name, `${formatNumber(of.value * times, decimals)} ${unit}`, `± ${formatNumber(of.off * times, decimals)}`]];
  const rows: readonly Row[] = [
    ...row('Own frequency', frequencyHz, 'Hz', 1, 1),
    ...(isInch
      ? row('Gives in the middle', deflectionMm, 'in', 1 / mmPerInch, 3)
      : row('Gives in the middle', deflectionMm, 'mm', 1, 2)),
    ...(isInch ? row('Bending stress', stressMpa, 'psi', psiOf(1), 0) : row('Bending stress', stressMpa, 'MPa', 1, 1)),
    ...(isInch
      ? row('Stress in its plane', planeMpa, 'psi', psiOf(1), 0)
      : row('Stress in its plane', planeMpa, 'MPa', 1, 1)),
    ...row('Buckles at', bucklingFactor, 'times the load', 1, 2),
    ...(savedKg === undefined
      ? []
      : [
          [
            'Its openings save',
            isInch ? `${formatNumber(savedKg / KG_PER_LB, 2)} lb` : `${formatNumber(1000 * savedKg)} g`,
            '',
          ] as const,
        ]),
  ];
  return (
    <>
      <table className="sheet" aria-label="Under its load">
        <thead>
          <tr>
            <th>under its load</th>
            <th className="num">worked out</th>
            <th className="num">by the mesh</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([name, value, off]) => (
            <tr key={name}>
              <td>{name}</td>
              <td className="num">{value}</td>
              <td className="num">{off}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {limits.length === 0 ? null : (
        <p className="small soft">{`Where the model ends: ${limits.join('; ')}. What can hurt someone when it breaks is for a qualified person and the event’s rules.`}</p>
      )}
    </>
  );
}
