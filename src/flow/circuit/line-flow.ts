import type { FluidState } from '../fluids/fluid-state.ts';
import type { Element } from './elements.ts';
import type { LineFlow, PieceLoss, Regime } from './flow-answer.ts';
import type { TeeLoss } from './tees.ts';

/** Between these Reynolds numbers flow may be either. Textbook practice: 2000 to 4000. */
const LAMINAR_TO = 2000;
const TURBULENT_FROM = 4000;

export function regimeOf(reynolds: number): Regime {
  if (reynolds < LAMINAR_TO) return 'laminar';
  return reynolds > TURBULENT_FROM ? 'turbulent' : 'between';
}

/** A line's flow taken apart: its speed in its own bore, and what each piece of it costs. */
export function lineFlow(
  element: Element,
  fluid: FluidState,
  flowM3S: number,
  ends: { readonly fromPa: number; readonly toPa: number },
  carries: LineFlow['carries'],
  tees: readonly TeeLoss[] = [],
): LineFlow {
  const run = element.run!;
  const boreM = run.boreMm / 1000;
  const velocityMS = flowM3S / ((Math.PI / 4) * boreM * boreM);
  const reynolds = (fluid.densityKgM3 * Math.abs(velocityMS) * boreM) / fluid.viscosityPaS;
  const teeAt = (end: TeeLoss['end']): PieceLoss[] =>
    tees
      .filter((tee) => tee.end === end)
      .map(({ boreM: own, loss }) => ({
        what: 'tee',
        boreMm: own * 1000,
        turnDeg: 0,
        dropPa: loss.under(fluid)(flowM3S).dropPa,
        times: loss.times,
      }));
  const own = (element.pieces ?? []).map(
    ({ what, row, boreM: bore, turnDeg, loss }): PieceLoss => ({
      what,
      ...(row === undefined ? {} : { row }),
      boreMm: bore * 1000,
      turnDeg,
      dropPa: loss.under(fluid)(flowM3S).dropPa,
      times: loss.times,
    }),
  );
  const pieces = [...teeAt('from'), ...own, ...teeAt('to')];
  return {
    line: run.line,
    carries,
    flowM3S,
    velocityMS,
    reynolds,
    regime: regimeOf(reynolds),
    ...ends,
    dropPa: pieces.reduce((sum, { dropPa }) => sum + dropPa, 0),
    pieces,
    volumeM3: run.stretches.reduce(
      (sum, { boreMm, lengthMm }) => sum + ((Math.PI / 4) * boreMm ** 2 * lengthMm) / 1e9,
      0,
    ),
    assumed: run.assumed,
  };
}
