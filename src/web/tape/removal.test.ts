import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { applyEdit, type Car, checkCar, readCar } from '#car';
import { removal, type Removed } from './removal.ts';

const read = (text: string): Car => {
  const reading = readCar(text);
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.car;
};
const demo = read(readFileSync(new URL('../../../demo/fellside.json', import.meta.url), 'utf8'));
const measured = read(
  JSON.stringify({
    fairlead: 1,
    origins: [
      {
        id: 'sill',
        kind: 'straightedge',
        points: [
          { name: 'a', atMm: [0, 0, 0] },
          { name: 'b', atMm: [1000, 0, 0] },
        ],
      },
    ],
    parts: [
      {
        id: 'tank',
        class: 'fixed',
        ports: [
          {
            id: 'out',
            measured: [{ from: 'sill', alongMm: 300, outMm: 40, downMm: 60 }],
            faces: [0, 0, 1],
            end: { type: 'orb', dash: 8 },
          },
        ],
      },
    ],
  }),
);

const after = (car: Car, what: Removed): Car =>
  removal(car, what).edits.reduce((now, edit) => applyEdit(now, edit).car, car);

describe('taking something off the car', () => {
  it('leaves a sound car, whatever part, port, line or mover of the demo car it is', () => {
    const all: Removed[] = [
      ...demo.parts.map(({ id }) => ({ kind: 'part' as const, id })),
      ...demo.parts.flatMap((part) =>
        part.ports.map((port) => ({ kind: 'port' as const, id: `${part.id}.${port.id}` })),
      ),
      ...demo.lines.map(({ id }) => ({ kind: 'line' as const, id })),
      ...demo.movers.map(({ id }) => ({ kind: 'mover' as const, id })),
    ];
    expect(all.length).toBeGreaterThan(130);
    for (const what of all) expect([what, checkCar(after(demo, what))]).toEqual([what, []]);
  });

  it('names what hangs on it', () => {
    const tank = removal(demo, { kind: 'part', id: 'tank' });
    const lines = demo.lines.filter((line) => line.from.startsWith('tank.') || line.to.startsWith('tank.'));
    expect(lines.length).toBeGreaterThan(1);
    const sits = demo.parts.find(({ sitsOn }) => (sitsOn ?? []).length > 0)!;
    expect(removal(demo, { kind: 'part', id: sits.sitsOn![0]! }).hangs).toContain(`${sits.name} no longer sits on it`);
    for (const line of lines) expect(tank.hangs).toContain(`line ${line.id} (${line.state}) goes with it`);
    const { movers } = demo;
    expect(movers.some(({ id }) => removal(demo, { kind: 'mover', id }).hangs.length > 0)).toBe(true);
  });

  it('what was measured stays where it was measured to be', () => {
    const now = after(measured, { kind: 'origin', id: 'sill' });
    expect(checkCar(now)).toEqual([]);
    const [was, is] = [measured, now].map((car) => car.parts[0]!.ports[0]!);
    expect(is!.measured).toBeUndefined();
    expect([is!.atMm, is!.knownToMm]).toEqual([was!.atMm, was!.knownToMm]);
    expect(removal(measured, { kind: 'origin', id: 'sill' }).hangs).toEqual([
      'port tank.out stays where it is; its readings go',
    ]);
  });
});
