import { describe, expect, it } from 'vitest';
import { applyEdit, type Car, carFrom, type Panel } from '#car';
import { laidAsTyped } from './panel-draft.ts';
import { cornerMoved, movables, panelMoved } from './moved-on-flat.ts';

const at = (x: number, y: number): [number, number, number] => [x, y, 0];
const panel: Panel = {
  id: 'PN1',
  thicknessMm: 1.2,
  outside: [0, 0, 1],
  corners: [
    { id: 'A', atMm: at(0, 0) },
    { id: 'B', atMm: at(800, 0) },
    { id: 'C', atMm: at(800, 400) },
    { id: 'D', atMm: at(0, 400) },
  ],
  windows: [
    {
      id: 'V1',
      shape: 'trapezoid',
      count: 1,
      sizeMm: [200, 100],
      along: { from: 'A', to: 'B' },
      centreAlongMm: 400,
      centreAcrossMm: 200,
    },
  ],
  holes: [{ id: 'H1', atMm: at(100, 80), diameterMm: 30 }],
};
const reading = carFrom({ fairlead: 1, name: 'Shed', parts: [], movers: [], lines: [] });
if (!reading.ok) throw new Error(reading.faults[0]!.place);
const car: Car = { ...reading.car, panels: [panel] };
const corner = ([id]: readonly string[]): readonly number[] => laid.flats[0]!.corners.find((c) => c.id === id)!.at;
const laid = laidAsTyped(car, panel)[0]!;
const of = (id: string) => movables(laid).find((one) => one.id === id)!;

/** Where things are on the car, by the flat's own corners: A is the origin of the car here, B lies along X (hand). */
const inCar = ([x, y]: readonly [number, number]): readonly number[] => {
  const [a, b, d] = [corner(['A']), corner(['B']), corner(['D'])] as [number[], number[], number[]];
  const along = (p: number[], long: number) => ((x - a[0]!) * (p[0]! - a[0]!) + (y - a[1]!) * (p[1]! - a[1]!)) / long;
  return [along(b, 800), along(d, 400)];
};

describe('what is moved on the flat', () => {
  it('stands on the car where the numbers say', () => {
    for (const [i, mm] of [400, 200].entries()) expect(inCar(of('V1').at)[i]).toBeCloseTo(mm, 6);
    expect(inCar(of('H1').at).map((mm) => Math.round(mm * 1e6) / 1e6)).toEqual([100, 80]);
  });

  it.each(['V1', 'H1'])('%s comes to lie as far off as it was drawn, whichever way the flat is turned', (id) => {
    const by = [37, -12] as const;
    const { edit } = panelMoved(laid, panel, of(id), by);
    const after = applyEdit(car, edit).car.panels![0]!;
    const now = movables(laidAsTyped(car, after)[0]!).find((one) => one.id === id)!;
    expect(now.at[0] - of(id).at[0]).toBeCloseTo(37, 1);
    expect(now.at[1] - of(id).at[1]).toBeCloseTo(-12, 1);
  });

  it('hand: a corner goes along its sheet, here along car X and Y, also where the sheet leans', () => {
    const movedBy = (one: Panel, by: readonly [number, number]) => {
      const flat = laidAsTyped(car, one)[0]!;
      return panelMoved(flat, one, movables(flat).find(({ kind, id }) => kind === 'corner' && id === 'C')!, by);
    };
    // Corners run counter-clockwise seen from outside: x of the drawing is car X, y car Y.
    const { edit, panel: after } = movedBy(panel, [10, -4]);
    expect(after.corners![2]!.atMm).toEqual([810, 396, 0]);
    expect(applyEdit(car, edit).car.panels![0]!.corners).toEqual(after.corners);
    // On a sheet that climbs 3 in 4 along Y, 5 mm into it are 4 mm right and 3 mm up.
    const leaning = panel.corners!.map(({ id, atMm: [x, y] = [0, 0, 0] }) => ({
      id,
      atMm: [x, y, y * 0.75] as [number, number, number],
    }));
    const flat = laidAsTyped(car, { ...panel, corners: leaning })[0]!;
    expect(cornerMoved(flat, 'C', [0, 5])).toEqual([800, 404, 303]);
  });

  it('leaves a hole by its place on the car for one by its place on the flat', () => {
    const { panel: after } = panelMoved(laid, panel, of('H1'), [10, 0]);
    expect(after.holes![0]).toMatchObject({ id: 'H1', diameterMm: 30 });
    expect(after.holes![0]!.atMm).toBeUndefined();
  });
});
