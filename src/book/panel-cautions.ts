import type { FlatPattern } from '#panels';

/** What can hurt someone, or spoil the sheet, where this panel is cut and fitted: the usual cautions. */
export function panelCautions(pattern: FlatPattern): string[] {
  return [
    'Edges and burrs cut: gloves on, deburr every edge and hole on both faces before the panel is handled or fitted.',
    'Eyes protected when sawing, drilling and grinding. Clamp the sheet for drilling: one that catches will spin.',
    ...(pattern.cutOuts.length > 0
      ? ['Corners of openings are drilled before the opening is cut, so that no crack starts from a sharp corner.']
      : []),
    ...(pattern.folds.length > 0 ? ['Try each fold on an offcut of the same sheet first.'] : []),
    'Trial-fit before the holes are drilled in the car. The event’s rules come first; ask a qualified person where a panel parts people from fire.',
  ];
}
