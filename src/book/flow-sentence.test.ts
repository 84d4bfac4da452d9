import { describe, expect, it } from 'vitest';
import { quantityWords, usFlowSentence } from './flow-sentence.ts';

// By hand: 1 bar = 14.5038 psi, 1 kPa = 0.145038 psi, 1 US gal = 3.785412 L, 1 ft = 304.8 mm, 1 in = 25.4 mm, 1 US fl oz = 29.5735 ml.
describe('a sentence about flow, in psi, US gallons and inches', () => {
  it.each([
    [
      "Cold start: the pump's inlet stands at -0.23 bar (-0.24 with the thickest oil that its grade allows); below -0.20 oil gives off its air and the pump fills with it: the feed loses 0.24 bar",
      "Cold start: the pump's inlet stands at -3.3 psi (-3.5 with the thickest oil that its grade allows); below -2.9 oil gives off its air and the pump fills with it: the feed loses 3.5 psi",
    ],
    [
      'Scavenge, pan front pulls 0.90 bar (0.01 to 0.91 as froth is reckoned); 0.70 is the most that is usual',
      'Scavenge, pan front pulls 13.1 psi (0.15 to 13.2 as froth is reckoned); 10.2 is the most that is usual',
    ],
    [
      'O1 in -20, not -16: +14.6 kPa, -0.08 bar, which is enough',
      'O1 in -20, not -16: +2.1 psi, -1.2 psi, which is enough',
    ],
    [
      'Cold start: the relief valve sends 7.3 of 11.1 L/min back; the engine gets 3.8 at 5.5 bar behind the pump',
      'Cold start: the relief valve sends 1.9 of 2.9 US gal/min back; the engine gets 1.0 at 79.8 psi behind the pump',
    ],
    [
      'half full it carries 0.04 L/min of oil as foam of three times its volume; 0.17 comes',
      'half full it carries 0.01 US gal/min of oil as foam of three times its volume; 0.04 comes',
    ],
    ['turbo-pot stands at -1.2 mbar', 'turbo-pot stands at -0.017 psi'],
    ['the gallery has 2.9 bar; 4.2 is usual at 6000 rpm', 'the gallery has 42.1 psi; 60.9 is usual at 6000 rpm'],
    [
      'oil runs at 2.3 m/s; hydraulic practice for suction; a flooded short feed stands 2.5 m/s',
      'oil runs at 7.5 ft/s; hydraulic practice for suction; a flooded short feed stands 8.2 ft/s',
    ],
    [
      'the oil at 22 °C or warmer before 1500 rpm is asked of it: enough',
      'the oil at 72 °F or warmer before 1500 rpm is asked of it: enough',
    ],
    [
      'air stays in C1, 11 mm deep, up to 478 ml: nose up 3 degrees',
      'air stays in C1, 0.43 in deep, up to 16 fl oz: nose up 3 degrees',
    ],
    ['tank falls from 8.0 to 3.94 L at 50.8 s', 'tank falls from 2.11 to 1.04 US gal at 50.8 s'],
    ['has 19.7 kPa over it; 20 kPa is wanted', 'has 2.86 psi over it; 2.90 psi is wanted'],
    ['the water settles 0.1 K cooler', 'the water settles 0.2 °F cooler'],
    ['O1: a straight end instead of 148 degrees at tank.out', 'O1: a straight end instead of 148 degrees at tank.out'],
    ['F5 led round the cell (2.5 m more)', 'F5 led round the cell (8.2 ft more)'],
    ['0.5 mm needs a plan of 0.52 m²', '0.020 in needs a plan of 5.6 ft²'],
  ])('%s', (metric, inches) => {
    expect(usFlowSentence(metric)).toBe(inches);
  });

  it('leaves the names that the builder gave', () => {
    const text =
      'the bottom of Header tank, 1.3 bar cap stands 15 mm over the highest water (head.bleed), its water 80 mm';
    expect(usFlowSentence(text, ['Header tank', 'Header tank, 1.3 bar cap'])).toBe(
      'the bottom of Header tank, 1.3 bar cap stands 0.59 in over the highest water (head.bleed), its water 3.1 in',
    );
  });

  it('says a number with its unit in either', () => {
    expect(quantityWords(-0.2, 'bar', 'metric')).toBe('−0.20 bar');
    expect(quantityWords(-0.2, 'bar', 'inch')).toBe('−2.9 psi');
    expect(quantityWords(95, 'degC', 'inch')).toBe('203 °F');
    expect(quantityWords(65.9, '%', 'inch')).toBe('65.9 %');
  });
});

describe('a number beside the limit that it breaks', () => {
  it('has as many digits as tell the two apart, in either units, and no more otherwise', () => {
    expect(quantityWords(-0.204, 'bar', 'metric', -0.2)).toBe('−0.204 bar');
    expect(quantityWords(-0.22, 'bar', 'metric', -0.2)).toBe('−0.22 bar');
    // hand: 0.2 bar is 2.9008 psi, 0.204 is 2.9588.
    expect(quantityWords(0.204, 'bar', 'inch', 0.2)).toBe('3.0 psi');
    expect(quantityWords(0.201, 'bar', 'inch', 0.2)).toBe('2.92 psi');
    expect(quantityWords(0.204, 'bar', 'metric')).toBe('0.20 bar');
  });
});
