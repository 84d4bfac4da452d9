import { TextInput } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import { type Car, type Edit, findPort, type Part, type Port, portTolerance, TAPE_KNOWN_TO_MM } from '#car';
import type { Parsed } from '#units';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { useMarks } from './drafts.ts';
import { facing } from './facing.ts';
import { Form } from './form.tsx';
import { newId } from './new-id.ts';
import { emptyPort, placeOfDraft, type PortDraft, portDraft, portOfDraft } from './port-draft.ts';
import { PortFields } from './port-fields.tsx';
import { TakeAway } from './take-away.tsx';
import type { TapeUnit } from './tape-text.ts';
import { tapeUnit } from './tape-unit.ts';
import { NoSuch } from './no-such.tsx';

/** A port of a part: a new one ("tank"), or one that is there ("tank.out"). */
export function PortForm({ of }: { readonly of: string }): ReactNode {
  const car = useCar()!;
  const unit = useSignal(tapeUnit);
  const found = findPort(car, of);
  const partId = found?.part.id ?? of;
  const part = car.parts.find((candidate) => candidate.id === partId);
  const known = found === undefined ? TAPE_KNOWN_TO_MM : (portTolerance(car, of)?.knownToMm ?? TAPE_KNOWN_TO_MM);
  const [name, setName] = useState(found?.port.name ?? found?.port.id ?? '');
  const [draft, setDraft] = useState<PortDraft>(
    found === undefined ? emptyPort('forward') : portDraft(car, found.port, known),
  );
  const made = edits(car, partId, found?.port, name, draft, unit);
  const at = placeOfDraft(car, draft.place, unit);
  const faces = facing(draft.facing);
  useMarks(
    at === undefined ? [] : [{ label: name.trim() || 'here', atMm: at.atMm, faces: faces.ok ? faces.value : null }],
  );
  if (part === undefined) return <NoSuch what={`part ${partId}`} />;
  const back = (): void => open({ kind: 'part', id: partId });
  return (
    <Form
      title={
        found === undefined ? `A port on ${part.name ?? part.id}` : `Change port ${found.port.name ?? found.port.id}`
      }
      below={belowWords(part, found?.port)}
      keepWords={found === undefined ? 'Put it on the car' : 'Keep it'}
      made={made}
      onKept={back}
      onLeave={back}
      others={
        found === undefined ? null : (
          <>
            <Key onClick={() => open({ kind: 'tape', id: `readings/${of}` })}>By several readings</Key>
            <TakeAway what={{ kind: 'port', id: of }} name={`port ${found.port.name ?? of}`} onGone={back} />
          </>
        )
      }
    >
      {(isAsked) => (
        <section className="tape-section" aria-label="The port">
          <TextInput
            label="Name of the port"
            placeholder="Feed to the pump"
            value={name}
            maxLength={60}
            onChange={(event) => setName(event.currentTarget.value)}
          />
          <PortFields
            car={car}
            draft={draft}
            isAsked={isAsked}
            without={`port ${of}`}
            ownPart={partId}
            onDraft={setDraft}
          />
        </section>
      )}
    </Form>
  );
}

function belowWords(part: Part, port: Port | undefined): string {
  if (port?.measured !== undefined)
    return `It stands where its ${port.measured.length} readings put it; a place set here ends them.`;
  if (part.shapes.length === 0) return `On ${part.name ?? part.id}, by tape`;
  return 'Point at its hole on the car, or measure it in; either can be mended by numbers.';
}

/** The edits of a port: only what the form changed is set, so that readings of it stay as long as its place is left alone. */
function edits(
  car: Car,
  part: string,
  was: Port | undefined,
  name: string,
  draft: PortDraft,
  unit: TapeUnit,
): Parsed<{ readonly edits: readonly Edit[]; readonly done: string }> {
  const taken = car.parts.find((candidate) => candidate.id === part)?.ports.map(({ id }) => id) ?? [];
  const id = was?.id ?? newId(name, taken, 'port');
  const port = portOfDraft(car, id, draft, unit);
  if (port === undefined)
    return { ok: false, fault: 'something about the port is missing or cannot be read; it is marked', ways: [] };
  const named: Port = name.trim() === '' || name.trim() === id ? port : { ...port, name: name.trim() };
  if (was === undefined)
    return {
      ok: true,
      value: { edits: [{ do: 'add-port', part, port: named }], done: `Port ${name.trim() || id} is on the car` },
    };
  const ref = `${part}.${was.id}`;
  const before = portOfDraft(
    car,
    id,
    portDraft(car, was, portTolerance(car, ref)?.knownToMm ?? TAPE_KNOWN_TO_MM),
    unit,
  );
  const fields = (['name', 'atMm', 'knownToMm', 'faces', 'end', 'follows'] as const).filter((field) =>
    field === 'name'
      ? named.name !== was.name && named.name !== undefined
      : JSON.stringify(named[field]) !== JSON.stringify(before?.[field]),
  );
  const set = fields.map((field) => {
    const value = named[field];
    return { do: 'set-port', port: ref, field, ...(value === undefined ? {} : { value }) } as Edit;
  });
  return {
    ok: true,
    value: {
      edits: set.length === 0 ? [] : [{ do: 'several', edits: set }],
      done: `Port ${name.trim() || id} changed`,
    },
  };
}
