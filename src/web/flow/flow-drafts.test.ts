import { describe, expect, it } from 'vitest';
import { applyEdit, type Car, type Case, type Circuit } from '#car';
import type { CircuitFlow, FlowFinding } from '#flow';
import { caseDraft, caseEdits } from './case-draft.ts';
import { circuitEdits, circuitFigures, readCurve } from './circuit-draft.ts';
import { figureText, readFigure } from './figure.ts';
import { findingsIn, gravest, markedLines, worstFirst } from './open-findings.ts';

const oil = { label: 'Oil', unit: '°C', from: -60, to: 300 } as const;
const valueOf = (text: string, figure: Parameters<typeof readFigure>[1], isInch = false) => {
  const read = readFigure(text, figure, isInch);
  return read.ok ? read.value : read.fault;
};

describe('a figure in a field', () => {
  it('is read in the units of the workshop, or in those that are written', () => {
    // 140 F is 60 C, 212 F is 100 C; 30 psi is 2.068427 bar; 5000 ft is 1524 m; 10 US gal/min is 37.854118 L/min.
    expect(valueOf('60', oil)).toBe(60);
    expect(valueOf('140 F', oil)).toBe(60);
    expect(valueOf('212', oil, true)).toBe(100);
    expect(valueOf('30 psi', { label: 'Cap', unit: 'bar', from: 0, to: 10 })).toBeCloseTo(2.068427, 5);
    expect(valueOf('5000 ft', { label: 'Up', unit: 'm', from: 0, to: 6000 })).toBe(1524);
    const flow = { label: 'Flow', unit: 'L/min', from: 0, to: 100 } as const;
    expect(valueOf('10 US gpm', flow)).toBeCloseTo(37.854118, 5);
    expect(valueOf('10 gpm', flow)).toMatch(/could mean 2 things/u);
    expect(valueOf('−1,5 g', { label: 'g', unit: 'g', from: -20, to: 20 })).toBe(-1.5);
    // published: NIST SP 811: 1 lbf = 4.448222 N, 1 lbf/in = 0.1751268 N/mm, 1 psi = 6.894757 kPa.
    const pull = { label: 'Pull', unit: 'N', from: 0, to: 1000 } as const;
    expect([valueOf('50', pull), valueOf('50 N', pull, true)]).toEqual([50, 50]);
    expect(valueOf('10', pull, true)).toBeCloseTo(44.48222, 4);
    expect(valueOf('10 lb', pull)).toBeCloseTo(44.48222, 4);
    expect(valueOf('1', { ...pull, unit: 'N/mm' }, true)).toBeCloseTo(0.1751268, 6);
    expect(valueOf('2 psi', { ...pull, unit: 'kPa' })).toBeCloseTo(13.789514, 5);
    expect(figureText(40, 'N', true)).toBe('8.99 lbf');
    expect(valueOf('400', pull, true)).toBe('Pull: "400" is out of range; 0 to 224.81 lbf is allowed');
    expect(valueOf('600', oil, true)).toBe('Oil: "600" is out of range; -76 to 572 °F is allowed');
    expect([figureText(100, '°C', true), figureText(13.5, 'cc/rev', true)]).toEqual(['212 F', '13.5']);
  });

  it('is refused in one line: what stands there and what is allowed', () => {
    expect(valueOf('400', oil)).toBe('Oil: "400" is out of range; -60 to 300 °C is allowed');
    expect(valueOf('', { ...oil, isNeeded: true })).toBe('Oil: nothing stands there; -60 to 300 °C is allowed');
    expect(valueOf('', oil)).toBeUndefined();
    expect(valueOf('hot', { label: 'Speed', unit: 'rpm', from: 0, to: 9 })).toBe('Speed: "hot" is no number in rpm');
    expect(valueOf('1e9', { label: 'Speed', unit: 'rpm', from: 0, to: 9 })).toMatch(/no number/u);
  });
});

const cold: Case = {
  id: 'cold',
  name: 'Cold start',
  engineRpm: 1500,
  oilC: 0.123456789,
  g: { rightG: -1.5 },
  fills: [{ part: 'tank', fillL: 6 }],
};
const circuit: Circuit = {
  id: 'oil',
  kind: 'dry-sump',
  lines: [],
  pumps: [
    { id: 'p', name: 'Pressure stage', from: 'pump.in', to: 'pump.out', displacementCcRev: 13.5, driveRatio: 0.55 },
  ],
  passages: [
    {
      id: 'g',
      name: 'Gallery',
      from: 'block.g',
      to: 'sump',
      curveLMinKpa: [
        [20, 90],
        [49, 400],
      ],
      atC: 105,
    },
  ],
  vessels: [{ part: 'tank', kind: 'tank', fillL: 8 }],
};
const car = { fairlead: 1, parts: [], movers: [], lines: [], cases: [cold], circuits: [circuit] } as unknown as Car;

