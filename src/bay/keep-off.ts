import { type Duty, FUEL_BRAKE_FROM_HOT_MM, keepOffs, type Line, partKeepOffMm } from '#car';
import type { Bay } from './bay.ts';
import type { BayPart } from './bay-part.ts';

export interface KeepOffRule {
  /** The least gap, surface to surface [mm]. */
  readonly mm: number;
  /** Where it comes from, in words; where the builder's value and the usual one differ, both. */
  readonly source: string;
}

/** The least gap from a line to a part, and where that comes from. The stricter of the part's and the line's own counts. */
export function keepOff(bay: Bay, part: BayPart, line: Pick<Line, 'duty' | 'keepOffMm'>): KeepOffRule {
  const ofPart = partKeepOffMm(bay.car, part.part, line.duty);
  const words = partWords(bay, part, line.duty, ofPart);
  if (line.keepOffMm === undefined || line.keepOffMm <= ofPart) return { mm: ofPart, source: words };
  return { mm: line.keepOffMm, source: `the line's own keep-off (without it ${ofPart} mm: ${words})` };
}

function partWords(bay: Bay, part: BayPart, duty: Duty, mm: number): string {
  const { keepOffMm: own, ...bare } = part.part;
  const usual = partKeepOffMm({}, bare, duty);
  if (part.class === 'hot' && mm === FUEL_BRAKE_FROM_HOT_MM && (own ?? classValue(bay, part)) < mm) {
    return own === undefined
      ? 'fuel and brake lines from hot'
      : `fuel and brake lines from hot (the part says ${own} mm)`;
  }
  if (own !== undefined) return own === usual ? 'set on the part' : `set on the part (usual ${usual} mm)`;
  const set = bay.car.keepOffMm?.[kindOf(part)] !== undefined && mm !== usual;
  return set ? `set for the car (usual ${usual} mm)` : `common practice, ${CLASS_WORDS[kindOf(part)]}`;
}

const CLASS_WORDS = {
  hot: 'bare hot parts',
  hotShielded: 'shielded hot parts',
  moving: 'moving parts',
  fixed: 'fixed structure',
} as const;

function kindOf(part: BayPart): 'hot' | 'hotShielded' | 'moving' | 'fixed' {
  return part.class === 'hot' && part.part.shielded === true ? 'hotShielded' : part.class;
}

const classValue = (bay: Bay, part: BayPart): number => keepOffs(bay.car)[kindOf(part)];
