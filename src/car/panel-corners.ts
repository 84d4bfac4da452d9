import type { Panel } from './schema/car.ts';

/** Corners that a panel's edges are named by: its measured ones; of a template those of its outline in order, c1, c2 and so on. */
export const panelCornerIds = ({ corners, template }: Pick<Panel, 'corners' | 'template'>): string[] =>
  corners?.map(({ id }) => id) ?? (template?.outlineMm ?? []).map((_, i) => `c${i + 1}`);
