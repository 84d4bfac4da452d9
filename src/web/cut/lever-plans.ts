import type { Car, Lever, LeverCable } from '#car';
import type { Row } from '../flow/row-form.tsx';
import type { Choices, RowField, RowPlan } from '../flow/row-plan.ts';
import type { FigureUnit } from '../flow/figure.ts';

const place = (at: string, label: string, isNeeded = true): RowField => ({
  kind: 'lengths',
  at,
  label,
  count: 3,
  isNeeded,
});
const length = (at: string, label: string, toMm: number, isNeeded = false, fromMm = 0.1): RowField => ({
  kind: 'length',
  at,
  label,
  fromMm,
  toMm,
  isNeeded,
});
const figure = (at: string, label: string, unit: FigureUnit, from: number, to: number): RowField => ({
  kind: 'figure',
  at,
  figure: { label, unit, from, to },
});
const words = (at: string, label: string, most = 200): RowField => ({ kind: 'words', at, label, most });
const note = words('note', 'Remark', 2000);
const name = words('name', 'Name');

/** Its pins, and one of its own where it has none or another is wanted. */
function pinFields({ arms }: Lever): { readonly fields: readonly RowField[]; readonly more: readonly RowField[] } {
  const own = place('pinMm', 'A pin of its own: rearward; right; up', arms.length === 0);
  if (arms.length === 0) return { fields: [own], more: [] };
  const of: Choices = arms.map(({ id }) => [id, `arm ${id}`]);
  return { fields: [{ kind: 'choice', at: 'arm', label: 'On this lever it hangs on', of }], more: [own] };
}

/** What rods and cables work: another lever, or a place on something that swings. */
function farEnd(car: Car, lever: Lever): NonNullable<RowPlan['laws']> {
  const arms: Choices = (car.levers ?? [])
    .filter(({ id }) => id !== lever.id)
    .flatMap((other) => other.arms.map(({ id }) => [`${other.id}/${id}`, `arm ${id} of ${other.name ?? other.id}`]));
  // A rod's far pin goes round an axis: what slides has none.
  const movers: Choices = car.movers.filter(({ turnDeg }) => turnDeg !== undefined).map(({ id }) => [id, id]);
  return {
    label: 'Its other end works',
    of: [
      {
        id: 'lever',
        words: 'another lever',
        marks: ['toArm'],
        fields: [{ kind: 'choice', at: 'toArm', label: 'Which arm', of: arms }],
      },
      {
        id: 'mover',
        words: 'something that swings',
        marks: ['mover'],
        fields: [
          { kind: 'choice', at: 'mover', label: 'What swings', of: movers },
          place('atMm', 'Where on it: rearward; right; up'),
        ],
      },
    ],
  };
}

export function rodPlan(car: Car, lever: Lever): RowPlan {
  const pin = pinFields(lever);
  return {
    title: 'Rod',
    below: 'A stiff rod from this lever to what it works, by the middles of its pins as it stands at rest.',
    fields: [name, ...pin.fields],
    laws: farEnd(car, lever),
    more: [...pin.more, figure('lostShare', 'Share of the force lost in its joints, 0.03 if not said', '', 0, 0.9)],
    groups: {},
  };
}

/** A cable's numbers; a new one by its two ends, its corners by its own form. */
export function cablePlan(car: Car, lever: Lever, isNew: boolean): RowPlan {
  const pin = pinFields(lever);
  return {
    title: 'Cable',
    below: isNew
      ? 'A cable in its conduit, by where the conduit is held at both ends. The corners of its way between are put in after that.'
      : 'What its maker says of it. The corners of its way have a form of their own.',
    fields: [
      name,
      ...pin.fields,
      ...(isNew ? [place('fromMm', 'Conduit held at this lever'), place('toMm', 'Conduit held at the far end')] : []),
      length('odMm', 'Outside of the conduit', 200, true),
    ],
    laws: farEnd(car, lever),
    more: [
      ...pin.more,
      length('leastRadiusMm', 'Bends no tighter than (radius to its middle)', 10_000),
      figure('mostBendDeg', 'Most bend in all, 270 if not said', 'deg', 1, 3600),
      length('strokeMm', 'Travel that its ends allow', 1000),
      figure('coreLimitN', 'Most force on its core', 'N', 0, 100_000),
      figure('sealDragN', 'Drag of one end seal', 'N', 0, 100_000),
      figure('frictionRatio', 'Friction of core on liner, 0.1 if not said', '', 0, 1),
      length('slackMm', 'Lost motion, both ways together', 100, false, 0),
      figure('leadInDeg', 'Core off the line of its end by at most, 8 if not said', 'deg', 0, 90),
      figure('standsC', 'The hottest its conduit and liner stand, 110 °C if not said', '°C', -60, 1500),
      { kind: 'yes', at: 'laid', label: 'Measured as it lies: lines are planned round it' },
      length('keepOffMm', 'Least gap to hot parts; as for lines if not said', 2000, false, 0),
      note,
    ],
    groups: {},
  };
}

