import { type Car, type OriginReport, type PointReport, resolveOrigins } from '#car';
import type { Snag } from './snag.ts';

/** Measurements that do not agree with each other: what was left out, and what cannot be told apart. */
export function measuredSnags(car: Car): Snag[] {
  const isMeasured =
    car.parts.some((part) => part.ports.some((port) => port.measured !== undefined)) || (car.origins ?? []).length > 0;
  if (!isMeasured) return [];
  const { origins, points } = resolveOrigins(car).report;
  return [
    ...origins.flatMap((report) => disagreeing(report.origin, report)),
    ...points.flatMap((report) => disagreeing(report.port, report, report.atMm)),
  ];
}

function disagreeing(
  about: string,
  report: Pick<OriginReport | PointReport, 'readings' | 'rmsMm' | 'remarks'>,
  atMm?: Snag['atMm'],
): Snag[] {
  const [part] = atMm === undefined ? [] : about.split('.');
  const apart = report.readings.filter((reading) => reading.disagrees);
  const worst = apart.reduce(
    (most, reading) => Math.max(most, reading.residualMm),
    apart.length === 0 ? report.rmsMm : 0,
  );
  const known = Math.max(...(apart.length === 0 ? report.readings : apart).map((reading) => reading.knownToMm));
  return report.remarks.map((text, i) => ({
    id: `${about.replaceAll(/[\s.]+/g, '-')}-measured${i === 0 ? '' : `-${i + 1}`}`,
    kind: 'measured',
    level: 'fix',
    question: 'fit',
    ...(part === undefined ? {} : { part }),
    text: /[.!?]$/.test(text) ? text : `${text}.`,
    value: Number(worst.toFixed(1)),
    limit: Number(known.toFixed(1)),
    unit: 'mm',
    source: 'how well the readings are known, by your own word or the usual tape',
    ...(atMm === undefined ? {} : { atMm }),
    cures: ['measure it again from the same marks, or from one more'],
  }));
}
