import type { Car, Panel, PanelWindow } from '#car';
import { outlinePoints } from '#geometry';
import { describe, expect, it } from 'vitest';
import { panelLayouts } from '../panel-layouts.ts';
import { onCar } from '../surface/facet-at.ts';

type V = [number, number, number];

/** A sheet of 400 by 200 and one of 260 by 200 that goes on from it, its corners named from elsewhere and its outside the other way. */
const pair = (window: Partial<PanelWindow>, lift = 0): Panel[] => {
  const corners = (places: readonly V[]) => places.map((atMm, i) => ({ id: 'ABCD'[i]!, atMm }));
  return [
    {
      id: 'left',
      thicknessMm: 1.2,
      outside: [0, 0, 1],
      corners: corners([
        [0, 0, 0],
        [400, 0, 0],
        [400, 200, 0],
        [0, 200, 0],
      ]),
      windows: [
        {
          id: 'R',
          shape: 'trapezoid',
          along: { from: 'A', to: 'B' },
          webMm: 12,
          edgeMm: 20,
          cornerDrillMm: 12,
          inLineWith: ['right'],
          ...window,
        },
      ],
    },
    {
      id: 'right',
      thicknessMm: 1.2,
      outside: [0, 0, -1],
      corners: corners([
        [660, 200, lift],
        [660, 0, lift],
        [400, 0, lift],
        [400, 200, lift],
      ]),
    },
  ];
};
const layoutsOf = (panels: readonly Panel[]) => panelLayouts({ parts: [], movers: [], panels } as unknown as Car);

/** Openings on the car: from and to along X, and across along Y. */
const onTheCar = (panels: readonly Panel[]) =>
  layoutsOf(panels).map(({ windows, facets }) =>
    windows
      .flatMap(({ openings }) => openings)
      .map(({ outline }) => outlinePoints(outline, 0.01).map((p) => onCar(facets, p)))
      .map((points) => ({
        x: [Math.min(...points.map(([x]) => x)), Math.max(...points.map(([x]) => x))] as const,
        y: [Math.min(...points.map(([, y]) => y)), Math.max(...points.map(([, y]) => y))] as const,
      }))
      .toSorted((a, b) => a.x[0] - b.x[0]),
  );

describe('a row of windows that goes on over the next panel', () => {
  it.each([
    // Room between the edges 360 and 220. Trapezoids: 3 w + 24 <= 360 and 2 w + 12 <= 220, so w = 104.
    ['trapezoid', { count: 5, sizeMm: [1, 80] }, [3, 2], 104, 80],
    // (360 + 12) / 72 and (220 + 12) / 72.
    ['round', { sizeMm: [1, 60], cornerDrillMm: undefined }, [5, 3], 60, 60],
    // Flat to flat 60 sqrt(3)/2 = 51.96: 372 / 63.96 and 232 / 63.96; its points are rounded by the drill.
    ['hexagon', { sizeMm: [1, 60] }, [5, 3], 51.96, undefined],
    ['slot', { sizeMm: [1, 80] }, [15, 9], 12, 80],
    [
      'own',
      {
        outlineMm: [
          [-24, -20],
          [24, -20],
          [24, 20],
          [-24, 20],
        ],
      },
      [6, 3],
      48,
      40,
    ],
  ] as const)(
    '%s: as many as there is room for on each, all alike, in one line (hand)',
    (shape, window, counts, wide, high) => {
      const found = onTheCar(pair({ ...window, shape } as never));
      expect(found.map((openings) => openings.length)).toEqual(counts);
      for (const { x, y } of found.flat()) {
        expect(x[1] - x[0]).toBeCloseTo(wide, 1);
        if (high !== undefined) expect(y[1] - y[0]).toBeCloseTo(high, 1);
        expect((y[0] + y[1]) / 2).toBeCloseTo(100, 1);
        // 20 mm from the joint at X 400 on either side of it.
        expect(x[1] <= 380.01 || x[0] >= 419.99).toBe(true);
      }
    },
  );

  it('keeps so far in from its edge as asked, on both panels, whichever way round the edge is named', () => {
    for (const along of [
      { from: 'A', to: 'B' },
      { from: 'B', to: 'A' },
    ])
      for (const { y } of onTheCar(pair({ count: 5, sizeMm: [1, 40], centreAcrossMm: 60, along })).flat())
        expect((y[0] + y[1]) / 2).toBeCloseTo(60, 6);
  });

  it('is refused in words: more than there is room for, a height that is not said, a panel that it misses', () => {
    const told = (panels: readonly Panel[]) =>
      layoutsOf(panels).flatMap(({ findings }) => findings.filter(({ code }) => code === 'panel-window-no-room'));
    expect(told(pair({ count: 60, sizeMm: [1, 80] })).map(({ panel, text }) => [panel, text])).toEqual([
      ['left', 'left: row R: 60 openings wanted, 23 is the most between the joints'],
    ]);
    expect(told(pair({ count: 3 }))[0]!.text).toContain('how high it is across its line is not said');
    const [left, right] = pair({ count: 3, sizeMm: [1, 80] });
    const aside = {
      ...right!,
      corners: right!.corners!.map((c) => ({ ...c, atMm: [c.atMm![0], c.atMm![1] + 300, 0] as V })),
    };
    expect(told([left!, aside]).map(({ panel, text }) => [panel, text])).toEqual([
      ['right', 'right: row R: its line does not pass over it (a row of left)'],
    ]);
  });
});
