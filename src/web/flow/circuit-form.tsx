import { Textarea } from '@mantine/core';
import { type ReactNode, useMemo, useState } from 'react';
import type { Circuit } from '#car';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Form } from '../tape/form.tsx';
import { tapeUnit } from '../tape/tape-unit.ts';
import { circuitEdits, type CircuitFigure, circuitFigures, keyOf, readCurve } from './circuit-draft.ts';
import { CircuitRows } from './circuit-rows.tsx';
import { FigureField } from './figure-field.tsx';

/** The figures of a circuit that are not drawn: displacements, ratios, fills, measured curves. */
export function CircuitForm({ id }: { readonly id: string }): ReactNode {
  const car = useCar()!;
  const circuit = car.circuits?.find((one) => one.id === id);
  if (circuit === undefined) return <p className="paper">{`There is no circuit ${id} any more.`}</p>;
  return <Fields circuit={circuit} />;
}

function Fields({ circuit }: { readonly circuit: Circuit }): ReactNode {
  const car = useCar()!;
  const isInch = useSignal(tapeUnit) === 'in';
  const [texts, setTexts] = useState<Readonly<Record<string, string>>>({});
  const figures = useMemo(
    () => circuitFigures(circuit, isInch, (part) => car.parts.find(({ id }) => id === part)?.name ?? part),
    [circuit, isInch, car],
  );
  const made = circuitEdits(circuit, figures, texts, isInch);
  const name = circuit.name ?? circuit.id;
  const back = (): void => open({ kind: 'flow', id: `${circuit.id}..` });
  const groups = [...new Set(figures.map(({ of }) => of))];
  return (
    <Form
      title={`${name}: figures`}
      below="A measured curve takes the place of what is assumed. Lines, bores and bends come from the ways that are taken."
      keepWords="Keep it"
      made={made.ok ? { ok: true, value: { edits: made.value, done: `${name}: figures changed` } } : made}
      onKept={back}
      onLeave={back}
    >
      {(isAsked) => [
        ...groups.map((group) => (
          <section key={group} className="flow-section" aria-label={group}>
            <h2>{group}</h2>
            <div className="flow-figures">
              {figures
                .filter(({ of }) => of === group)
                .map((figure) => (
                  <OneFigure
                    key={keyOf(figure)}
                    figure={figure}
                    text={texts[keyOf(figure)] ?? figure.text}
                    isAsked={isAsked}
                    isInch={isInch}
                    onText={(text) => setTexts({ ...texts, [keyOf(figure)]: text })}
                  />
                ))}
            </div>
          </section>
        )),
        <CircuitRows key="rows" circuit={circuit} />,
      ]}
    </Form>
  );
}

interface Wish {
  readonly figure: CircuitFigure;
  readonly text: string;
  readonly isAsked: boolean;
  readonly isInch: boolean;
  readonly onText: (text: string) => void;
}

function OneFigure({ figure, text, isAsked, isInch, onText }: Wish): ReactNode {
  const own = figure.figure;
  if (own !== 'curve')
    return (
      <FigureField
        figure={own}
        text={text}
        isAsked={isAsked}
        isInch={isInch}
        onText={onText}
        spoken={`${figure.of}: ${own.label}`}
      />
    );
  const read = readCurve(text);
  return (
    <Textarea
      label="Curve [L/min kPa; ...]"
      aria-label={`${figure.of}: curve`}
      description="Measured points, flow and pressure"
      value={text}
      rows={2}
      error={read.ok ? undefined : read.fault}
      onChange={(event) => onText(event.currentTarget.value)}
    />
  );
}
