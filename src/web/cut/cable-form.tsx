import { type ReactNode, useState } from 'react';
import type { Lever, LeverCable } from '#car';
import { formatNumber, type Parsed } from '#units';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { useMarks } from '../tape/drafts.ts';
import { Form } from '../tape/form.tsx';
import { ReadField } from '../tape/read-field.tsx';
import { tapeMm, type TapeUnit } from '../tape/tape-text.ts';
import { toldAs } from '../tape/told-as.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { cornerTurnsDeg } from './cable-turns.ts';
import { BeforeAfter } from './lever-form.tsx';
import { leverEdits } from './lever-draft.ts';
import { type Point, PointRows, pointsFrom, pointTexts } from './point-rows.tsx';
import { keptText } from '../tape/kept-text.ts';

const no = (fault: string): Parsed<never> => ({ ok: false, fault, ways: [] });
const WIDEST_MM = 10_000;

/** The radius that its corners want; nothing leaves it to the usual one. */
function radiusFrom(text: string, unit: TapeUnit): Parsed<number | undefined> {
  if (text.trim() === '') return { ok: true, value: undefined };
  const read = tapeMm(text, unit);
  if (read.ok && (read.value <= 0 || read.value > WIDEST_MM))
    return no(`"${text}" is no radius; above 0, at most ${WIDEST_MM} mm is allowed`);
  return read;
}

function leverWith(lever: Lever, cable: LeverCable, path: readonly Point[], radius: number | undefined): Lever {
  const { leastRadiusMm: _, ...rest } = cable;
  const now: LeverCable = {
    ...rest,
    pathMm: [...path],
    ...(radius === undefined ? {} : { leastRadiusMm: Math.round(radius * 100) / 100 }),
  };
  return { ...lever, cables: (lever.cables ?? []).map((one) => (one.id === cable.id ? now : one)) };
}

/** The way of a lever's cable: its corners in order, how far each turns, and what that does to the force. */
export function CableForm({
  lever: id,
  cable: cableId,
}: {
  readonly lever: string;
  readonly cable: string;
}): ReactNode {
  const lever = useCar()!.levers?.find((one) => one.id === id);
  const cable = lever?.cables?.find((one) => one.id === cableId);
  if (lever === undefined || cable === undefined)
    return <p className="paper">{`There is no cable ${cableId} of ${id} any more.`}</p>;
  return <Shown lever={lever} cable={cable} />;
}

function Shown({ lever, cable }: { readonly lever: Lever; readonly cable: LeverCable }): ReactNode {
  const car = useCar()!;
  const unit = useSignal(tapeUnit);
  const [rows, setRows] = useState(() => pointTexts(cable.pathMm));
  const [radius, setRadius] = useState(cable.leastRadiusMm === undefined ? '' : keptText(cable.leastRadiusMm));
  const [path, wide] = [pointsFrom(rows, unit), radiusFrom(radius, unit)];
  const made = !path.ok
    ? path
    : !wide.ok
      ? { ...wide, fault: `radius: ${wide.fault}` }
      : path.value.length < 2
        ? no('a cable has two ends at least: two points are wanted')
        : ({ ok: true, value: leverWith(lever, cable, path.value, wide.value) } as const);
  useMarks(path.ok ? path.value.map((atMm, i) => ({ label: `${i + 1}`, atMm, faces: null })) : []);
  const turns = path.ok ? cornerTurnsDeg(path.value) : [];
  const told = (n: number): string =>
    n === 0 || n === rows.length - 1
      ? ', held here'
      : turns[n - 1] === undefined
        ? ''
        : `, turns ${formatNumber(turns[n - 1]!)}°`;
  const back = (): void => open({ kind: 'cut', id: `lever/${lever.id}` });
  return (
    <Form
      title={`Way of ${cable.name ?? cable.id}`}
      below="Corners of its conduit, from where it is held at this lever to where it is held at the far end. Every bend takes force: fewer and wider ones pass more of it."
      keepWords="Keep it"
      made={
        made.ok
          ? {
              ok: true,
              value: { edits: leverEdits(lever, made.value, false), done: `${cable.name ?? cable.id} laid anew` },
            }
          : made
      }
      onKept={back}
      onLeave={back}
    >
      {(isAsked) => (
        <>
          <ReadField
            label="Bends no tighter than (radius to its middle)"
            text={radius}
            isAsked={isAsked}
            read={(text) => radiusFrom(text, unit)}
            told={(mm, text) => (mm === undefined ? 'the usual one is taken' : toldAs(text, mm))}
            onText={setRadius}
          />
          <PointRows rows={rows} isAsked={isAsked} onRows={setRows} told={told} />
          <BeforeAfter car={car} was={lever} now={made.ok ? made.value : null} />
        </>
      )}
    </Form>
  );
}
