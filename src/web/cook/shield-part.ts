import type { Car, Edit, Part } from '#car';
import type { HeatCure } from '#heat';

type Plate = NonNullable<HeatCure['plate']>;
type Point = [number, number, number];
const point = ([x, y, z]: readonly [number, number, number]): Point => [x, y, z];

/** A plate that was worked out, as a part of the car: its own id, what it is for, as sheet comes. */
export function shieldPart(car: Car, line: string, plate: Plate, grams: number | undefined): Part {
  return {
    id: newId(car, `shield-${line}`),
    name: `Heat shield for ${line}`,
    class: 'fixed',
    shapes: [
      {
        box: { minMm: point(plate.minMm), maxMm: point(plate.maxMm) },
        turnDeg: point(plate.turnDeg),
        atMm: point(plate.atMm),
      },
    ],
    ports: [],
    finish: plate.finish,
    emissivity: plate.emissivity,
    ...(grams === undefined ? {} : { massKg: Math.max(1, Math.round(grams)) / 1000 }),
    note: `Placed by the tool where it cuts the view of ${line} best: ${plate.thicknessMm} mm sheet. Fixings are the builder's.`,
  };
}

export const shieldEdits = (part: Part): readonly Edit[] => [{ do: 'add-part', part }];

function newId({ parts }: Car, wanted: string): string {
  const has = (id: string): boolean => parts.some((part) => part.id === id);
  if (!has(wanted)) return wanted;
  let n = 2;
  while (has(`${wanted}-${n}`)) n++;
  return `${wanted}-${n}`;
}