/** Where a cable goes through a sheet. */
export const crossingPlan: RowPlan = {
  title: 'Way through',
  below:
    'Where the cable goes through a part of the car, such as its bulkhead. Panels find where it meets them by themselves.',
  fields: [
    { kind: 'part', at: 'part', label: 'What it goes through' },
    place('atMm', 'Where, about: rearward; right; up'),
  ],
  laws: null,
  more: [length('holeMm', 'Hole there is; nothing: it is told how large', 500)],
  groups: {},
};

export function cylinderPlan(car: Car, lever: Lever): RowPlan {
  const pin = pinFields(lever);
  return {
    title: 'Cylinder',
    below: 'A hydraulic cylinder that the lever pushes, or two behind a balance bar.',
    fields: [name, ...pin.fields, place('farMm', 'Where its other end is held'), length('boreMm', 'Bore', 200, true)],
    laws: null,
    more: [
      ...pin.more,
      length('secondBoreMm', 'Bore of the second behind a balance bar', 200),
      figure('firstShare', 'Share of the force to the first of two, 0.5 if not said', '', 0.05, 0.95),
      length('strokeMm', 'Full stroke that it has', 1000),
      length('freeMm', 'Stroke before pressure builds up', 100, false, 0),
      figure('needsMl', 'Fluid that what hangs on it takes up, each [ml]', '', 0, 1000),
      figure('lostShare', 'Share of the force lost in seals and pivots', '', 0, 0.9),
      figure('wanted.low', 'Pressure wanted, from', 'bar', 0, 1000),
      figure('wanted.high', '... to', 'bar', 0, 1000),
      {
        kind: 'option',
        at: 'part',
        label: 'Part of the car that is this cylinder',
        of: car.parts.map((part) => [part.id, part.name ?? part.id]),
      },
    ],
    groups: { wanted: ['wanted.low', 'wanted.high'] },
  };
}

export const piecePlan: RowPlan = {
  title: 'Piece',
  below:
    'A round piece that moves with the lever: a rod from place to place, or a ball. Lines and panels keep off its swing.',
  fields: [place('fromMm', 'One end, or the middle of a ball'), length('radiusMm', 'Radius', 500, true)],
  laws: null,
  more: [place('toMm', 'Other end', false)],
  groups: {},
};

export const bracketPlan: RowPlan = {
  title: 'Bracket',
  below:
    'The plate that carries the pivot, held along its foot. Places on it from the middle of its foot: across (along the pull), up.',
  fields: [
    words('sheet', 'Sheet, such as 4130; 6061-T6 if not said', 60),
    length('thicknessMm', 'Thickness', 50, true),
    length('widthMm', 'Width of the foot', 1000, true),
    length('heightMm', 'Height over the foot', 1000, true),
    { kind: 'lengths', at: 'pin.atMm', label: 'Hole of the pivot: across; up', count: 2, isNeeded: true },
    length('pin.diameterMm', 'Its diameter', 200, true),
  ],
  laws: {
    label: 'Its foot is held by',
    of: [
      {
        id: 'bolts',
        words: 'bolts',
        marks: ['bolts'],
        fields: [
          length('bolts.diameterMm', 'Their holes', 100, true),
          {
            kind: 'sizes',
            at: 'bolts.atMm',
            label: 'Each of them: across × up',
            count: 2,
            example: '-40 x 10; 40 x 10 mm',
            isNeeded: true,
          },
        ],
        stands: { held: 'bolts' },
      },
      { id: 'weld', words: 'a weld', marks: [], fields: [], stands: { held: 'weld' } },
    ],
  },
  more: [
    length('topWidthMm', 'Width at the top, as at the foot if not said', 1000),
    {
      kind: 'figure',
      at: 'count',
      figure: { label: 'Plates that share the load', unit: '', from: 1, to: 10, isCount: true },
    },
    {
      kind: 'sizes',
      at: 'light',
      label: 'Lightening holes: across × up × diameter',
      count: 3,
      example: '0 x 35 x 20 mm',
    },
    figure('pullN', 'Pull at the handle that it is judged by', 'N', 0, 100_000),
  ],
  groups: {},
};

type Bracket = NonNullable<Lever['bracket']>;

export const bracketRow = ({ holes, ...rest }: Bracket): Row =>
  present({ ...rest, light: holes?.map(({ atMm: [x, y], diameterMm }) => [x, y, diameterMm]) });
export const bracketOfRow = ({ light, ...rest }: Row): Row =>
  present({
    ...rest,
    holes: (light as readonly (readonly [number, number, number])[] | undefined)?.map(([x, y, diameterMm]) => ({
      atMm: [x, y],
      diameterMm,
    })),
  });

const acts: Choices = [
  ['hand', 'a hand'],
  ['foot', 'a foot'],
  ['link', 'another lever'],
];

