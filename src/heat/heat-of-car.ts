import type { Car, Case } from '#car';
import { CarHeat } from './car/car-heat.ts';
import { runFindings } from './car/heat-findings.ts';
import { agreedCorrections } from './car/agreed-corrections.ts';
import { comparedReadings, hasAgreed, noCorrections, toldCorrections } from './car/readings.ts';
import { RAY_SEED } from './car/heat-model.ts';
import type { HeatAnswer, HeatCase } from './heat-answer.ts';
import type { HeatAsk } from './heat-ask.ts';

/** Where a car states no case: a warm day at full load, marked as assumed. */
const ASSUMED: Case = {
  id: 'assumed',
  name: 'Assumed: hot, at speed',
  engineRpm: 5000,
  oilC: 105,
  coolantC: 95,
  airC: 25,
};

/** The cases that heat is worked out for. */
export function heatCases(car: Car, caseId?: string): readonly Case[] {
  const cases = car.cases === undefined || car.cases.length === 0 ? [ASSUMED] : car.cases;
  return caseId === undefined ? cases : cases.filter(({ id }) => id === caseId);
}

/** How hot every line, panel and part gets, in every case. */
export function heatOfCar(ask: HeatAsk): HeatAnswer {
  const cases = heatCases(ask.car, ask.caseId);
  let done = 0;
  const goesOn = (): boolean => ask.watch?.(done++, cases.length + 1) ?? true;
  const work = new CarHeat(ask);
  goesOn();
  const answers: HeatCase[] = [];
  for (const at of cases) {
    if (!goesOn()) break;
    answers.push(work.inCase(at));
  }
  const { model } = work.traced([]);
  const readings = comparedReadings(ask.car, answers);
  const corrections = hasAgreed(ask.car) ? agreedCorrections(ask.car, work, answers) : noCorrections;
  work.correctBy(corrections);
  const corrected = corrections === noCorrections ? answers : answers.map(({ case: at }) => work.inCase(at));
  return {
    cases: corrected,
    readings: toldCorrections(readings, corrections),
    rays: { patches: model.patches.length, raysShot: model.raysShot, seed: RAY_SEED },
    findings: runFindings(model),
  };
}
