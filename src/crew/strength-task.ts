import { panelsOf } from '#answers';
import type { LinesWorld } from '#lines';
import { type PanelFinding, type PanelStrength, panelStrengthOf } from '#panels';

/** A panel, or a piece of a split one, under its load; without numbers where they cannot be worked out: a finding says why. */
export interface PieceStrength {
  readonly piece?: number;
  readonly strength?: PanelStrength;
  /** What its openings take off it. */
  readonly massSavedKg?: number;
  readonly findings: readonly PanelFinding[];
}

/** What its load does to a panel with the holes of all that goes through it; nothing where it states none. */
export function strengthOfPanel(world: LinesWorld, panel: string): readonly PieceStrength[] {
  return panelsOf(world)
    .filter((layout) => layout.panel.id === panel)
    .flatMap((layout): PieceStrength[] => {
      const answer = panelStrengthOf(layout);
      return answer === null ? [] : [{ ...(layout.piece && { piece: layout.piece.number }), ...answer }];
    });
}