describe('a case in a form', () => {
  it('changes only what was touched, to its last digit', () => {
    const draft = caseDraft(cold, true);
    expect(caseEdits(car, draft, cold, true)).toEqual({ ok: true, value: { id: 'cold', edits: [] } });
    const warm = caseEdits(car, { ...draft, texts: { ...draft.texts, engineRpm: '2000', rightG: '' } }, cold, true);
    if (!warm.ok) throw new Error(warm.fault);
    const now = applyEdit(car, { do: 'several', edits: warm.value.edits }).car.cases![0]!;
    const { g: _, ...rest } = cold;
    expect(now).toEqual({ ...rest, engineRpm: 2000 });
  });

  it('is new where there was none; without a name or a speed it is refused', () => {
    const empty = caseDraft({}, false);
    expect(caseEdits(car, empty, undefined, false)).toMatchObject({ ok: false, fault: 'Name: nothing stands there' });
    const named = { name: 'Cold', texts: { ...empty.texts, oilC: '10' } };
    expect(caseEdits(car, named, undefined, false)).toMatchObject({
      ok: false,
      fault: expect.stringMatching(/^Engine speed: nothing/u),
    });
    const made = caseEdits(car, { ...named, texts: { ...named.texts, engineRpm: '900' } }, undefined, false);
    if (!made.ok) throw new Error(made.fault);
    const next = applyEdit(car, { do: 'several', edits: made.value.edits }).car.cases!;
    expect(next.length).toBe(2);
    expect(next[1]).toEqual({ id: made.value.id, name: 'Cold', engineRpm: 900, oilC: 10 });
    expect(next[1]!.id).not.toBe('cold');
  });
});

describe('the figures of a circuit in a form', () => {
  const figures = circuitFigures(circuit, false, () => 'Oil tank');

  it('are those that stand there, with those that may be added; each belongs to something', () => {
    expect(figures.map(({ at, of, text }) => `${of}|${at[2]}|${text}`)).toEqual([
      'Pressure stage|displacementCcRev|13.5',
      'Pressure stage|driveRatio|0.55',
      'Pressure stage|volumetricPercent|',
      'Pressure stage|leastInletBar|',
      'Gallery|curveLMinKpa|20 90; 49 400',
      'Gallery|atC|105',
      'Oil tank|fillL|8',
      'Oil tank|leastFillL|',
      'Oil tank|volumeL|',
    ]);
  });

  it('change a list each, the rest of it as it was; nothing touched is no edit', () => {
    expect(circuitEdits(circuit, figures, {}, false)).toEqual({ ok: true, value: [] });
    const made = circuitEdits(
      circuit,
      figures,
      { 'pumps.0.displacementCcRev': '15', 'passages.0.curveLMinKpa': '10 5; 20 18', 'vessels.0.fillL': '' },
      false,
    );
    if (!made.ok) throw new Error(made.fault);
    const now = applyEdit(car, { do: 'several', edits: made.value }).car.circuits![0]!;
    expect(now.pumps).toEqual([{ ...circuit.pumps![0], displacementCcRev: 15 }]);
    expect(now.passages![0]!.curveLMinKpa).toEqual([
      [10, 5],
      [20, 18],
    ]);
    expect(now.vessels).toEqual([{ part: 'tank', kind: 'tank' }]);
  });

  it('refuse a curve of one point, of points that are none, and of one flow twice', () => {
    expect(readCurve('20 90')).toMatchObject({
      ok: false,
      fault: expect.stringMatching(/1 point stands there; two or more/u),
    });
    expect(readCurve('20 90; 3 x')).toMatchObject({ ok: false, fault: expect.stringMatching(/point 2 is no pair/u) });
    expect(readCurve('20 90; 20 91')).toMatchObject({ ok: false, fault: expect.stringMatching(/the same flow/u) });
    expect(readCurve('20:9,5\n40:30')).toEqual({
      ok: true,
      value: [
        [20, 9.5],
        [40, 30],
      ],
    });
  });
});

describe('what is open on a circuit', () => {
  const finding = (code: string, level: FlowFinding['level'], about: Partial<FlowFinding> = {}): FlowFinding => ({
    circuit: 'oil',
    code,
    level,
    text: code,
    source: 'x',
    cures: [],
    ...about,
  });
  const drain = finding('drain-capacity', 'stop', { line: 'O7', value: 10, limit: 1 });
  const feed = finding('feed-draws-air', 'stop', { line: 'O1', value: -0.21, limit: -0.2 });
  const gallery = finding('gallery-pressure', 'fix', { line: 'O1' });
  const flow = {
    circuit: 'oil',
    name: 'Oil',
    kind: 'dry-sump',
    states: [{ case: { id: 'a' }, findings: [gallery, drain, feed] }],
    findings: [finding('scavenge-ratio', 'note')],
  } as unknown as CircuitFlow;

  it('is told worst first: what starves the engine before what breaks its limit by more', () => {
    expect(worstFirst([gallery, drain, feed]).map(({ code }) => code)).toEqual([
      'feed-draws-air',
      'drain-capacity',
      'gallery-pressure',
    ]);
    expect(
      findingsIn(flow, 'a')
        .map(({ code }) => code)
        .at(-1),
    ).toBe('scavenge-ratio');
    expect(findingsIn(flow, 'b').length).toBe(1);
  });

  it('marks lines by the gravest point on them', () => {
    expect([...markedLines(findingsIn(flow, 'a'))].toSorted()).toEqual([
      ['O1', 'stop'],
      ['O7', 'stop'],
    ]);
    expect([gravest([gallery]), gravest([]), gravest(flow.findings)]).toEqual(['fix', null, null]);
  });
});
