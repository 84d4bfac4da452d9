import { type Car, carFrom, type Edit, faultLine } from '#car';

/** A car of two parts, two ports and a line. For tests. */
export function smallCar(name = 'Small car'): Car {
  const part = (id: string, x: number) => ({
    id,
    name: id,
    class: 'fixed',
    shapes: [{ box: { minMm: [x, 0, 0], maxMm: [x + 100, 100, 100] } }],
    ports: [{ id: 'out', atMm: [x, 50, 50], faces: [-1, 0, 0], end: { type: 'orb', dash: 12 } }],
  });
  const lines = [{ id: 'L1', from: 'tank.out', to: 'pump.out', duty: 'oil-return', dash: 12 }];
  const reading = carFrom({ fairlead: 1, name, parts: [part('tank', 0), part('pump', 1000)], lines });
  if (!reading.ok) throw new RangeError(reading.faults.map(faultLine).join('\n'));
  return reading.car;
}

export const renamed = (name: string): Edit => ({ do: 'set-name', name });

export const partNamed = (part: string, name: string): Edit => ({ do: 'set-part', part, field: 'name', value: name });
