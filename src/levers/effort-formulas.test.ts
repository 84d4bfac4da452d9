import { describe, expect, it } from 'vitest';
import { expectedNumber, named, published, tolerance } from '../../test/published/published.ts';
import { capstanShare, cylinderPressure, displacedMl, handleForce, slantedHole, strokeFor } from './effort-formulas.ts';

const given = (inputs: Readonly<Record<string, number>>, name: string): number => inputs[name] ?? Number.NaN;

describe('effort, against published figures', () => {
  it.each(published('lever.pressure').map((item) => [named(item), item] as const))('%s', (_, item) => {
    const g = (name: string) => given(item.inputs, name);
    const pa = cylinderPressure(g('forceN'), g('leverRatio'), g('boreMm'), g('share'), 0);
    expect(Math.abs(pa - expectedNumber(item))).toBeLessThan(tolerance(item, expectedNumber(item)));
  });

  it.each(published('lever.force').map((item) => [named(item), item] as const))('%s', (_, item) => {
    const g = (name: string) => given(item.inputs, name);
    const n = handleForce(g('pressurePa'), g('leverRatio'), g('boreMm'), 1, 0);
    expect(Math.abs(n - expectedNumber(item))).toBeLessThan(tolerance(item, expectedNumber(item)));
  });

  it.each(published('lever.capstan').map((item) => [named(item), item] as const))('%s', (_, item) => {
    const gain = 1 / capstanShare(given(item.inputs, 'frictionRatio'), given(item.inputs, 'bendDeg'));
    expect(Math.abs(gain - expectedNumber(item))).toBeLessThan(tolerance(item, expectedNumber(item)));
  });
});

describe('effort, by hand', () => {
  it('takes losses off a pressure and adds them to a force', () => {
    expect(cylinderPressure(300, 5, 17.5, 1, 0.1) / cylinderPressure(300, 5, 17.5, 1, 0)).toBeCloseTo(0.9, 12);
    const pa = cylinderPressure(250, 7, 17.8, 0.6, 0.05);
    expect(handleForce(pa, 7, 17.8, 0.6, 0.05)).toBeCloseTo(250, 9);
  });

  it('moves as much fluid as bore times stroke (hand: 20 mm bore is 314.16 mm2)', () => {
    expect(displacedMl(20, 10)).toBeCloseTo(3.14159, 5);
    expect(strokeFor(20, displacedMl(20, 10))).toBeCloseTo(10, 12);
  });

  it('wants an oval for a slanted cable (hand: 60 degrees doubles it)', () => {
    expect(slantedHole(10, 60, 0)).toBeCloseTo(20, 9);
    expect(slantedHole(10, 45, 3)).toBeCloseTo(14.1421 + 3, 4);
  });
});
