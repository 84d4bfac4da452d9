import type { Panel } from '#car';
import { tapeMm, type TapeUnit } from '../tape/tape-text.ts';
import type { PanelDraft } from './panel-draft.ts';
import { keptText } from '../tape/kept-text.ts';

/** The plane of the mirror as it is typed [mm]; the car's middle where nothing stands or it cannot be read. */
export function mirrorPlaneMm({ mirrorPlane }: Pick<PanelDraft, 'mirrorPlane'>, unit: TapeUnit): number {
  const read = mirrorPlane.trim() === '' ? undefined : tapeMm(mirrorPlane, unit);
  return read?.ok === true ? read.value : 0;
}

/** A panel begun with the corners of its master on the other side; what is measured there then takes their place. */
export function begunAsMirror(draft: PanelDraft, master: Panel, unit: TapeUnit): PanelDraft {
  const plane = mirrorPlaneMm(draft, unit);
  const tenth = (mm: number): string => keptText(mm, 0.1);
  return {
    ...draft,
    sheet: master.sheet ?? draft.sheet,
    thickness: draft.thickness.trim() === '' ? keptText(master.thicknessMm, 1e-4) : draft.thickness,
    corners: (master.corners ?? []).map(({ id, atMm }) => ({
      id,
      at: atMm === undefined ? ['', '', ''] : [tenth(atMm[0]), tenth(2 * plane - atMm[1]), tenth(atMm[2])],
    })),
  };
}
