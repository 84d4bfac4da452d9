import { type ReactNode, useDeferredValue, useMemo, useState } from 'react';
import type { Car, Lever } from '#car';
import { type LeverAnswer, leverAnswer } from '#levers';
import { formatNumber } from '#units';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { LevelMark } from '../snags/level-mark.tsx';
import { Check } from '../tape/check.tsx';
import { useMarks } from '../tape/drafts.ts';
import { Form } from '../tape/form.tsx';
import { TakeOut } from '../tape/take-out.tsx';
import { tapeUnit } from '../tape/tape-unit.ts';
import { type LeverDraft, leverDraft, leverEdits, leverFrom } from './lever-draft.ts';
import { Places } from './lever-places.tsx';
import { useCutWords } from './cut-words.ts';
import { forceWords, lengthWords } from './panel-numbers.ts';

/** A lever's pivot, handle and arms by numbers; what that does to ratio and effort stands below before it is kept. */
export function LeverForm({ id }: { readonly id: string }): ReactNode {
  const car = useCar()!;
  const lever = car.levers?.find((one) => one.id === id);
  if (lever === undefined) return <p className="paper">{`There is no lever ${id} any more.`}</p>;
  return <Shown car={car} lever={lever} />;
}

function Shown({ car, lever }: { readonly car: Car; readonly lever: Lever }): ReactNode {
  const unit = useSignal(tapeUnit);
  const [draft, setDraft] = useState<LeverDraft>(() => leverDraft(lever));
  const made = leverFrom(lever, draft, unit);
  const back = (): void => open({ kind: 'cut', id: `lever/${lever.id}` });
  useMarks(
    made.ok
      ? [
          { label: 'pivot', atMm: made.value.pivotMm, faces: null },
          ...(made.value.handle === undefined ? [] : [{ label: 'handle', atMm: made.value.handle.atMm, faces: null }]),
          ...made.value.arms.map(({ id, atMm }) => ({ label: id, atMm, faces: null })),
        ]
      : [],
  );
  return (
    <Form
      title={`Move ${lever.id}`}
      below="Where it turns, is held and pulls, from the car’s datum. Its rods, cables and drawn pieces stay where they are."
      keepWords="Keep it"
      made={
        made.ok
          ? {
              ok: true,
              value: { edits: leverEdits(lever, made.value, draft.keepsWas), done: `${lever.name ?? lever.id} moved` },
            }
          : made
      }
      onKept={back}
      onLeave={back}
      others={
        <TakeOut
          edits={[{ do: 'remove-lever', lever: lever.id }]}
          done={`${lever.name ?? lever.id} taken out`}
          onGone={() => open({ kind: 'cut', id: 'all' })}
        />
      }
    >
      {(isAsked) => (
        <>
          <Places lever={lever} draft={draft} isAsked={isAsked} onDraft={setDraft} />
          <Check
            label="Keep how it was beside it"
            checked={draft.keepsWas}
            onCheck={(keepsWas) => setDraft({ ...draft, keepsWas })}
          />
          <BeforeAfter car={car} was={lever} now={made.ok ? made.value : null} />
        </>
      )}
    </Form>
  );
}

interface BeforeWish {
  readonly car: Car;
  readonly was: Lever;
  readonly now: Lever | null;
}

function answerOf(car: Car, lever: Lever): LeverAnswer {
  const levers = (car.levers ?? []).map((one) => (one.id === lever.id ? lever : one));
  return leverAnswer({ ...car, levers }, lever);
}

/** Ratio, travel and effort as it stands and as it would be. */
export function BeforeAfter({ car, was, now }: BeforeWish): ReactNode {
  const isInch = useSignal(tapeUnit) === 'in';
  const words = useCutWords();
  const key = useDeferredValue(now === null ? '' : JSON.stringify(now));
  const before = useMemo(() => answerOf(car, was), [car, was]);
  const after = useMemo(() => (key === '' ? null : answerOf(car, JSON.parse(key) as Lever)), [car, key]);
  const [old, next] = [rowsOf(before, isInch), after === null ? [] : rowsOf(after, isInch)];
  const gone = after === null ? [] : after.findings.filter(({ level }) => level !== 'note');
  return (
    <section className="tape-section" aria-label="Before and after">
      <h2>What it does to it</h2>
      <table className="sheet" aria-label="Before and after">
        <thead>
          <tr>
            <th />
            <th className="num">as it is</th>
            <th className="num">as typed</th>
          </tr>
        </thead>
        <tbody>
          {old.map(([name, value]) => (
            <tr key={name}>
              <td>{name}</td>
              <td className="num">{value}</td>
              <td className="num">{next.find(([other]) => other === name)?.[1] ?? '?'}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {gone.map(({ code, link, text, level }) => (
        <p className="small" key={`${code} ${link ?? ''} ${text}`}>
          <LevelMark level={level} /> {words(text)}
        </p>
      ))}
    </section>
  );
}

const ratio = (value: number | null): string => (value === null ? 'dead centre' : `${formatNumber(value, 2)} : 1`);
const span = ([low, high]: readonly [number, number], isInch: boolean): string =>
  lengthWords(Math.abs(high - low), isInch);

function rowsOf({ handleMm, outputs }: LeverAnswer, isInch: boolean): readonly (readonly [string, string])[] {
  const cables = new Map(outputs.flatMap((output) => output.cables).map((one) => [one.cable, one]));
  return [
    ...(handleMm === null ? [] : [['Handle, end to end', span(handleMm, isInch)] as const]),
    ...outputs.flatMap(({ id, lowRatio, restRatio, highRatio, outputMm, effort }) => {
      const usual = effort[Math.floor(effort.length / 2)];
      return [
        [`${id}: ratio as drawn`, ratio(restRatio)],
        [`${id}: at both ends`, `${ratio(lowRatio)}, ${ratio(highRatio)}`],
        [`${id}: moves`, span(outputMm, isInch)],
        ...(usual === undefined
          ? []
          : [[`${id}: of ${forceWords(usual.handN, isInch)}`, forceWords(usual.outputN, isInch)]]),
      ] as [string, string][];
    }),
    ...[...cables.values()].flatMap(({ cable, bendDeg, largestRadiusMm, lengthMm, passesShare }) => [
      [`${cable}: bends in all`, `${formatNumber(bendDeg)}°`] as const,
      [
        `${cable}: tightest corner has room for`,
        largestRadiusMm === null ? 'no bend' : `R ${lengthWords(largestRadiusMm, isInch)}`,
      ] as const,
      [`${cable}: gets through`, `${formatNumber(passesShare * 100)} %`] as const,
      [`${cable}: length`, lengthWords(lengthMm, isInch)] as const,
    ]),
  ];
}
