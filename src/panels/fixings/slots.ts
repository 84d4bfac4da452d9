import type { Car, Panel } from '#car';
import type { Point2, Vec } from '#geometry';
import { panelFixing, sheetRule } from '#standards';
import { growthWithHeat } from '../flat/bend-formulas.ts';
import type { PlacedFixing } from '../layout.ts';
import type { PanelSheet } from '../panel-sheet.ts';
import { type MoverReach, moverReach } from './mover-reach.ts';

/** Slots are filed in half millimetres. */
const SLOT_STEP_MM = 0.5;

/** How much warmer a panel gets than when it was drilled [K]. */
export const warmedBy = (panel: Panel): number =>
  sheetRule(panel.class === 'hot' ? 'hot-warmed-by' : 'warmed-by').value;

/**
 * Fixings drawn out along their edge where the panel grows with heat against what holds it, or where the car asks for slots. The
 * one nearest the middle of each edge stays round and holds the place.
 */
export function slottedFixings(
  panel: Panel,
  fixings: readonly PlacedFixing[],
  sheet: PanelSheet,
): readonly PlacedFixing[] {
  const grows = (panel.removable === true || panel.class === 'hot') && sheet.row?.growthPerMk !== undefined;
  return fixings.map((fixing) => {
    const row = fixings.filter(({ edge }) => edge === fixing.edge);
    const held = row[Math.floor((row.length - 1) / 2)]!;
    const far = Math.hypot(fixing.at[0] - held.at[0], fixing.at[1] - held.at[1]);
    const asked = panel.edges?.find(
      ({ from, to }) => `${from}-${to}` === fixing.edge || `${to}-${from}` === fixing.edge,
    )?.fixing?.slotMm;
    if (asked !== undefined)
      return asked > 0 && fixing !== held ? { ...fixing, slotMm: fixing.holeMm + asked } : fixing;
    if (!grows) return fixing;
    const play = (fixing.holeMm - panelFixing(fixing.kind, fixing.size).shankMm) / 2;
    const growth = growthWithHeat(sheet.row.growthPerMk, far, warmedBy(panel));
    if (growth <= play) return fixing;
    return { ...fixing, slotMm: fixing.holeMm + Math.ceil((2 * (growth - play)) / SLOT_STEP_MM) * SLOT_STEP_MM };
  });
}

/** A fixing that ties the panel to something that moves against it. */
export interface TiedFixing {
  readonly fixing: PlacedFixing;
  readonly at: Vec;
  readonly into: string;
  readonly moves: MoverReach;
}

/** Fixings into a part or panel that hangs on another mover than this panel does: how far the two go against each other. */
export function tiedFixings(
  car: Pick<Car, 'parts' | 'panels' | 'movers'>,
  panel: Panel,
  fixings: readonly PlacedFixing[],
  inCar: (at: Point2) => Vec,
): readonly TiedFixing[] {
  const mover = (id: string | undefined) => car.movers.find((row) => row.id === id);
  return fixings.flatMap((fixing) => {
    const target = car.parts.find(({ id }) => id === fixing.into) ?? car.panels?.find(({ id }) => id === fixing.into);
    if (fixing.into === undefined || target === undefined || target.movesWith === panel.movesWith) return [];
    const at = inCar(fixing.at);
    const [own, other] = [moverReach(mover(panel.movesWith), at), moverReach(mover(target.movesWith), at)];
    // Two movers may go opposite ways: their reaches add up.
    const reaches = [own, other].filter((reach) => reach !== undefined);
    if (reaches.length === 0) return [];
    const { along } = reaches[0]!;
    const mm = reaches.reduce((sum, reach) => sum + reach.mm, 0);
    return [{ fixing, at, into: fixing.into, moves: { mm, along } }];
  });
}
