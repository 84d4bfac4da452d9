import { type ReactNode, useMemo } from 'react';
import type { LeverCable } from '#car';
import { leverPicture, leverRatioChart } from '#book';
import { type CableAnswer, leverAnswer, type LeverOutput } from '#levers';
import { formatNumber, psiFromBar } from '#units';
import { useCar, useStanding } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Picture } from '../book/picture.tsx';
import { UnitChoice } from '../flow/unit-choice.tsx';
import { Cautions } from '../frame/cautions.tsx';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { tapeUnit } from '../tape/tape-unit.ts';
import { Bracket } from './bracket-section.tsx';
import { useCarCut } from './car-cut.ts';
import { CutSnags } from './cut-snags.tsx';
import { cutUnits } from './cut-words.ts';
import { Hangs } from './lever-hangs.tsx';
import { forceWords, lengthWords } from './panel-numbers.ts';

const sheet = { unit: 'px', width: 460, size: 15 } as const;

/** One lever or pedal: how far, how hard, against how it was, what is open. */
export function LeverPaper({ id }: { readonly id: string }): ReactNode {
  const car = useCar()!;
  const lever = car.levers?.find((one) => one.id === id);
  const { cut, isOld } = useCarCut();
  const isInch = useSignal(tapeUnit) === 'in';
  const units = isInch ? 'inch' : 'metric';
  const judged = useStanding();
  // By itself at once; what it comes near to stands among what is open.
  const alone = useMemo(() => (lever === undefined ? undefined : leverAnswer(car, lever)), [car, lever]);
  const answer = isOld ? alone : (cut?.levers.find((row) => row.lever === id) ?? alone);
  if (lever === undefined)
    return (
      <article className="paper">
        <PaperHead>{`There is no lever ${id}`}</PaperHead>
        <div className="keys">
          <Key onClick={() => open({ kind: 'cut', id: 'all' })}>All panels and levers</Key>
        </div>
      </article>
    );
  return (
    <article className="paper">
      <PaperHead below={lever.note}>
        {lever.id}
        <span className="cut-title">{lever.name ?? ''}</span>
      </PaperHead>
      {answer === undefined ? null : (
        <>
          <Picture drawing={leverPicture(lever, answer, units, sheet)} />
          {answer.outputs.map((output) => (
            <section className="cut-section" key={output.id} aria-label={`To ${output.to}`}>
              <h2>{`To ${output.to}`}</h2>
              <OutputNumbers output={output} isInch={isInch} />
              {output.curve.length > 1 ? <Picture drawing={leverRatioChart(output, units, sheet)} /> : null}
            </section>
          ))}
        </>
      )}
      {answer === undefined ? null : (
        <Cables lever={id} cables={lever.cables ?? []} answers={answer.outputs} isInch={isInch} />
      )}
      {answer === undefined || answer.bracket === null ? null : <Bracket of={answer.bracket} isInch={isInch} />}
      <Hangs lever={lever} isInch={isInch} />
      <CutSnags snags={judged?.snags.filter((snag) => snag.lever === id)} />
      {answer === undefined || answer.cautions.length === 0 ? null : <Cautions words={answer.cautions} />}
      <UnitChoice words={cutUnits} />
      <div className="keys no-print">
        <Key onClick={() => open({ kind: 'cut', id: `set/${lever.id}` })}>Move pivot, handle, arms</Key>
        <Key onClick={() => open({ kind: 'cut', id: 'all' })}>All panels and levers</Key>
      </div>
    </article>
  );
}

interface CablesWish {
  readonly lever: string;
  readonly cables: readonly LeverCable[];
  readonly answers: readonly LeverOutput[];
  readonly isInch: boolean;
}

/** Its cables: how far they bend and what that leaves of the force. */
function Cables({ lever, cables, answers, isInch }: CablesWish): ReactNode {
  if (cables.length === 0) return null;
  const found = answers.flatMap((output) => output.cables);
  return (
    <section className="cut-section" aria-label="Cables">
      <h2>Cables</h2>
      <ul>
        {cables.map(({ id, name }) => {
          const cable = found.find((one) => one.cable === id);
          return (
            <li className="cut-thing" key={id}>
              <span>
                <strong>{id}</strong>
                {` ${name ?? ''}`}
                <span className="small soft cut-below">{cable === undefined ? '' : cableWords(cable, isInch)}</span>
              </span>
              <Key
                weight="bare"
                aria-label={`Its way, ${id}`}
                onClick={() => open({ kind: 'cut', id: `cable/${lever}/${id}` })}
              >
                Its way
              </Key>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

/** "bends 411° in all, room for R 166 mm at the tightest; 48 % of the force gets through; 2913 mm long". */
const cableWords = ({ bendDeg, largestRadiusMm, passesShare, lengthMm }: CableAnswer, isInch: boolean): string =>
  [
    `bends ${formatNumber(bendDeg)}° in all${largestRadiusMm === null ? '' : `, room for R ${lengthWords(largestRadiusMm, isInch)} at the tightest`}`,
    `${formatNumber(passesShare * 100)} % of the force gets through`,
    `${lengthWords(lengthMm, isInch)} long`,
  ].join('; ');

type Row = readonly [name: string, value: string];
type Cylinder = NonNullable<LeverOutput['cylinder']>;

const ratio = (value: number | null): string => (value === null ? 'dead centre' : `${formatNumber(value, 2)} : 1`);

function OutputNumbers({ output, isInch }: { readonly output: LeverOutput; readonly isInch: boolean }): ReactNode {
  const { lowRatio, restRatio, highRatio, handleMm, outputMm, effort, passesShare, cylinder } = output;
  const span = ([low, high]: readonly [number, number]): string => lengthWords(Math.abs(high - low), isInch);
  const rows: readonly (readonly [string, string])[] = [
    ['Ratio as drawn', ratio(restRatio)],
    ['At the low end', ratio(lowRatio)],
    ['At the high end', ratio(highRatio)],
    ['Handle, end to end', span(handleMm)],
    ['Output, end to end', span(outputMm)],
    ...effort.map(
      ({ handN, outputN }) => [`${forceWords(handN, isInch)} at the handle`, forceWords(outputN, isInch)] as const,
    ),
    ...(passesShare === null ? [] : [['Gets through', `${formatNumber(passesShare * 100)} %`] as const]),
    ...(cylinder === null ? [] : cylinderRows(cylinder, isInch)),
  ];
  return (
    <table className="sheet" aria-label={`Numbers to ${output.to}`}>
      <tbody>
        {rows.map(([name, value]) => (
          <tr key={name}>
            <td>{name}</td>
            <td className="num">{value}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function cylinderRows({ swingStrokeMm, usedHandleMm, bores }: Cylinder, isInch: boolean): readonly Row[] {
  return [
    ['Rod pushed in, over the swing', lengthWords(swingStrokeMm, isInch)],
    ...(usedHandleMm === null ? [] : [['Handle till pressure stands', lengthWords(usedHandleMm, isInch)] as const]),
    ...bores.map(({ boreMm, pressureBar }) => {
      const words = pressureBar.map((bar) =>
        isInch ? `${formatNumber(psiFromBar(bar))} psi` : `${formatNumber(bar)} bar`,
      );
      return [`Pressure, bore ${lengthWords(boreMm, isInch)}`, `${words[1]!} (${words[0]!} to ${words[2]!})`] as const;
    }),
  ];
}
