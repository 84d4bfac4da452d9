/** Every field of heat once: on parts, in cases, of bays and temperatures as measured. */
export const wholeHeatOfHot = {
  surfaceByCase: [
    { case: 'corner', surfaceC: 760 },
    { case: 'off', surfaceC: 640 },
  ],
  finish: 'cast-iron',
  emissivity: 0.8,
  cover: {
    kind: 'blanket',
    thicknessMm: 12,
    conductivityWPerMK: 0.1,
    airGapMm: 3,
    finish: 'stainless-used',
    emissivity: 0.3,
    note: 'laced',
  },
  massKg: 6,
  heatCapacityJPerKgK: 500,
} as const;

export const wholeHeatOfTank = { keptAt: 'oil', standsC: 150 } as const;

export const wholeHeatOfCase = {
  speedKmh: 120,
  bayAirC: 80,
  bayAirMPerS: 2,
  pressures: [
    { at: 'lid.W1', cp: -0.4, how: 'stated', note: 'guess' },
    { at: 'gap', mmWater: 12, measuredKmh: 100, how: 'manometer' },
    { at: 'lid', pa: -50, how: 'manometer' },
  ],
} as const;

export const wholeSoak = {
  id: 'off',
  engineRpm: 0,
  after: 'corner',
  soakMin: 40,
  coversOff: ['lid'],
  fanRunsMin: 5,
  pumpRunsMin: 3,
} as const;

export const wholeHeat = {
  bays: [
    {
      id: 'engine-bay',
      name: 'Engine bay',
      minMm: [1350, -640, 0],
      maxMm: [2500, 640, 800],
      panels: ['lid'],
      openings: [
        {
          id: 'gap',
          name: 'Gap at the arch',
          atMm: [2400, 600, 300],
          faces: [0, 1, 0],
          areaCm2: 200,
          meshOpenPercent: 60,
          dischargeCoefficient: 0.6,
          drain: false,
          note: 'as cut',
        },
      ],
      fan: { flowLMin: 9000, blows: 'out', opening: 'lid.W1' },
      intakes: [{ part: 'turbo', atMm: [1960, 330, 270], flowLMin: 20_000, note: 'no airbox' }],
      otherHeatKw: 1,
      note: 'one space',
    },
  ],
  heatReadings: [
    {
      id: 'T1',
      case: 'off',
      line: 'O2',
      alongMm: 120,
      readC: 110,
      belowC: 116,
      atMin: 6,
      means: 'strip',
      corrects: true,
      on: '2026-11-25',
      note: 'drain',
    },
    { id: 'T2', case: 'corner', part: 'turbo', atMm: [1700, 240, 545], readC: 640, means: 'pyrometer' },
    { id: 'T3', case: 'corner', panel: 'lid', readC: 70, means: 'probe' },
    { id: 'T4', case: 'corner', bay: 'engine-bay', readC: 85, means: 'probe' },
  ],
} as const;
