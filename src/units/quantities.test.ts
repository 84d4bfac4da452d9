import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  absoluteFromGauge,
  barFromPascalsGauge,
  barFromPsi,
  celsiusFromF,
  celsiusFromKelvin,
  degFromRadians,
  fahrenheitFromC,
  formatBar,
  formatC,
  formatNumber,
  gaugeFromAbsolute,
  inLbFromNm,
  kelvinFromC,
  lMinFromFlow,
  lbFtFromNm,
  nmFromInLb,
  nmFromLbFt,
  type Parsed,
  parseAngle,
  parseFlow,
  parseMass,
  parsePressure,
  parseTemperature,
  parseTemperatureDifference,
  parseTorque,
  pascalsGaugeFromBar,
  psiFromBar,
  radiansFromDeg,
} from './index.ts';

function value<T>(read: Parsed<T>): T {
  if (!read.ok) throw new Error(read.fault);
  return read.value;
}
const ways = (read: Parsed<unknown>): readonly string[] => {
  if (read.ok) throw new Error('was understood');
  expect(read.fault).toMatch(/^[^\n]{5,220}$/u);
  return read.ways;
};

describe('conversions', () => {
  // published: NIST SP 811 appendix B: 1 psi = 6.894757 kPa, 1 lbf ft = 1.355818 N m, 1 lbf in = 0.1129848 N m.
  it('agree with the published factors', () => {
    expect(barFromPsi(1) * 100).toBeCloseTo(6.894757, 6);
    expect(nmFromLbFt(1)).toBeCloseTo(1.355818, 6);
    expect(nmFromInLb(1)).toBeCloseTo(0.1129848, 7);
  });
  // published: US Army TM 55-1520-240-23-1, -4 hose nut 100 to 120 in-lb = 11.3 to 13.6 Nm.
  it('agree with the printed pair of an army table', () => {
    expect(formatNumber(nmFromInLb(100), 1)).toBe('11.3');
    expect(formatNumber(nmFromInLb(120), 1)).toBe('13.6');
  });
  it('go there and back', () => {
    fc.assert(
      fc.property(fc.double({ min: -300, max: 3000, noNaN: true }), (x) => {
        const near = (a: number): boolean => Math.abs(a - x) < 1e-9 * Math.max(1, Math.abs(x));
        return (
          near(celsiusFromF(fahrenheitFromC(x))) &&
          near(celsiusFromKelvin(kelvinFromC(x))) &&
          near(psiFromBar(barFromPsi(x))) &&
          near(lbFtFromNm(nmFromLbFt(x))) &&
          near(inLbFromNm(nmFromInLb(x))) &&
          near(degFromRadians(radiansFromDeg(x))) &&
          near(barFromPascalsGauge(gaugeFromAbsolute(absoluteFromGauge(pascalsGaugeFromBar(x)))))
        );
      }),
      { seed: 11, numRuns: 500 },
    );
  });
});

describe('parsePressure', () => {
  it.each([
    ['5 bar', 5],
    ['5bar', 5],
    ['75 psi', 5.171068],
    ['75 PSI', 5.171068],
    ['300 kPa', 3],
    ['0.35 MPa', 3.5],
    ['-0.7 bar', -0.7],
    ['1/2 bar', 0.5],
    ['28 inHg', 0.948189],
  ])('reads %s as gauge', (text, bar) => {
    const read = value(parsePressure(text));
    expect(read.kind).toBe('gauge');
    expect(read.pascals / 1e5).toBeCloseTo(bar, 5);
  });
  it('keeps absolute apart from gauge', () => {
    expect(value(parsePressure('1.3 bar abs'))).toEqual({ kind: 'absolute', pascals: 130_000 });
    expect(value(parsePressure('14.7 psia')).kind).toBe('absolute');
    expect(value(parsePressure('30 psig')).kind).toBe('gauge');
  });
  it('refuses a bare number, pounds, and less than vacuum', () => {
    expect(ways(parsePressure('5'))).toEqual(['5 bar', '5 psi', '5 kPa']);
    expect(ways(parsePressure('75 lb'))).toContain('75 psi');
    expect(parsePressure('-2 bar').ok).toBe(false);
    expect(parsePressure('-1 bar abs').ok).toBe(false);
  });
});

describe('parseTemperature', () => {
  // hand: C = (F - 32) / 1.8; 220 F = 104.444 C.
  it.each([
    ['105 \u00B0C', 105],
    ['105\u00B0C', 105],
    ['105 \u00BAC', 105],
    ['105\u2103', 105],
    ['105 degC', 105],
    ['105 deg C', 105],
    ['105c', 105],
    ['220 F', 104.4444],
    ['378.15 K', 105],
    ['-40 F', -40],
  ])('reads %s', (text, celsius) => {
    expect(celsiusFromKelvin(value(parseTemperature(text)))).toBeCloseTo(celsius, 4);
  });
  it('refuses degrees without a letter and anything below absolute zero', () => {
    expect(ways(parseTemperature('105'))).toEqual(['105 C', '105 F']);
    expect(ways(parseTemperature('105\u00B0'))).toEqual(['105 C', '105 F']);
    expect(parseTemperature('-300 C').ok).toBe(false);
  });
  it('does not shift a difference by 273', () => {
    expect(value(parseTemperatureDifference('36 F'))).toBeCloseTo(20, 9);
    expect(value(parseTemperatureDifference('20 C'))).toBe(20);
  });
});

