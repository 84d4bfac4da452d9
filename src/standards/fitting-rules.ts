import type { SourceId } from '#sources';

export type FittingRuleId =
  | 'slack-least'
  | 'slack-most'
  | 'length-change-grow'
  | 'length-change-shrink'
  | 'clamp-hose'
  | 'clamp-fuel'
  | 'support-at-joint'
  | 'slack-to-engine'
  | 'elbow-tolerance'
  | 'straight-least'
  | 'bore-loss-most'
  | 'sleeve-credit'
  | 'proof-factor'
  | 'drain-from-plumb'
  | 'support-loaded-share';

/** One figure that an installation keeps to, with why. */
export interface FittingRuleRow {
  readonly id: FittingRuleId;
  readonly value: number;
  readonly unit: 'mm' | 'share' | 'deg' | 'K' | 'times';
  readonly text: string;
  readonly source: SourceId;
}

export const fittingRules = [
  {
    id: 'slack-least',
    value: 0.05,
    unit: 'share',
    text: 'slack of a near-straight hose, at least: pressure shortens it',
    source: 'navy-14105',
  },
  {
    id: 'slack-most',
    value: 0.08,
    unit: 'share',
    text: 'slack of a near-straight hose, at most',
    source: 'navy-14105',
  },
  {
    id: 'length-change-grow',
    value: 0.02,
    unit: 'share',
    text: 'a hose under pressure may grow by so much',
    source: 'faa-ac-43-13-1b',
  },
  {
    id: 'length-change-shrink',
    value: -0.04,
    unit: 'share',
    text: 'a hose under pressure may shorten by so much',
    source: 'faa-ac-43-13-1b',
  },
  {
    id: 'clamp-hose',
    value: 610,
    unit: 'mm',
    text: 'most between clamps of a hose, 24 in; closer is better',
    source: 'navy-14105',
  },
  {
    id: 'clamp-fuel',
    value: 300,
    unit: 'mm',
    text: 'most between clamps of a fuel line',
    source: 'speedway-rules-2010',
  },
  {
    id: 'support-at-joint',
    value: 76,
    unit: 'mm',
    text: 'support of a clamped hose joint on an engine, 3 in from it',
    source: 'navy-14105',
  },
  {
    id: 'slack-to-engine',
    value: 38,
    unit: 'mm',
    text: 'slack between the last support and the engine, 1 1/2 in',
    source: 'navy-14105',
  },
  {
    id: 'elbow-tolerance',
    value: 3,
    unit: 'deg',
    text: 'an elbow hose end may be bent so far off',
    source: 'sae-j516',
  },
  {
    id: 'straight-least',
    value: 25.4,
    unit: 'mm',
    text: 'straight hose behind a fitting: one outside diameter, not less than this; derived from a test standard',
    source: 'sae-j343',
  },
  {
    id: 'bore-loss-most',
    value: 0.1,
    unit: 'share',
    text: 'bore lost in a fitted hose end, at most',
    source: 'sae-j516',
  },
  {
    id: 'sleeve-credit',
    value: 0,
    unit: 'K',
    text: 'a fire sleeve does not raise what the hose stands; it buys time in a direct fire',
    source: 'navy-14315',
  },
  {
    id: 'proof-factor',
    value: 1.5,
    unit: 'times',
    text: 'bench test over working pressure, with liquid, ends restrained',
    source: 'common-practice',
  },
  {
    id: 'drain-from-plumb',
    value: 15,
    unit: 'deg',
    text: 'a turbo drain leaves within this of plumb',
    source: 'builders-reports',
  },
  {
    id: 'support-loaded-share',
    value: 0.8,
    unit: 'share',
    text: 'tube supports come closer by a fifth where unions or tees are carried',
    source: 'mil-h-8891',
  },
] as const satisfies readonly FittingRuleRow[];

/** The rule's row. */
export function fittingRule(id: FittingRuleId): FittingRuleRow {
  const row = fittingRules.find((r) => r.id === id);
  if (row === undefined)
    throw new RangeError(`standards: no rule "${String(id)}"; there are ${fittingRules.map((r) => r.id).join(', ')}`);
  return row;
}
