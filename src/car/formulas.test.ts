import { workFormula } from '#sources';
import { expect, it } from 'vitest';
import { formulas } from './formulas.ts';

it.each(formulas.map((formula) => [formula.id, formula] as const))('%s gives its example', (_, formula) => {
  const worked = workFormula(formula, formula.example.given);
  expect(JSON.stringify(worked)).toContain('"value"');
  expect(formula.evaluate(formula.example.given)).toBeCloseTo(formula.example.gives, formula.example.digits);
});

it('a car rolled right side down lowers its right', () => {
  // Hand: 500 to the right at 30 degrees lies 250 lower.
  expect(formulas[0]!.evaluate({ xMm: 0, yMm: 500, zMm: 0, pitchDeg: 0, rollDeg: 30 })).toBeCloseTo(-250, 9);
});
