import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Line, readCar } from '#car';
import { type LineJoint, lineSpans } from './line-spans.ts';

const tube = { odMm: 38, wallMm: 1.6, bendRadiusMm: 76 };
const base: Line = { id: 'L1', from: 'a.out', to: 'b.in', duty: 'water', state: 'planned', pieces: [], through: [] };
const bulkhead = {
  part: 'bulkhead',
  kind: 'bulkhead-fitting' as const,
  atMm: [1350, 0, 0] as [number, number, number],
};
const grommet = { part: 'bulkhead', kind: 'grommet' as const };
const tee = { part: 'tee', kind: 'tee' as const };

const kinds = (line: Line): string[] => {
  const { spans } = lineSpans(line);
  return [
    spans[0]!.from.kind,
    ...spans.flatMap((s) => [s.piece.tube ? 'tube' : (s.piece.hose ?? 'any hose'), s.to.kind]),
  ];
};

describe('lineSpans', () => {
  it('is one span for one hose, or for a line that names none', () => {
    expect(kinds({ ...base, hose: 'h' })).toEqual(['port', 'h', 'port']);
    expect(kinds(base)).toEqual(['port', 'any hose', 'port']);
  });

  it('cuts one hose at a bulkhead fitting and a tee, not at a grommet', () => {
    expect(kinds({ ...base, pieces: [{ hose: 'h' }], through: [bulkhead, tee] })).toEqual([
      'port',
      'h',
      'bulkhead-fitting',
      'h',
      'tee',
      'h',
      'port',
    ]);
    const { spans } = lineSpans({ ...base, pieces: [{ hose: 'h' }], through: [grommet] });
    expect(spans).toHaveLength(1);
    expect(spans[0]?.passes).toEqual([{ kind: 'grommet', part: 'bulkhead' }]);
  });

  it('joins hose and tube by bead and clamp, and lets the tube take the grommet', () => {
    const { spans, findings } = lineSpans({
      ...base,
      pieces: [{ hose: 'h' }, { tube }, { hose: 'h' }],
      through: [grommet],
    });
    expect(spans.map((s) => s.to)).toEqual<LineJoint[]>([
      { kind: 'hose-tube', tubeOdMm: 38 },
      { kind: 'hose-tube', tubeOdMm: 38 },
      { kind: 'port', ref: 'b.in' },
    ]);
    expect(spans.map((s) => s.passes.length)).toEqual([0, 1, 0]);
    expect(findings).toEqual([]);
  });

  it('puts a tee that follows the grommet behind the tube that passes it', () => {
    expect(kinds({ ...base, pieces: [{ hose: 'h' }, { tube }, { hose: 'h' }], through: [grommet, tee] })).toEqual([
      'port',
      'h',
      'hose-tube',
      'tube',
      'tee',
      'h',
      'port',
    ]);
    expect(kinds({ ...base, pieces: [{ hose: 'h' }, { tube }, { hose: 'h' }], through: [tee, grommet] })).toEqual([
      'port',
      'h',
      'tee',
      'tube',
      'hose-tube',
      'h',
      'port',
    ]);
  });

  it('takes the bulkhead fitting as what joins a tube and a hose', () => {
    expect(kinds({ ...base, pieces: [{ tube }, { hose: 'h' }], through: [bulkhead] })).toEqual([
      'port',
      'tube',
      'bulkhead-fitting',
      'h',
      'port',
    ]);
  });

  it('keeps where a fitting is fixed', () => {
    expect(lineSpans({ ...base, hose: 'h', through: [bulkhead] }).spans[0]?.to).toEqual({
      kind: 'bulkhead-fitting',
      part: 'bulkhead',
      atMm: [1350, 0, 0],
    });
  });

  it('says so when two tubes meet with nothing between, or the pieces do not cover the fittings', () => {
    expect(lineSpans({ ...base, pieces: [{ tube }, { tube }] }).findings.map((f) => [f.code, f.level])).toEqual([
      ['line-joint', 'stop'],
    ]);
    expect(
      lineSpans({ ...base, pieces: [{ tube }, { hose: 'h' }], through: [bulkhead, tee, bulkhead] }).findings[0],
    ).toMatchObject({ code: 'line-pieces', level: 'stop' });
  });

  it('says so when a fitting could stand at either end of a tube', () => {
    expect(
      lineSpans({ ...base, pieces: [{ hose: 'h' }, { tube }, { hose: 'h' }], through: [tee] }).findings[0],
    ).toMatchObject({ code: 'line-joint-order', level: 'note' });
  });

  it('runs from port to port without a gap on every line of the demo car', () => {
    const reading = readCar(readFileSync('demo/fellside.json', 'utf8'));
    const lines = reading.ok ? reading.car.lines : [];
    expect(lines.length).toBeGreaterThan(25);
    for (const line of lines) {
      const { spans, findings } = lineSpans(line);
      expect(findings, line.id).toEqual([]);
      expect(spans[0]?.from).toEqual({ kind: 'port', ref: line.from });
      expect(spans.at(-1)?.to).toEqual({ kind: 'port', ref: line.to });
      for (let n = 1; n < spans.length; n++) expect(spans[n]?.from).toEqual(spans[n - 1]?.to);
    }
  });
});
