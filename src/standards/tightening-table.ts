import type { SourceId } from '#sources';

export type Range = readonly [min: number, max: number];

/** 37-degree flare nuts, threads oiled [in-lb], as the army manual prints them. */
export interface FlareTorqueRow {
  readonly dash: number;
  readonly aluminiumTubeInLb: Range;
  readonly steelTubeInLb: Range;
  readonly hoseInLb: Range;
  readonly source: SourceId;
}

export const flareTorques = [
  { dash: 4, aluminiumTubeInLb: [50, 65], steelTubeInLb: [135, 150], hoseInLb: [100, 120], source: 'army-tm-55-1520' },
  {
    dash: 6,
    aluminiumTubeInLb: [100, 125],
    steelTubeInLb: [270, 300],
    hoseInLb: [210, 250],
    source: 'army-tm-55-1520',
  },
  {
    dash: 8,
    aluminiumTubeInLb: [210, 250],
    steelTubeInLb: [450, 500],
    hoseInLb: [340, 420],
    source: 'army-tm-55-1520',
  },
  {
    dash: 10,
    aluminiumTubeInLb: [300, 350],
    steelTubeInLb: [650, 700],
    hoseInLb: [400, 480],
    source: 'army-tm-55-1520',
  },
  {
    dash: 12,
    aluminiumTubeInLb: [425, 500],
    steelTubeInLb: [900, 1000],
    hoseInLb: [725, 850],
    source: 'army-tm-55-1520',
  },
  {
    dash: 16,
    aluminiumTubeInLb: [600, 700],
    steelTubeInLb: [1200, 1400],
    hoseInLb: [900, 1150],
    source: 'army-tm-55-1520',
  },
  {
    dash: 20,
    aluminiumTubeInLb: [680, 800],
    steelTubeInLb: [1200, 1400],
    hoseInLb: [950, 1150],
    source: 'army-tm-55-1520',
  },
] as const satisfies readonly FlareTorqueRow[];

/** Flats of the nut past first contact of the seats, with marks scribed on nut and body. */
export interface FlatsRow {
  readonly joint: 'flare37-hose' | 'flare37-tube' | 'flare45';
  readonly dash: number;
  readonly flats: Range;
  readonly source: SourceId;
}

export const flatsRows = [
  { joint: 'flare37-hose', dash: 4, flats: [1.5, 1.75], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-hose', dash: 5, flats: [1, 1.5], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-hose', dash: 6, flats: [1, 1.5], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-hose', dash: 8, flats: [1.25, 1.75], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-hose', dash: 10, flats: [1.25, 1.75], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-hose', dash: 12, flats: [1, 1.5], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-hose', dash: 16, flats: [0.75, 1], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-hose', dash: 20, flats: [0.5, 0.75], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-hose', dash: 24, flats: [0.5, 0.75], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-hose', dash: 32, flats: [0.75, 0.75], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-tube', dash: 4, flats: [2.25, 2.75], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-tube', dash: 5, flats: [2.25, 2.75], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-tube', dash: 6, flats: [2.25, 2.75], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-tube', dash: 8, flats: [2.25, 2.75], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-tube', dash: 10, flats: [2, 2.5], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-tube', dash: 12, flats: [2, 2.5], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-tube', dash: 16, flats: [2.25, 2.75], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-tube', dash: 20, flats: [1.25, 1.75], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-tube', dash: 24, flats: [0.75, 1.25], source: 'army-tm-9-2320-364' },
  { joint: 'flare37-tube', dash: 32, flats: [1, 1.25], source: 'army-tm-9-2320-364' },
  { joint: 'flare45', dash: 4, flats: [1, 1.25], source: 'army-tm-9-2320-364' },
  { joint: 'flare45', dash: 5, flats: [1, 1.25], source: 'army-tm-9-2320-364' },
  { joint: 'flare45', dash: 6, flats: [0.75, 1], source: 'army-tm-9-2320-364' },
  { joint: 'flare45', dash: 8, flats: [1, 1.25], source: 'army-tm-9-2320-364' },
  { joint: 'flare45', dash: 10, flats: [1, 1.25], source: 'army-tm-9-2320-364' },
  { joint: 'flare45', dash: 12, flats: [1, 1.25], source: 'army-tm-9-2320-364' },
] as const satisfies readonly FlatsRow[];

