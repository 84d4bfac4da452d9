import { describe, expect, it } from 'vitest';
import { type Car, type Circuit, readCar } from '#car';
import { catalogue } from '#standards';
import { drawnCircuit } from './drawn-circuit.ts';
import { heightMmG, pullG } from './pull.ts';

const port = (id: string, atMm: readonly number[]) => ({ id, atMm, faces: [1, 0, 0], end: { type: 'orb', dash: 12 } });
const box = (x: number) => [{ box: { minMm: [x, 0, 0], maxMm: [x + 50, 50, 50] } }];

/** A tank, a pump and a cooler in a ring of three lines. */
function ring(change: (circuit: Record<string, unknown>) => void = () => {}): { car: Car; circuit: Circuit } {
  const circuit: Record<string, unknown> = {
    id: 'oil',
    kind: 'coolant',
    lines: ['A', 'B', 'C'],
    pumps: [{ id: 'feed', from: 'pump.in', to: 'pump.out', displacementCcRev: 10, driveRatio: 0.5 }],
    passages: [
      {
        id: 'core',
        from: 'cooler.in',
        to: 'cooler.out',
        curveLMinKpa: [
          [10, 5],
          [20, 18],
        ],
      },
    ],
    vessels: [{ part: 'tank', kind: 'tank', volumeL: 5, fillL: 4 }],
  };
  change(circuit);
  const reading = readCar(
    JSON.stringify({
      fairlead: 1,
      parts: [
        { id: 'tank', class: 'fixed', shapes: box(0), ports: [port('out', [50, 20, 20]), port('back', [50, 40, 45])] },
        {
          id: 'pump',
          class: 'fixed',
          shapes: box(300),
          ports: [port('in', [300, 20, 20]), port('out', [350, 20, 20])],
        },
        {
          id: 'cooler',
          class: 'fixed',
          shapes: box(600),
          ports: [port('in', [600, 20, 20]), port('out', [650, 20, 20])],
        },
      ],
      lines: [
        { id: 'A', from: 'tank.out', to: 'pump.in', duty: 'oil-suction', dash: 12 },
        { id: 'B', from: 'pump.out', to: 'cooler.in', duty: 'oil-pressure', dash: 12 },
        { id: 'C', from: 'cooler.out', to: 'tank.back', duty: 'oil-return', dash: 12 },
      ],
      circuits: [circuit],
    }),
  );
  if (!('car' in reading) || reading.car === undefined) throw new Error(JSON.stringify(reading));
  return { car: reading.car, circuit: reading.car.circuits![0]! };
}

const texts = (change?: (circuit: Record<string, unknown>) => void): readonly string[] => {
  const { car, circuit } = ring(change);
  return drawnCircuit(car, catalogue(), circuit, new Map()).findings.map(({ text }) => text);
};

