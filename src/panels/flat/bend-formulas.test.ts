import { findSheet, leastBendRadius, panelFixing, sheetRule } from '#standards';
import { describe, expect, it } from 'vitest';
import {
  expectedNumber,
  expectedOf,
  named,
  published,
  type PublishedValue,
  tolerance,
} from '../../../test/published/published.ts';
import { bendAllowance, bendDeduction, setback } from './bend-formulas.ts';

const inch = 25.4;
const handbookK = findSheet('5052-H32')!.kFactor!;

function near(row: PublishedValue, value: number): void {
  expect(Math.abs(value - expectedNumber(row))).toBeLessThanOrEqual(tolerance(row, expectedNumber(row)));
}

function checkRow(row: PublishedValue): void {
  const { turnDeg = 0, radiusIn = 0, thicknessIn = 0 } = row.inputs;
  const [r, t] = [radiusIn * inch, thicknessIn * inch];
  if (row.id.startsWith('bend-setback')) return near(row, setback(turnDeg, r, t) / inch);
  if (row.id.startsWith('bend-allowance')) return near(row, bendAllowance(turnDeg, r, t, handbookK) / inch);
  if (row.id === 'bend-k-implied') return near(row, handbookK);
  const of = (name: string) => expectedOf(row, name);
  if (row.id === 'bend-k-bands') {
    const band = (id: string) => findSheet(id)!.kFactorRange!;
    expect(band('6061-T6')[0]).toBe(of('aluminiumLow'));
    // Above the table's band the handbooks' own 0.447 is still taken: the band reaches up to it.
    expect(band('6061-T6')[1]).toBeGreaterThanOrEqual(of('aluminiumHigh'));
    expect(band('4130')).toEqual([of('steelLow'), of('steelHigh')]);
    expect(band('304')).toEqual([of('stainlessLow'), of('stainlessHigh')]);
    return undefined;
  }
  if (row.id === 'relief-holes') {
    expect(sheetRule('relief-thin').value).toBe(of('thinMm'));
    expect(sheetRule('relief-thick').value).toBe(of('thickMm'));
    expect(sheetRule('relief-behind').value).toBe(of('behindMm'));
    return undefined;
  }
  if (row.id === 'rivet-spacing') {
    const rules = {
      'rivet-pitch-least': 'pitchLeast',
      'rivet-pitch-usual-least': 'pitchFrom',
      'rivet-pitch-usual-most': 'pitchTo',
      'edge-least': 'edge',
      'rivet-diameter': 'diameterT',
      'rivet-length': 'lengthD',
      'rivet-structural-least': 'leastMm',
    } as const;
    for (const [id, name] of Object.entries(rules)) expect(sheetRule(id as keyof typeof rules).value).toBe(of(name));
    return undefined;
  }
  const temper = row.id.slice('bend-radius-'.length);
  const sheet = findSheet(temper)!;
  for (const mils of ['016', '032', '064', '128', '182', '258']) {
    const thick = (Number(mils) / 1000) * inch;
    const least = leastBendRadius(sheet, thick)!;
    expect(least.leastMm / thick).toBeCloseTo(of(`least${mils}`), 9);
    expect(least.usualMm / thick).toBeCloseTo(of(`most${mils}`), 9);
  }
  return undefined;
}

describe('bends, radii, relief and rivets against published values', () => {
  it.each(published('panel.bend').map((row) => [named(row), row] as const))('%s', (_, row) => checkRow(row));

  it('a thickness between two columns takes the thicker one: cautious', () => {
    expect(leastBendRadius(findSheet('5052-H32')!, 1.2)!.usualMm).toBeCloseTo(1.2, 9);
    expect(leastBendRadius(findSheet('6061-T6')!, 1.6)!.usualMm).toBeCloseTo(3.2, 9);
    expect(leastBendRadius(findSheet('6061-T6')!, 8)!.beyondTable).toBe(true);
    expect(leastBendRadius(findSheet('CFRP')!, 2)).toBeUndefined();
  });

  it('two flanges of 20 outside on a web of 100, 1.2 thick, 3 inside: 20 + 100 + 20 less two deductions (hand)', () => {
    expect(140 - 2 * bendDeduction(90, 3, 1.2, 0.447)).toBeCloseTo(
      140 - 2 * (2 * 4.2 - (Math.PI / 2) * (3 + 0.447 * 1.2)),
      9,
    );
  });

  it('a screw M5 goes through 5.5', () => expect(panelFixing('screw', 'M5').holeMm).toBe(5.5));
});
