import type { Car } from '#car';
import {
  type DriveRow,
  driveFor,
  hexKeyFor,
  type SpannerEnvelope,
  spannerEnvelope,
  type ToolKind,
  usualHand,
} from '#standards';

type Workshop = NonNullable<Car['workshop']>;
type OwnTool = NonNullable<Workshop['tools']>[number];

/** Room that a hand takes [mm]. */
export interface Hand {
  readonly acrossMm: number;
  readonly thickMm: number;
  readonly armMm: number;
  readonly longMm: number;
  readonly reachMm: number;
  /** The builder measured it; else it is the usual one, recalled. */
  readonly isOwn: boolean;
}

/** Tools and hand as the car's workshop has them, over the usual ones. */
export interface Tools {
  readonly hand: Hand;
  /** The builder's own row for a tool, its size or all sizes; null: the usual one. */
  own(kind: ToolKind, acrossFlatsMm: number): OwnTool | null;
  spanner(kind: 'open-end' | 'ring', acrossFlatsMm: number): SpannerEnvelope;
  drive(acrossFlatsMm: number): DriveRow;
  /** The builder measured the tool in the hand for this size. */
  isMeasured(kind: ToolKind, acrossFlatsMm: number): boolean;
  hexKey(acrossFlatsMm: number): { readonly shortMm: number; readonly longMm: number };
}

/** A spanner for a size takes nuts that differ from it by less than this: 17.46 is a 17.5 [mm]. */
const SAME_SIZE_MM = 0.3;

/** Tools of a workshop; all of them the usual ones where it says nothing. */
export function toolsOf(workshop: Workshop | undefined): Tools {
  const tools = workshop?.tools ?? [];
  const own = (kind: ToolKind, size: number): OwnTool | null => {
    const mine = tools.filter((tool) => tool.kind === kind);
    return (
      mine.find(({ acrossFlatsMm: s }) => s !== undefined && Math.abs(s - size) < SAME_SIZE_MM) ??
      mine.find(({ acrossFlatsMm: s }) => s === undefined) ??
      null
    );
  };
  return {
    hand: {
      acrossMm: workshop?.hand?.acrossMm ?? usualHand.acrossMm,
      thickMm: workshop?.hand?.thickMm ?? usualHand.thickMm,
      armMm: workshop?.hand?.armMm ?? usualHand.armMm,
      longMm: usualHand.longMm,
      reachMm: usualHand.reachMm,
      isOwn: workshop?.hand?.measured === true,
    },
    own,
    isMeasured: (kind, size) => own(kind, size)?.measured === true,
    spanner: (kind, size) => {
      const usual = spannerEnvelope(kind, size);
      const mine = own(kind, size);
      return mine === null
        ? usual
        : {
            headMm: mine.headMm ?? usual.headMm,
            thickMm: mine.thickMm ?? usual.thickMm,
            widthMm: usual.widthMm,
            lengthMm: mine.lengthMm ?? usual.lengthMm,
            source: mine.measured === true ? 'builder' : usual.source,
          };
    },
    drive: (size) => {
      const usual = driveFor(size);
      const mine = own('ratchet', size);
      return mine === null
        ? usual
        : {
            ...usual,
            ratchetHeadMm: mine.headMm ?? usual.ratchetHeadMm,
            ratchetDeepMm: mine.thickMm ?? usual.ratchetDeepMm,
            lengthMm: mine.lengthMm ?? usual.lengthMm,
          };
    },
    hexKey: (size) => {
      const usual = hexKeyFor(size);
      return { ...usual, longMm: own('hex-key', size)?.lengthMm ?? usual.longMm };
    },
  };
}
