import type { Car } from '#car';
import type { BayPart } from '#bay';
import type { PanelLayout } from '#panels';
import { type Clause, type Measured, notMeasured } from './measured.ts';

/** One measure of one part. */
export function measuredOfPart(car: Car, part: BayPart, clause: Clause): Measured {
  if (clause.measure === 'volume-l') return volume(car, part);
  if (clause.measure === 'height-mm') return height(part, clause);
  if (clause.measure === 'temperature-c')
    return part.part.surfaceC === undefined
      ? notMeasured('no surface temperature is entered')
      : { value: part.part.surfaceC, text: 'its surface, as entered' };
  return notMeasured('nothing measures it on a part');
}

/** What a vessel holds: as entered, else the room inside as drawn. */
function volume(car: Car, { id }: BayPart): Measured {
  for (const { vessels } of car.circuits ?? [])
    for (const vessel of vessels ?? []) {
      if (vessel.part !== id) continue;
      if (vessel.volumeL !== undefined) return { value: vessel.volumeL, text: 'holds, to the brim, as entered' };
      const { cylinder, box } = vessel.inside ?? {};
      if (cylinder !== undefined) {
        const long = Math.hypot(...[0, 1, 2].map((n) => cylinder.toMm[n]! - cylinder.fromMm[n]!));
        return { value: (Math.PI * cylinder.radiusMm ** 2 * long) / 1e6, text: 'its inside as entered, a cylinder' };
      }
      if (box !== undefined)
        return {
          value: [0, 1, 2].reduce((litres, n) => litres * (box.maxMm[n]! - box.minMm[n]!), 1e-6),
          text: 'its inside as entered, a box',
        };
    }
  return notMeasured('no circuit says what it holds');
}

/** Its lowest place where it must be so high at least, its highest where at most. */
function height({ bounds }: BayPart, { least }: Clause): Measured {
  if (bounds === null) return notMeasured('it has no shape');
  return least === undefined
    ? { value: bounds.max[2], text: "its highest place over the car's zero" }
    : { value: bounds.min[2], text: "its lowest place over the car's zero" };
}

/** One measure of one panel. */
export function measuredOfPanel({ panel, sheet }: PanelLayout, clause: Clause): Measured {
  if (clause.measure === 'wall-mm') return { value: sheet.thicknessMm, text: 'sheet thickness' };
  if (clause.measure === 'material')
    return { word: panel.sheet ?? 'not entered', text: `sheet ${panel.sheet ?? 'not entered'}` };
  if (clause.measure === 'sealed') {
    const edges = panel.edges ?? [];
    const open = edges.filter(({ sealed }) => sealed !== true);
    return edges.length > 0 && open.length === 0
      ? { word: 'yes', text: 'every edge is entered as sealed' }
      : notMeasured(`${open.length} of ${edges.length} edges are not entered as sealed: look`);
  }
  return notMeasured('nothing measures it on a panel');
}
