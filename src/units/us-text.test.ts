import { describe, expect, it } from 'vitest';
import { usText } from './us-text.ts';

describe('a sentence about flow in US units', () => {
  // published: NIST SP 811 appendix B: 1 psi = 6894.757 Pa, 1 US gal = 3.785412 L, 1 qt = 0.946353 L, 1 fl oz = 29.57353 mL, 1 ft = 0.3048 m.
  it.each([
    ["the pump's inlet stands at -0.22 bar (-0.23 bar with", "the pump's inlet stands at -3.2 psi (-3.3 psi with"],
    ['pulls 0.88 bar (0.01 to 0.91 bar as froth', 'pulls 12.8 psi (0.15 to 13.2 psi as froth'],
    ['O1 in -24, not -16: +19.2 kPa, -0.03 bar', 'O1 in -24, not -16: +2.8 psi, -0.44 psi'],
    ['sends 7.4 of 11.1 L/min back', 'sends 2.0 of 2.9 gal/min back'],
    ['keeps 2.30 L below, 0.60 L is stated', 'keeps 2.4 qt (2.30 L) below, 0.63 qt (0.60 L) is stated'],
    ['up to 3720 ml, or 60 mL', 'up to 3.9 qt (3720 mL), or 2.0 fl oz (60 mL)'],
    // A figure and its limit are told apart: 19.7 and 20 kPa are 2.857 and 2.901 psi.
    ['has 19.7 kPa over it; 20 kPa is wanted', 'has 2.86 psi over it; 2.90 psi is wanted'],
    ['gas stands at 60 mbar', 'gas stands at 0.87 psi'],
    ['runs at 3.4 m/s in C1', 'runs at 11.2 ft/s in C1'],
    ['the oil at 35 °C or warmer, 10 K of margin', 'the oil at 35 °C (95 °F) or warmer, 18 °F of margin'],
    // published: NIST SP 811: a difference of 1 K is 1.8 degrees Fahrenheit; per kelvin stays.
    [
      '110 °C (+-16 K), most of it from K1 (0.4 K), 5 W/(m K)',
      '110 °C (230 °F) (+-29 °F), most of it from K1 (0.7 °F), 5 W/(m K)',
    ],
    ['a plan of 0.52 m², 12 mm up, 3 m along', 'a plan of 5.6 ft², 12 mm up, 9.8 ft along'],
    ['O1: 9.6 L/min', 'O1: 2.5 gal/min'],
    // published: NIST SP 811: 1 ft3/min = 4.719474e-4 m3/s.
    ['and 202 L/s come in there', 'and 428 cfm come in there'],
    // 1 in = 2.54 cm, so 6.4516 cm2 to the square inch.
    // 1 lbf = 4.448222 N, 1 lbf ft = 1.355818 N m, 1 MPa = 145.04 psi; stresses per length stay.
    ['1.4 N at each corner, 3.0 MPa; 2.9 N m; 5 N/mm', '0.31 lbf at each corner, 435 psi; 2.1 lbf ft; 5 N/mm'],
    ['300.0 cm2 wanted, 110.6 cm2 is the most', '47 in2 wanted, 17.1 in2 is the most'],
  ])('%s', (metric, us) => expect(usText(metric)).toBe(us));

  it('leaves the names that the builder gave', () =>
    expect(usText('Header tank, 1.3 bar cap stands at 1.3 bar', ['Header tank', 'Header tank, 1.3 bar cap'])).toBe(
      'Header tank, 1.3 bar cap stands at 18.9 psi',
    ));
});
