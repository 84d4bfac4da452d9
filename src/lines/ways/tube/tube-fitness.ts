import { dutyNeeds } from '#standards';
import type { HoseFinding, LineConditions } from '../../make-up/hose-fitness.ts';
import type { TubeAsked, TubeRule } from './tube-rule.ts';

/** What speaks against a tube on this line: pressure, temperature, fluid, by the catalogue's row of its size. */
export function tubeFitness(tube: TubeAsked, { row }: TubeRule, line: LineConditions): HoseFinding[] {
  const need = dutyNeeds(line.duty);
  const source = row?.source ?? 'builder';
  const name = `${tube.odMm} x ${tube.wallMm} mm ${tube.material ?? ''} tube`.replace('  ', ' ');
  if (row === undefined) {
    return [
      {
        code: 'tube-unknown',
        level: 'note',
        text: `${name} is not in the catalogue: pressure and temperature are not checked`,
        source,
        breaks: 'pressure',
      },
    ];
  }
  const found: HoseFinding[] = [];
  const bar = line.pressureBar ?? need.pressureBar;
  // Another material of this size says nothing about this one, and a usual figure is no maker's limit.
  const known = isSameMaterial(tube, row.material) && row.source !== 'common-practice';
  if (bar > row.pressureBar) {
    found.push({
      code: 'tube-pressure',
      level: known ? 'stop' : 'fix',
      text: `${name}: ${bar} bar asked; the catalogue's ${row.name} is rated ${row.pressureBar} bar`,
      value: bar,
      limit: row.pressureBar,
      unit: 'bar',
      source,
      breaks: 'pressure',
    });
  }
  const temperatureC = line.temperatureC ?? need.maxC;
  if (temperatureC > row.maxC) {
    found.push({
      code: 'tube-temperature',
      level: known ? 'stop' : 'fix',
      text: `${name}: ${temperatureC} °C asked; the catalogue's ${row.name} is rated ${row.maxC} °C`,
      value: temperatureC,
      limit: row.maxC,
      unit: '°C',
      source,
      breaks: 'temperature',
    });
  }
  if (!row.fluids.includes(need.fluid)) {
    found.push({
      code: 'tube-fluid',
      level: known ? 'stop' : 'fix',
      text: `${name}: the catalogue does not list its row for ${need.fluid}`,
      source,
      breaks: 'fluid',
    });
  }
  return found;
}

const isSameMaterial = (tube: TubeAsked, material: string): boolean => {
  const asked = (tube.material ?? '').toLowerCase();
  return (
    asked !== '' &&
    (material.toLowerCase().startsWith(asked) || (asked !== 'steel' && material.toLowerCase().includes(asked)))
  );
};
