import type { SourceId } from '#sources';

interface Limit {
  readonly value: number;
  readonly unit: string;
  readonly source: SourceId;
}

/** What the findings of this room hold against; each is the builder's to judge. */
export const limits = {
  /** A rod or core that pulls at less than this angle to the arm moves it badly. */
  goodArmDeg: { value: 45, unit: 'deg', source: 'common-practice' },
  /** Below this it is about to go over centre. */
  leastArmDeg: { value: 20, unit: 'deg', source: 'common-practice' },
  /** Core of a push-pull cable off the line of its conduit's end. */
  leadInDeg: { value: 8, unit: 'deg', source: 'common-practice' },
  /** Bends of a control cable together. */
  bendDeg: { value: 270, unit: 'deg', source: 'from-memory' },
  /** Bend radius of a gear cable: 150 to 200 is said; the cautious one counts. */
  cableRadiusMm: { value: 200, unit: 'mm', source: 'from-memory' },
  /** Steel core in a lined conduit, dry. */
  cableFriction: { value: 0.1, unit: '-', source: 'from-memory' },
  /** Two ball joints. */
  rodLostShare: { value: 0.03, unit: '-', source: 'from-memory' },
  /** Push or pull of one hand, sitting, the control before the body: 12 to 22 kg. */
  handUsualN: { value: 216, unit: 'N', source: 'lever-forces' },
  handMostN: { value: 400, unit: 'N', source: 'brake-force-rule' },
  /** 150 lbf of one leg is usable, 300 lbf the most. */
  footUsualN: { value: 667, unit: 'N', source: 'pedal-ratio-note' },
  footMostN: { value: 1334, unit: 'N', source: 'pedal-ratio-note' },
  /** Knob from the wheel's rim. */
  reachMm: { value: 150, unit: 'mm', source: 'common-practice' },
  reachLeastMm: { value: 100, unit: 'mm', source: 'common-practice' },
  /** What moves at the output may be lost to slack up to this share of its travel. */
  slackShare: { value: 0.1, unit: '-', source: 'common-practice' },
  /** A receiver that turns within this of its own end counts as there. */
  endDeg: { value: 1, unit: 'deg', source: 'common-practice' },
  /** A cylinder's piston is kept this far from its end. */
  strokeLeftShare: { value: 0.15, unit: '-', source: 'common-practice' },
  /** Give of the mount at the hand, at 250 N. */
  giveMm: { value: 1, unit: 'mm', source: 'common-practice' },
  giveAtN: { value: 250, unit: 'N', source: 'common-practice' },
} as const satisfies Readonly<Record<string, Limit>>;
