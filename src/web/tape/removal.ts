import type { Car, Edit } from '#car';

/** What is to be taken off the car. */
export type Removed =
  | { readonly kind: 'part'; readonly id: string }
  | { readonly kind: 'port'; readonly id: string }
  | { readonly kind: 'line'; readonly id: string }
  | { readonly kind: 'mover'; readonly id: string }
  | { readonly kind: 'origin'; readonly id: string };

/** What hangs on it, in words, and the edits that take all of it off in one step. */
export interface Removal {
  readonly hangs: readonly string[];
  readonly edits: readonly Edit[];
}

/** Taking something off the car: what hangs on it is named first and goes, or is let go, with it. */
export function removal(car: Car, what: Removed): Removal {
  const { hangs, edits } = steps(car, what);
  return { hangs, edits: [{ do: 'several', edits }] };
}

function steps(car: Car, what: Removed): Removal {
  switch (what.kind) {
    case 'line':
      return { hangs: lineWords(car, what.id), edits: [{ do: 'remove-line', line: what.id }] };
    case 'port': {
      const lines = linesOn(car, (ref) => ref === what.id);
      const left = lettingGo(car, (follows) => follows === what.id);
      return {
        hangs: [...lines.map((line) => `line ${line.id} (${line.state}) goes with it`), ...left.hangs],
        edits: [
          ...lines.map((line): Edit => ({ do: 'remove-line', line: line.id })),
          ...left.edits,
          { do: 'remove-port', port: what.id },
        ],
      };
    }
    case 'part':
      return partSteps(car, what.id);
    case 'mover':
      return moverSteps(car, what.id);
    case 'origin':
      return originSteps(car, what.id);
  }
}

/** What went with it stands still; what a lever pulled at on it goes. */
function moverSteps(car: Car, id: string): Removal {
  const parts = car.parts.filter((part) => part.movesWith === id);
  const links = (car.levers ?? []).flatMap((lever) =>
    (['rods', 'cables'] as const).flatMap((field) => {
      const rows: readonly {
        readonly id: string;
        readonly name?: string | undefined;
        readonly to: { readonly mover?: string | undefined };
      }[] = lever[field] ?? [];
      const lost = rows.filter(({ to }) => to.mover === id);
      const left = rows.filter(({ to }) => to.mover !== id);
      if (lost.length === 0) return [];
      const edit = { do: 'set-lever', lever: lever.id, field, ...(left.length === 0 ? {} : { value: left }) } as Edit;
      return [{ words: lost.map((row) => `${row.name ?? row.id} of ${lever.name ?? lever.id} goes with it`), edit }];
    }),
  );
  return {
    hangs: [
      ...parts.map((part) => `${part.name ?? part.id} stands still from then on`),
      ...links.flatMap(({ words }) => words),
    ],
    edits: [
      ...parts.map((part): Edit => ({ do: 'set-part', part: part.id, field: 'movesWith' })),
      ...links.map(({ edit }) => edit),
      { do: 'remove-mover', mover: id },
    ],
  };
}

/** What was taped from it stays where it is, and goes along no more. */
function lettingGo(car: Car, isLeader: (follows: string) => boolean): Removal {
  const parts = car.parts.filter((part) => part.follows !== undefined && isLeader(part.follows));
  const ports = car.parts.flatMap((part) =>
    part.ports
      .filter((port) => port.follows !== undefined && isLeader(port.follows))
      .map((port) => `${part.id}.${port.id}`),
  );
  return {
    hangs: [...parts.map((part) => part.name ?? part.id), ...ports.map((ref) => `port ${ref}`)].map(
      (name) => `${name} stays where it is`,
    ),
    edits: [
      ...parts.map((part): Edit => ({ do: 'set-part', part: part.id, field: 'follows' })),
      ...ports.map((port): Edit => ({ do: 'set-port', port, field: 'follows' })),
    ],
  };
}

const linesOn = (car: Car, isOn: (ref: string) => boolean) =>
  car.lines.filter((line) => isOn(line.from) || isOn(line.to));