describe('parseFlow', () => {
  // hand: US gallon 231 in3 = 3.785412 L; imperial 4.54609 L.
  it.each([
    ['45 L/min', 45],
    ['45 l/min', 45],
    ['45 lpm', 45],
    ['120 L/h', 2],
    ['12 US gal/min', 45.42494],
    ['12 usgpm', 45.42494],
    ['12 imp gal/min', 54.55308],
    ['1 cfm', 28.31685],
    ['600 cc/min', 0.6],
  ])('reads %s', (text, lMin) => {
    expect(lMinFromFlow(value(parseFlow(text)))).toBeCloseTo(lMin, 4);
  });
  it('refuses gallons that do not say which', () => {
    expect(ways(parseFlow('12 gal/min'))).toEqual(['12 US gal/min', '12 imp gal/min']);
    expect(ways(parseFlow('12 gpm'))).toEqual(['12 US gal/min', '12 imp gal/min']);
    expect(ways(parseFlow('30 gph'))).toEqual(['30 US gal/h', '30 imp gal/h']);
  });
});

describe('parseTorque, parseAngle, parseMass', () => {
  it('read trade units', () => {
    expect(value(parseTorque('25 Nm'))).toBe(25);
    expect(value(parseTorque('25 N\u00B7m'))).toBe(25);
    expect(value(parseTorque('18 lb-ft'))).toBeCloseTo(24.4047, 4);
    expect(value(parseTorque('18 ft lb'))).toBeCloseTo(24.4047, 4);
    expect(value(parseTorque('120 in-lb'))).toBeCloseTo(13.5582, 4);
    expect(degFromRadians(value(parseAngle('45 deg')))).toBeCloseTo(45, 9);
    expect(degFromRadians(value(parseAngle('-45\u00B0')))).toBeCloseTo(-45, 9);
    expect(value(parseAngle('0.5 rad'))).toBe(0.5);
    expect(value(parseMass('10 lb'))).toBeCloseTo(4.5359237, 7);
    expect(value(parseMass('450 g'))).toBeCloseTo(0.45, 9);
  });
  it('refuse what reads two ways', () => {
    expect(ways(parseTorque('18 lb'))).toEqual(['18 lb-ft', '18 in-lb']);
    expect(ways(parseTorque('18'))).toHaveLength(3);
    expect(ways(parseAngle('45'))).toEqual(['45 deg', '45 rad']);
    expect(ways(parseMass('10'))).toEqual(['10 kg', '10 lb']);
  });
});

describe('every reader', () => {
  const readers = {
    parseAngle,
    parseFlow,
    parseMass,
    parsePressure,
    parseTemperature,
    parseTemperatureDifference,
    parseTorque,
  };
  it('never throws, and gives one line or a finite number', () => {
    const signs = fc.string({
      unit: fc.constantFrom(...'0123456789./-+, barpsikPMCFKLgalminhNftlb\u00B0()\n\u0000'),
      maxLength: 20,
    });
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary', maxLength: 100 }),
          signs,
          fc.constantFrom('__proto__', '1 __proto__', '1 constructor', '1 toString'),
        ),
        (text) => {
          for (const read of Object.values(readers)) {
            const got = read(text);
            if (got.ok) {
              const n = typeof got.value === 'number' ? got.value : got.value.pascals;
              if (!Number.isFinite(n)) return false;
            } else if (got.fault === '' || got.fault.includes('\n')) return false;
          }
          return true;
        },
      ),
      { seed: 12, numRuns: 3000 },
    );
  });
  it('accepts every way that it offers', () => {
    for (const [name, read] of Object.entries(readers)) {
      for (const text of ['12', '12 gal/min', '12 gph', '12 lb', '12 deg', '12 l', '12 gal', '12 kgm', '12 ton']) {
        const got = read(text);
        if (got.ok) continue;
        for (const way of got.ways) expect([name, way, read(way).ok]).toEqual([name, way, true]);
      }
    }
  });
  it('reads back what it prints', () => {
    fc.assert(
      fc.property(fc.integer({ min: -9, max: 5000 }), (n) => {
        const p = value(parsePressure(formatBar(n / 10)));
        const t = value(parseTemperature(formatC(n)));
        return Math.abs(p.pascals / 1e4 - n) < 1e-6 && Math.abs(celsiusFromKelvin(t) - n) < 1e-6;
      }),
      { seed: 13, numRuns: 500 },
    );
  });
});
