// What do I cut? Flat patterns, windows, mirrors, templates.
export {
  type CutOut,
  type DrilledHole,
  type FlatPattern,
  type FoldLine,
  type MeshCut,
  type Operation,
  OPERATIONS,
  type SealRow,
  type SlottedHole,
} from './flat-pattern.ts';
export {
  nestedPanels,
  type PanelNest,
  type PanelNestWish,
  type PanelSheetCut,
  type StockOfSheet,
} from './nesting/nested-panels.ts';
export { movedPattern } from './nesting/moved-pattern.ts';
export { EDGE_MM, SPACING_MM } from './nesting/nested.ts';
export { slotCentres, slotOutline } from './slot-outline.ts';
export type { PanelFinding } from './finding.ts';
export type { LaidCorner, LaidEdge, PanelLayout, PlacedFixing, PlacedHole } from './layout.ts';
export type { PanelSheet } from './panel-sheet.ts';
export type { PanelCrossing } from './holes/panel-crossing.ts';
export { layoutsOfPanel, type PanelAsk, panelLayouts } from './panel-layouts.ts';
export { formulas } from './formulas.ts';
export { carFromFlat, type FlatFrame, flatFromCar, heightOver } from './surface/flat-frame.ts';
export { lowestOf, templateOf, type TemplateShape } from './surface/template-of.ts';
export { facetAt } from './surface/facet-at.ts';
export type { CreaseBend, Facet } from './surface/facets.ts';
export { type DrillRow, drills } from './windows/drills.ts';
export { windowField } from './windows/window-field.ts';
export { clearOfFoldMm, usualCornerMm, usualWebMm } from './windows/window-rules.ts';
export type { KeepClear, Opening, WindowAnswer, WindowField, WindowShape, WindowSpec } from './windows/window-spec.ts';
export { type PanelOpening, panelOpenings, panelSolid, type SolidPiece } from './solid/panel-solid.ts';
export type { MirrorCheck, MirrorCorner } from './mirror/mirror-check.ts';
export { meshOpenShare } from './mesh/open-share.ts';
export { type MeshPiece, meshPiece } from './mesh/mesh-piece.ts';
export { massSaved, armDeflection, bearingStress, netSectionStress, tearOutStress } from './strength/holes-and-lugs.ts';
export { lighteningFaults } from './strength/lightening.ts';
export { type PanelStrength, panelStrength } from './strength/panel-strength.ts';
export type { EdgeHold, PlateSheet } from './strength/plate-bending.ts';
export { type Fineness, plateMesh } from './strength/plate-mesh.ts';
export { type StretchLoad, type StretchedSheet, stretchedSheet } from './strength/plate-stretch.ts';
export {
  type JudgedPanel,
  strengthFindings,
  windowFindings,
  type WorkedOtherwise,
} from './strength/strength-findings.ts';
export { panelStrengthOf, type StrengthOfPanel } from './strength/panel-strength-of.ts';