function lineWords(car: Car, id: string): string[] {
  const line = car.lines.find((candidate) => candidate.id === id);
  if (line === undefined) return [];
  const taken = line.taken === undefined || line.taken === null ? [] : ['the way that was taken for it goes with it'];
  return line.state === 'planned' ? taken : [`it is ${line.state} already: what was made is left over`, ...taken];
}

function partSteps(car: Car, id: string): Removal {
  const part = car.parts.find((candidate) => candidate.id === id);
  const lines = linesOn(car, (ref) => ref.startsWith(`${id}.`));
  const gone = new Set(lines.map((line) => line.id));
  const crossing = car.lines.filter((line) => !gone.has(line.id) && line.through.some((step) => step.part === id));
  const near = car.parts
    .filter((other) => other.id !== id)
    .flatMap((other) => other.ports.map((port) => ({ ref: `${other.id}.${port.id}`, near: port.near })))
    .filter((row) => row.near?.parts.includes(id) === true);
  const ports = part?.ports.length ?? 0;
  const left = lettingGo(car, (follows) => follows === id || follows.startsWith(`${id}.`));
  return {
    hangs: [
      ...(ports === 0 ? [] : [`its ${ports === 1 ? 'port goes' : `${ports} ports go`} with it`]),
      ...lines.map((line) => `line ${line.id} (${line.state}) goes with it`),
      ...crossing.map((line) => `line ${line.id} no longer passes through it`),
      ...near.map((row) => `port ${row.ref} no longer has its own keep-off to it`),
      ...car.parts.flatMap((other) =>
        other.sitsOn?.includes(id) === true ? [`${other.name ?? other.id} no longer sits on it`] : [],
      ),
      ...left.hangs,
    ],
    edits: [
      ...lines.map((line): Edit => ({ do: 'remove-line', line: line.id })),
      ...crossing.map(
        (line): Edit => ({
          do: 'set-line',
          line: line.id,
          field: 'through',
          value: line.through.filter((step) => step.part !== id),
        }),
      ),
      ...near.map((row): Edit => {
        const parts = row.near!.parts.filter((other) => other !== id);
        return parts.length === 0
          ? { do: 'set-port', port: row.ref, field: 'near' }
          : { do: 'set-port', port: row.ref, field: 'near', value: { ...row.near!, parts } };
      }),
      ...left.edits,
      { do: 'remove-part', part: id },
    ],
  };
}

/** Ports stay where its readings put them; solids read in its axes stay where they stand. */
function originSteps(car: Car, id: string): Removal {
  const isFrom = (from: string | undefined): boolean => from === id || from?.startsWith(`${id}.`) === true;
  const ports = car.parts.flatMap((part) =>
    part.ports
      .filter((port) => port.measured?.some((reading) => isFrom(reading.from)) === true)
      .map((port) => ({ ref: `${part.id}.${port.id}`, port })),
  );
  const parts = car.parts.filter((part) => part.shapes.some((shape) => shape.from === id));
  return {
    hangs: [
      ...ports.map(({ ref }) => `port ${ref} stays where it is; its readings go`),
      ...parts.map((part) => `${part.name ?? part.id} stays where it is`),
    ],
    edits: [
      // A place set by hand ends the readings.
      ...ports.map(({ ref, port }): Edit => ({ do: 'set-port', port: ref, field: 'atMm', value: port.atMm })),
      ...ports.flatMap(({ ref, port }): Edit[] =>
        port.knownToMm === undefined ? [] : [{ do: 'set-port', port: ref, field: 'knownToMm', value: port.knownToMm }],
      ),
      ...parts.map(
        (part): Edit => ({
          do: 'set-part',
          part: part.id,
          field: 'shapes',
          value: part.shapes.map(({ from, ...shape }) =>
            from === id ? shape : from === undefined ? shape : { ...shape, from },
          ),
        }),
      ),
      { do: 'remove-origin', origin: id },
    ],
  };
}