/**
 * O-ring boss, oiled [lb-ft]: four public manuals, each as printed (a +-10 % or +- tolerance taken as a range). They differ by up
 * to 2.3 times for one thread, so only their band may ever be shown.
 */
export interface BossTorqueRow {
  readonly manual: 1 | 2 | 3 | 4;
  readonly text: string;
  readonly lbFt: Readonly<Record<number, Range>>;
  readonly source: SourceId;
}

const within = (middle: number, spread: number): Range => [middle - spread, middle + spread];
const tenth = (middle: number): Range => within(middle, middle / 10);

export const bossTorques = [
  {
    manual: 1,
    text: 'no kind stated, within a tenth',
    lbFt: {
      3: tenth(6),
      4: tenth(9),
      5: tenth(12),
      6: tenth(18),
      8: tenth(34),
      10: tenth(46),
      12: tenth(75),
      14: tenth(90),
      16: tenth(105),
      20: tenth(140),
      24: tenth(160),
    },
    source: 'equipment-manuals',
  },
  {
    manual: 2,
    text: 'adjustable (locknut) fittings',
    lbFt: {
      4: [13.3, 15],
      6: [25, 29],
      8: [40, 44],
      10: [58, 63],
      12: [75, 85],
      16: [109, 121],
      20: [213, 237],
      24: [238, 262],
    },
    source: 'equipment-manuals',
  },
  {
    manual: 3,
    text: 'fittings that do not adjust',
    lbFt: {
      4: [14, 15],
      5: [15, 24],
      6: [19, 21],
      8: [34, 37],
      10: [55, 60],
      12: [88, 97],
      14: [113, 124],
      16: [130, 142],
      20: [163, 179],
      24: [199, 220],
    },
    source: 'equipment-manuals',
  },
  {
    manual: 4,
    text: 'steel, high pressure',
    lbFt: {
      2: within(4, 1),
      3: within(9, 1),
      4: within(16, 1),
      5: within(22, 2),
      6: within(35, 4),
      8: within(60, 6),
      10: within(105, 11),
      12: within(140, 15),
      14: within(185, 18),
      16: within(220, 22),
      20: within(260, 22),
      24: within(320, 30),
      32: within(330, 33),
    },
    source: 'equipment-manuals',
  },
] as const satisfies readonly BossTorqueRow[];

/** One manual halves the boss torque where fitting, plug or port is not of steel. */
export const softMetalShare = 0.5;

/** Taper pipe: turns past finger tight, and the most torque for steel [lb-ft]. */
export interface TaperTighteningRow {
  readonly pipe: string;
  readonly turns: Range;
  readonly mostLbFt: number;
  readonly source: SourceId;
}

export const taperTightening = [
  { pipe: '1/8', turns: [0.75, 1.75], mostLbFt: 12, source: 'npt-manual' },
  { pipe: '1/4', turns: [0.75, 1.75], mostLbFt: 25, source: 'npt-manual' },
  { pipe: '3/8', turns: [0.75, 1.75], mostLbFt: 40, source: 'npt-manual' },
  { pipe: '1/2', turns: [0.5, 1.5], mostLbFt: 54, source: 'npt-manual' },
  { pipe: '3/4', turns: [0.5, 1.5], mostLbFt: 78, source: 'npt-manual' },
  { pipe: '1', turns: [0.5, 1.5], mostLbFt: 112, source: 'npt-manual' },
] as const satisfies readonly TaperTighteningRow[];
