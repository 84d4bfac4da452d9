import type { HeatCase } from '#heat';

/** Every temperature that the car is painted with [degC]. */
export const temperaturesOf = (at: HeatCase): readonly number[] => [
  ...at.lines.flatMap(({ points }) => points.map(({ worstC }) => worstC)),
  ...at.panels.flatMap(({ patches }) => patches.map(({ c }) => c)),
  ...at.parts.flatMap(({ surfaceC, places }) => places?.map(({ c }) => c) ?? [surfaceC]),
];
