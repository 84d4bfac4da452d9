import { formulas as accessFormulas } from '#access';
import { formulas as carFormulas } from '#car';
import { formulas as flowFormulas } from '#flow';
import { formulas as heatFormulas } from '#heat';
import { formulas as leverFormulas } from '#levers';
import { makeUpFormulas } from '#lines';
import { formulas as panelFormulas } from '#panels';
import type { Formula } from '#sources';
import { formulas as standardsFormulas } from '#standards';

/** A formula with the room that uses it. */
export interface RegisteredFormula extends Formula {
  readonly room: string;
}

const rooms: readonly (readonly [room: string, formulas: readonly Formula[]])[] = [
  ['standards', standardsFormulas],
  ['car', carFormulas],
  ['panels', panelFormulas],
  ['levers', leverFormulas],
  ['lines', makeUpFormulas],
  ['flow', flowFormulas],
  ['heat', heatFormulas],
  ['access', accessFormulas],
];

/** Every formula of every room, by room and in its order; ids are unique across rooms. */
export const formulaRegister: readonly RegisteredFormula[] = rooms.flatMap(([room, formulas]) =>
  formulas.map((formula) => ({ ...formula, room })),
);
