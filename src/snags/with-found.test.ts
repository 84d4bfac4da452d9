import { describe, expect, it } from 'vitest';
import { readFileSync } from 'node:fs';
import { readCar } from '#car';
import type { FlowAnswer, FlowFinding } from '#flow';
import { linesWorld } from '#lines';
import { snags } from './snags.ts';
import { withFound } from './with-found.ts';

const reading = readCar(readFileSync(new URL('../../demo/fellside.json', import.meta.url), 'utf8'));
if (!reading.ok) throw new Error('fellside.json is no car');
const car = {
  ...reading.car,
  accepted: [{ snag: 'O1-vacuum', level: 'fix', by: 'Marrow', why: 'short', on: 'today' }],
} as const;
const world = linesWorld(car as never, new Map());
const nothing = { lines: [], lineGaps: [], takenUp: 0, stopped: false };

const found = (code: string, rest: Partial<FlowFinding>): FlowFinding => ({
  circuit: 'oil',
  code,
  level: 'stop',
  text: `Cold: ${code}`,
  source: 'builder',
  cures: [],
  ...rest,
});
const flow = {
  circuits: [
    {
      circuit: 'oil',
      name: 'Oil',
      kind: 'dry-sump',
      findings: [found('ratio', { level: 'note' })],
      states: [
        {
          case: { id: 'cold', name: 'Cold', engineRpm: 1500 },
          findings: [
            found('feed-draws-air', { line: 'O1', case: 'cold', value: -0.3, limit: -0.2, unit: 'bar' }),
            found('vacuum', { line: 'O1', case: 'cold', level: 'fix' }),
            found('outlet-bare', { part: 'tank', case: 'cold', level: 'fix' }),
            found('vacuum', { line: 'gone', case: 'cold' }),
          ],
        },
      ],
    },
  ],
} as unknown as FlowAnswer;

describe('the flow among the open points of a car', () => {
  it('comes to the same list whether it is asked for with the rest or joins it later', () => {
    const together = snags(world, nothing, { flow });
    expect(withFound(car as never, snags(world, nothing), { flow })).toEqual(together);
    const place = (id: string): number => together.findIndex((row) => row.id === id);
    expect(place('O1-feed-draws-air')).toBeLessThan(together.findIndex(({ level }) => level === 'fix'));
    expect(together.find(({ id }) => id === 'O1-vacuum')?.accepted?.by).toBe('Marrow');
  });

  it('stands at its place: the far end of a line, amid the ports of a part; what is gone from the car is not told', () => {
    const list = withFound(car as never, [], { flow });
    const portAt = (ref: string) => {
      const [part, id] = ref.split('.');
      return car.parts.find((row) => row.id === part)!.ports.find((row) => row.id === id)!.atMm;
    };
    const feed = list.find(({ id }) => id === 'O1-feed-draws-air')!;
    expect(feed.atMm).toEqual(portAt(car.lines.find(({ id }) => id === 'O1')!.to));
    expect([feed.circuit, feed.case]).toEqual(['oil', 'cold']);
    expect(list.find(({ id }) => id === 'tank-outlet-bare')?.atMm).toHaveLength(3);
    expect(list.some(({ line }) => line === 'gone')).toBe(false);
  });

  it('gives no two points one id, though the list has a numbered one already', () => {
    const list = withFound(car as never, snags(world, nothing, { flow }), { flow });
    expect(new Set(list.map(({ id }) => id)).size).toBe(list.length);
  });
});