/** What a lever is beside its places: who works it, how hard, its stops, the wheel beside it. */
export const workedPlan: RowPlan = {
  title: 'How it is worked',
  below: 'What is not known may stay open.',
  fields: [name, { kind: 'choice', at: 'acts', label: 'Worked by', of: acts }],
  laws: null,
  more: [
    figure('force.usualN', 'Usual force on it', 'N', 0, 100_000),
    figure('force.range.low', 'Least force', 'N', 0, 100_000),
    figure('force.range.high', 'Most force', 'N', 0, 100_000),
    figure('stops.low', 'Hard stop one way', 'deg', -350, 0),
    figure('stops.high', 'Hard stop the other way', 'deg', 0, 350),
    length('knownToMm', 'Its places are known to ±', 200),
    length('clearMm', 'Gap wanted round its swing', 1000, false, 0),
    place('wheel.centreMm', 'Steering wheel, middle of its rim', false),
    { kind: 'place', at: 'wheel.axis', label: 'Way of its column', isDirection: true },
    length('wheel.rimRadiusMm', 'Radius of its rim', 500),
    note,
  ],
  groups: {
    'force.range': ['force.range.low', 'force.range.high'],
    force: ['force.usualN'],
    stops: ['stops.low', 'stops.high'],
    wheel: ['wheel.centreMm', 'wheel.axis', 'wheel.rimRadiusMm'],
  },
};

type Pair = readonly [number, number];
const lowHigh = (of: Pair | undefined): Row | undefined => (of === undefined ? undefined : { low: of[0], high: of[1] });
const pairOf = (of: unknown): Pair | undefined => {
  const { low, high } = (of ?? {}) as { low?: number; high?: number };
  return low === undefined || high === undefined ? undefined : [low, high];
};
/** Without what is not there: the car file has no empty fields. */
const present = (row: Row): Row => Object.fromEntries(Object.entries(row).filter(([, value]) => value !== undefined));

type Link = Pick<LeverCable, 'id' | 'arm' | 'to'>;

/** A rod or cable as its form has it. */
export function linkRow({ to, ...rest }: Link): Row {
  return present({
    ...rest,
    ...(to.lever === undefined ? { mover: to.mover, atMm: to.atMm } : { toArm: `${to.lever}/${to.arm}` }),
  });
}

/** A rod or cable that the row of a form says; its path where it is new. */
export function linkOfRow({ toArm, mover, atMm, fromMm, toMm, ...rest }: Row): Row {
  const [lever, arm] = typeof toArm === 'string' ? toArm.split('/') : [];
  return {
    ...rest,
    to: lever === undefined ? { mover, atMm } : { lever, arm },
    ...(fromMm === undefined ? {} : { pathMm: [fromMm, toMm] }),
  };
}

type Cylinder = NonNullable<Lever['cylinders']>[number];

export const cylinderRow = ({ wantedBar, ...rest }: Cylinder): Row => present({ ...rest, wanted: lowHigh(wantedBar) });
export const cylinderOfRow = ({ wanted, ...rest }: Row): Row => present({ ...rest, wantedBar: pairOf(wanted) });

type Piece = NonNullable<Lever['shapes']>[number];

export const pieceRow = ({ pointsMm, radiusMm }: Piece): Row =>
  present({ fromMm: pointsMm[0], radiusMm, toMm: pointsMm.length < 2 ? undefined : pointsMm.at(-1) });
/** What lies between its ends stays. */
export const pieceOfRow = ({ fromMm, toMm, radiusMm }: Row, was: Piece | undefined): Row => ({
  pointsMm: toMm === undefined ? [fromMm] : [fromMm, ...(was?.pointsMm.slice(1, -1) ?? []), toMm],
  radiusMm,
});

const WORKED = ['name', 'note', 'acts', 'knownToMm', 'clearMm', 'wheel', 'force', 'stopsDeg'] as const;

export function workedRow(lever: Lever): Row {
  const { name: called, note: remark, acts: by, knownToMm, clearMm, wheel, force, stopsDeg } = lever;
  const forces = force === undefined ? undefined : present({ usualN: force.usualN, range: lowHigh(force.rangeN) });
  return present({
    name: called,
    note: remark,
    acts: by,
    knownToMm,
    clearMm,
    wheel,
    force: forces,
    stops: lowHigh(stopsDeg),
  });
}

/** What of a lever its row changes, field by field. */
export function workedFields(row: Row): readonly (readonly [(typeof WORKED)[number], unknown])[] {
  const { force, stops } = row;
  const { usualN, range } = (force ?? {}) as { usualN?: number; range?: unknown };
  const whole: Row = {
    ...row,
    force: usualN === undefined ? undefined : present({ usualN, rangeN: pairOf(range) }),
    stopsDeg: pairOf(stops),
  };
  return WORKED.map((field) => [field, whole[field]]);
}
