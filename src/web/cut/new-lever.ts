import type { Lever } from '#car';
import type { Row } from '../flow/row-form.tsx';
import type { Choices, RowField, RowPlan } from '../flow/row-plan.ts';

const acts: Choices = [
  ['hand', 'a hand'],
  ['foot', 'a foot'],
];
const axes = { across: [0, 1, 0], along: [1, 0, 0], upright: [0, 0, 1] } as const;
const axisWords: Choices = [
  ['across', 'across the car: it swings fore and aft'],
  ['along', 'along the car: it swings from side to side'],
  ['upright', 'upright: it swings level'],
];

const place = (at: string, label: string): RowField => ({ kind: 'lengths', at, label, count: 3, isNeeded: true });
const length = (at: string, label: string, toMm: number, isNeeded = false): RowField => ({
  kind: 'length',
  at,
  label,
  fromMm: 0.1,
  toMm,
  isNeeded,
});
const swing = (at: string, label: string, from: number, to: number): RowField => ({
  kind: 'figure',
  at,
  figure: { label, unit: 'deg', from, to, isNeeded: true },
});

/** A lever as it is measured on the car: where it turns, is held and pulls, and what it pushes. */
export const leverPlan: RowPlan = {
  title: 'Lever',
  below:
    "A lever or pedal as it stands at rest, from the car's datum: rearward; right; up. Its swing is right-handed about the axis, which points right, rearward or up.",
  fields: [
    { kind: 'words', at: 'name', label: 'Name, such as Handbrake lever', most: 200 },
    { kind: 'choice', at: 'acts', label: 'Worked by', of: acts },
    place('pivotMm', 'Pivot'),
    { kind: 'choice', at: 'axis', label: 'Its axis lies', of: axisWords },
    place('handleMm', 'Middle of the knob or pad'),
    place('armMm', 'Pin of the arm that pulls or pushes'),
    swing('lowDeg', 'Swings one way to', -350, 0),
    swing('highDeg', 'Swings the other way to', 0, 350),
  ],
  laws: {
    label: 'The arm works',
    of: [
      { id: 'bare', words: 'a rod or cable', marks: [], fields: [] },
      {
        id: 'cylinder',
        words: 'a hydraulic cylinder',
        marks: ['boreMm'],
        fields: [
          length('boreMm', 'Bore', 200, true),
          place('farMm', 'Where its other end is held'),
          length('strokeMm', 'Full stroke that it has', 1000),
        ],
      },
    ],
  },
  more: [
    { kind: 'figure', at: 'usualN', figure: { label: 'Usual force on it', unit: 'N', from: 0, to: 100_000 } },
    length('knownToMm', 'Its places are known to ±', 200),
  ],
  groups: {},
};

/** The lever that a row of the form says. */
export function leverOfRow(row: Row, id: string): Lever {
  const {
    name,
    acts: by,
    pivotMm,
    axis,
    handleMm,
    armMm,
    lowDeg,
    highDeg,
    boreMm,
    farMm,
    strokeMm,
    usualN,
    knownToMm,
  } = row;
  const known = <T>(field: string, value: T): Readonly<Record<string, T>> =>
    value === undefined ? {} : { [field]: value };
  return {
    id,
    ...known('name', name),
    acts: by,
    ...known('knownToMm', knownToMm),
    pivotMm,
    axis: [...axes[axis as keyof typeof axes]],
    handle: { atMm: handleMm },
    arms: [{ id: 'arm', atMm: armMm }],
    turnDeg: [lowDeg, highDeg],
    ...(usualN === undefined ? {} : { force: { usualN } }),
    ...(boreMm === undefined
      ? {}
      : { cylinders: [{ id: 'cylinder', arm: 'arm', farMm, boreMm, ...known('strokeMm', strokeMm) }] }),
  } as Lever;
}
