import { describe, expect, it } from 'vitest';
import { formulas } from '#flow';
import { waterCar, waterIn } from '../../src/flow/coolant/water-car.fixture.ts';
import { boxCar, findingsIn } from '../../src/flow/dry-sump/box-car.fixture.ts';
import type { CircuitFlow } from '../../src/flow/circuit/flow-answer.ts';
import type { FlowFinding } from '../../src/flow/finding.ts';
import { fuel } from '../../src/flow/fuel/fuel-car.fixture.ts';
import { flowOpens } from '../../src/snags/opened/flow-opened.ts';
import { sourceFiles } from '../source-files.ts';

const all = ({ findings, states }: CircuitFlow): FlowFinding[] => [
  ...findings,
  ...states.flatMap((state) => state.findings),
];

describe('a number of the flow room', () => {
  it('that is held against a limit can be opened, of oil, water and fuel gone wrong', () => {
    const hot = [{ id: 'hot', engineRpm: 6000, coolantC: 104, airC: 25, heatToWaterKw: 90 }];
    const findings = [
      ...findingsIn(boxCar({ scavengeCc: 8, tankL: 15, cases: [{ id: 'cold', engineRpm: 2500, oilC: 0 }] })),
      ...findingsIn(boxCar({ tankL: 1.8, cases: [{ id: 'turn', engineRpm: 6000, oilC: 130, g: { rightG: 0.6 } }] })),
      ...all(waterIn(waterCar({ cases: hot, header: { capBar: 0.2 }, radiatorUpMm: 200, headerUpMm: -60 }))),
      ...all(fuel({ liftLMin: 1.5, pressureLMin: 1.8, fuelC: 55, potL: 0.2, lastsS: 90 })),
    ].filter(({ limit }) => limit !== undefined);
    expect(new Set(findings.map(({ code }) => code)).size).toBeGreaterThan(16);
    // Counts of things and figures that the builder stated are what they are.
    const plain = new Set(['pan-pick-ups', 'vacuum-stated', 'tees-unsettled', 'return-height']);
    const closed = findings.filter((row) => !plain.has(row.code) && flowOpens(row) === undefined);
    expect([...new Set(closed.map(({ code }) => code))]).toEqual([]);
    // What holds in one case says what it rests on.
    const bare = findings.filter((row) => row.case !== undefined && (row.inputs ?? []).length === 0);
    expect([...new Set(bare.map(({ code }) => code))]).toEqual([]);
  });

  it('names only formulas that are on the register', () => {
    const ids = new Set(formulas.map(({ id }) => id));
    const [file] = sourceFiles('src/snags/opened', ['flow-opened.ts']);
    const named = [...file!.text.matchAll(/formulas: \[([^\]]*)\]/gu)].flatMap(([, row]) =>
      [...row!.matchAll(/'([a-z-]+)'/gu)].map(([, id]) => id!),
    );
    expect(named.length).toBeGreaterThan(25);
    expect(named.filter((id) => !ids.has(id))).toEqual([]);
  });
});
