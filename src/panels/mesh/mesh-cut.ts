import type { PanelWindow } from '#car';
import { panelFixing } from '#standards';
import type { MeshCut } from '../flat-pattern.ts';
import type { WindowField } from '../windows/window-spec.ts';
import { meshPiece, USUAL_FRAME_MM, USUAL_PITCH_MM } from './mesh-piece.ts';

/** The mesh behind a field whose window follows a line turned so far on the flat [rad]; none is wanted: undefined. */
export function meshCut(field: WindowField, window: PanelWindow, turn: number): MeshCut | undefined {
  const { mesh } = window;
  if (mesh === undefined) return undefined;
  const frameMm = mesh.frameMm ?? USUAL_FRAME_MM;
  const row = panelFixing(mesh.fixing?.kind ?? 'rivet', mesh.fixing?.size);
  const piece = meshPiece(field, turn, frameMm, mesh.fixing?.pitchMm ?? USUAL_PITCH_MM);
  return {
    window: field.id,
    mesh: mesh.name ?? 'mesh',
    cutMm: piece.cutMm,
    frameMm,
    frameLongMm: piece.frameLongMm,
    fixings: {
      count: piece.fixings.length,
      kind: row.kind,
      size: mesh.fixing?.size ?? row.size,
      holeMm: mesh.fixing?.holeMm ?? row.holeMm,
    },
    freeMm2: field.freeMm2,
  };
}
