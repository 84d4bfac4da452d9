import type { Vec } from '#geometry';

/** A line that goes through a panel, in plain values: lines are known only further right. */
export interface PanelCrossing {
  readonly panel: string;
  readonly line: string;
  /** Where its middle meets the panel, and the way it goes there, in car axes [mm]. */
  readonly at: Vec;
  readonly along: Vec;
  readonly odMm: number;
  readonly kind: 'grommet' | 'bulkhead-fitting' | 'plain';
  /** Hole that its grommet or fitting asks for [mm]. */
  readonly holeMm?: number;
  /** What bears on the sheet round the hole: a hexagon across its corners, a grommet's lip [mm]. */
  readonly seatMm?: number;
  /** Thickest sheet that its grommet or fitting takes [mm], the hottest that it stands [degC]. */
  readonly panelMaxMm?: number;
  readonly standsC?: number;
  /** What goes into the hole, in words, for the list of seals. */
  readonly seal?: string;
  /** How far it moves against the panel, sideways [mm], and the way it moves most. */
  readonly movesMm?: number;
  readonly movesAlong?: Vec;
  /** Its surface [degC], and the length that grows towards the panel [mm] with its growth [1e-6/K]. */
  readonly surfaceC?: number;
  readonly growsOverMm?: number;
  readonly growthPerMk?: number;
}