describe('drawing a circuit up from the car', () => {
  it('takes the lines, passages, pumps and vessels that belong to it', () => {
    const { car, circuit } = ring();
    const drawn = drawnCircuit(car, catalogue(), circuit, new Map());
    expect(drawn.findings).toEqual([]);
    expect(drawn.whole).toBe(true);
    expect(drawn.runs.map(({ line, boreMm }) => [line, boreMm > 10])).toEqual([
      ['A', true],
      ['B', true],
      ['C', true],
    ]);
    // Straight across is 250 mm; a hose without a way counts as 1.3 times that, with its two ends.
    expect(drawn.runs[0]!.lengthMm).toBeCloseTo(325, 6);
    expect(drawn.runs[0]!.assumed).toHaveLength(1);
  });

  it.each<[string, (circuit: Record<string, unknown>) => void, RegExp]>([
    [
      'a line that is not there',
      (c) => {
        c['lines'] = ['A', 'B', 'C', 'D'];
      },
      /names line D, which is not on the car \(nearest: [ABC]\)/,
    ],
    [
      'a part that is not there',
      (c) => {
        c['passages'] = [{ id: 'core', from: 'color.in', to: 'cooler.out', open: true }];
      },
      /passage core: there is no part color on the car \(nearest: cooler\)/,
    ],
    [
      'a port that is not there',
      (c) => {
        c['pumps'] = [{ id: 'feed', from: 'pump.inn', to: 'pump.out', displacementCcRev: 10, driveRatio: 1 }];
      },
      /pump feed: part pump has no port inn \(nearest: pump.in\)/,
    ],
    [
      'a curve of one point',
      (c) => {
        c['passages'] = [{ id: 'core', from: 'cooler.in', to: 'cooler.out', curveLMinKpa: [[10, 5]] }];
      },
      /passage core: its curve has 1 point; two or more are wanted/,
    ],
    [
      'a curve with a flow twice',
      (c) => {
        c['passages'] = [
          {
            id: 'core',
            from: 'cooler.in',
            to: 'cooler.out',
            curveLMinKpa: [
              [10, 5],
              [10, 7],
            ],
          },
        ];
      },
      /two points of its curve have the same flow/,
    ],
    [
      'a drilling without length',
      (c) => {
        c['passages'] = [{ id: 'core', from: 'cooler.in', to: 'cooler.out', boreMm: 8 }];
      },
      /boreMm 8 without lengthMm/,
    ],
    [
      'a relief valve that closes as it opens',
      (c) => {
        c['passages'] = [{ id: 'core', from: 'cooler.in', to: 'cooler.out', relief: { cracksBar: 5, fullFlowBar: 4 } }];
      },
      /relief fullFlowBar 4: above cracksBar 5 is wanted/,
    ],
    [
      'a vessel that is no part',
      (c) => {
        c['vessels'] = [{ part: 'tnak', kind: 'tank' }];
      },
      /vessel tnak is not a part of the car \(nearest: tank\)/,
    ],
    [
      'an overfull tank',
      (c) => {
        c['vessels'] = [{ part: 'tank', kind: 'tank', volumeL: 5, fillL: 6 }];
      },
      /filled with 6 L and holds 5 L/,
    ],
    [
      'a passage that ends where it begins',
      (c) => {
        c['passages'] = [{ id: 'core', from: 'cooler.in', to: 'cooler.in', open: true }];
      },
      /passage core: begins where it ends/,
    ],
    [
      'an open circuit',
      (c) => {
        c['lines'] = ['A', 'B'];
      },
      /cooler.out: what flows in there has no way on/,
    ],
    [
      'two free surfaces in one space',
      (c) => {
        c['vessels'] = [
          { part: 'tank', kind: 'tank' },
          { part: 'pump', kind: 'pot' },
        ];
        c['passages'] = [{ id: 'both', from: 'tank', to: 'pump', open: true }];
      },
      /joins tank and pump without loss: two free surfaces cannot be at odds/,
    ],
    [
      'two free surfaces in one space, from port to port',
      (c) => {
        c['vessels'] = [
          { part: 'tank', kind: 'tank' },
          { part: 'cooler', kind: 'pot' },
        ];
        c['passages'] = [{ id: 'both', from: 'tank.back', to: 'cooler.out', open: true }];
      },
      /passage both joins tank and cooler without loss: two free surfaces cannot be at odds/,
    ],
  ])('names %s', (_, change, words) => {
    expect(texts(change).filter((text) => words.test(text))).toHaveLength(1);
  });
});

describe('the pull on fluid in the car', () => {
  it('points where a plumb bob in the car would hang', () => {
    expect(pullG({})).toEqual([0, 0, -1]);
    // Speeding up: rearward (+X). Braking: forward. A right-hander: to the left (-Y).
    expect(pullG({ g: { forwardG: 0.8 } })[0]).toBeCloseTo(0.8, 12);
    expect(pullG({ g: { forwardG: -1.4 } })[0]).toBeCloseTo(-1.4, 12);
    expect(pullG({ g: { rightG: 1.5 } })[1]).toBeCloseTo(-1.5, 12);
    // Nose up on the jack: fluid runs to the tail; right side down: to the right.
    expect(pullG({ pitchDeg: 10 })[0]).toBeCloseTo(Math.sin(Math.PI / 18), 12);
    expect(pullG({ rollDeg: 10 })[1]).toBeCloseTo(Math.sin(Math.PI / 18), 12);
    // Through a dip the car is pushed up and everything weighs more.
    expect(pullG({ g: { upG: 1 } })[2]).toBeCloseTo(-2, 12);
  });

  it('counts heights against itself', () => {
    expect(heightMmG([0, 0, -1], [5, 6, 70])).toBe(70);
    // At 1 g of cornering as well, a place 100 mm further outward lies 100 mm lower.
    expect(heightMmG(pullG({ g: { rightG: 1 } }), [0, -100, 0])).toBeCloseTo(-100, 12);
  });
});
