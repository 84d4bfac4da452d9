import { describe, expect, it } from 'vitest';
import type { CircuitFlow, FlowFinding } from '#flow';
import { pointChanges, sizeRows } from './size-differences.ts';

const point = (code: string, level: FlowFinding['level'], value?: number, limit?: number): FlowFinding => ({
  circuit: 'oil',
  case: 'cold',
  code,
  level,
  text: code,
  source: 'builder',
  line: 'O1',
  cures: [],
  ...(value === undefined ? {} : { value }),
  ...(limit === undefined ? {} : { limit }),
});
const flow = (findings: readonly FlowFinding[], dropPa = 1): CircuitFlow =>
  ({
    circuit: 'oil',
    findings: [],
    states: [{ case: { id: 'cold', name: 'Cold start' }, lines: [{ line: 'O1', dropPa }], findings }],
  }) as unknown as CircuitFlow;

describe('a circuit with a line as it is and in another size', () => {
  it('says what goes, what comes, what gets better or worse; noise and notes are left out', () => {
    const now = flow([
      point('gone', 'fix'),
      point('better', 'stop', -0.3, -0.2),
      point('worse', 'fix', 3, 2),
      point('same', 'fix', 1.0001, 2),
      point('note', 'note', 4, 5),
    ]);
    const then = flow([
      point('better', 'fix', -0.21, -0.2),
      point('worse', 'fix', 5, 2),
      point('same', 'fix', 1.0002, 2),
      point('note', 'note', 9, 5),
      point('new', 'stop'),
    ]);
    expect(pointChanges(now, then).map(({ kind, now: was, after: is }) => [kind, (was ?? is)!.code])).toEqual([
      ['better', 'better'],
      ['new', 'new'],
      ['worse', 'worse'],
      ['gone', 'gone'],
    ]);
  });

  it('lays a case beside the same case, by its id; one that could not be worked out is empty', () => {
    const [row] = sizeRows(flow([], 24), flow([], 10), 'O1');
    expect([row!.name, row!.now?.dropPa, row!.after?.dropPa]).toEqual(['Cold start', 24, 10]);
    expect(sizeRows(flow([]), { ...flow([]), states: [] }, 'O1')[0]!.after).toBeNull();
  });
});
