import type { Panel, PanelWindow } from '#car';
import type { RowOnPanel } from './row-through-panels.ts';

/** What a row through several panels makes on one of them. */
export interface PanelRow extends RowOnPanel {
  /** The panel whose window says it. */
  readonly of: string;
  readonly window: PanelWindow;
}

export const isRow = (window: PanelWindow): boolean => (window.inLineWith ?? []).length > 0;

/** Windows of a panel without its rows over several. */
export const withoutRows = (panel: Panel): Panel =>
  panel.windows?.some(isRow) === true ? { ...panel, windows: panel.windows.filter((window) => !isRow(window)) } : panel;
