import { wholeHeat, wholeHeatOfHot, wholeHeatOfTank } from './whole-heat.fixture.ts';
import { wholePartAccess, wholeWorkshop } from './whole-access.fixture.ts';
import { wholeCircuits } from './whole-circuits.fixture.ts';
import { wholeLevers } from './whole-levers.fixture.ts';
import { wholePanels } from './whole-panels.fixture.ts';

/** A car file that uses every field at least once; two lines, one of them made. For tests. */
export const wholeCar = {
  fairlead: 1,
  name: 'Every field',
  note: 'for tests',
  'x-shop': { bench: 3, tags: ['a', 'b'] },
  parts: [
    {
      id: 'tank',
      name: 'Oil tank',
      class: 'fixed',
      knownToMm: 4,
      facingKnownDeg: 3,
      note: 'hung',
      ...wholeHeatOfTank,
      ...wholePartAccess,
      shapes: [
        { cylinder: { fromMm: [1780, -600, 90], toMm: [1780, -600, 570], radiusMm: 90 }, knownToMm: 3, 'x-seen': true },
      ],
      ports: [
        {
          id: 'out',
          name: 'Feed',
          atMm: [1690, -600, 120],
          faces: [-1, 0, 0],
          end: { type: 'orb', dash: 16 },
          knownToMm: 2,
          facingKnownDeg: 1,
          near: { parts: ['wall'], mm: 120, keepOffMm: 15 },
        },
        {
          id: 'back',
          atMm: [1870, -600, 520],
          faces: [1, 0.5, 0],
          end: { type: 'metric-washer', thread: 'M14x1.5' },
          restrictorMm: 1.2,
        },
        {
          id: 'read',
          measured: [{ from: 'sill', readMm: [100, 200, 300], knownToMm: 4 }],
          faces: [0, 0, 1],
          end: { type: 'npt-female', pipe: '1/8' },
        },
        {
          id: 'taped',
          measured: [
            { from: 'edge', alongMm: 100, outMm: -20, downMm: 300 },
            { from: 'line', downMm: 350 },
            { xMm: 110 },
            { yMm: 0 },
            { zMm: 300, knownToMm: 50 },
            { from: 'sill.a', distanceMm: 800, knownToMm: 60 },
          ],
          faces: [0, 1, 0],
          end: { type: 'bead', odMm: 38 },
        },
      ],
    },
    {
      id: 'turbo',
      class: 'hot',
      surfaceC: 800,
      shielded: false,
      turbine: true,
      keepOffMm: 160,
      movesWith: 'engine',
      ...wholeHeatOfHot,
      shapes: [
        {
          tube: {
            pointsMm: [
              [1600, 200, 500],
              [1880, 270, 500],
            ],
            radiusMm: 45,
          },
        },
      ],
      ports: [
        { id: 'drain', atMm: [2070, 330, 205], faces: [0, 0, -1], end: { type: 'flange2' } },
        { id: 'feed', atMm: [2070, 330, 330], faces: [0, 0, 1], end: { type: 'flare37-male', dash: 4 } },
      ],
    },
    {
      id: 'wall',
      class: 'fixed',
      crossable: ['grommet', 'bulkhead-fitting'],
      shapes: [
        { box: { minMm: [0, 0, 0], maxMm: [1, 900, 600] }, turnDeg: [0, 0, 2], atMm: [1350, -450, 0] },
        { mesh: { file: 'scans/wall.stl', unit: 'in', turnDeg: [0, 90, 0], atMm: [1, 2, 3], knownToMm: 2 } },
        { box: { minMm: [0, 0, 0], maxMm: [10, 20, 30] }, from: 'sill' },
      ],
    },
  ],
  movers: [
    {
      id: 'engine',
      name: 'Engine on its mounts',
      pivotMm: [1700, 0, 190],
      axis: [1, 0, 0],
      turnDeg: [-1, 1],
      note: 'rocks',
    },
    {
      id: 'wheel',
      slideMm: [
        [0, 0, -50],
        [0, 0, 60],
      ],
    },
  ],
  lines: [
    {
      id: 'O1',
      name: 'Drain',
      from: 'turbo.drain',
      to: 'tank.back',
      duty: 'oil-drain',
      boreMm: 17.5,
      through: [{ part: 'wall', kind: 'grommet', atMm: [1350, 0, 100], faces: [1, 0, 0], note: 'low' }],
      pieces: [
        { hose: 'h12' },
        { tube: { odMm: 19, wallMm: 1.2, bendRadiusMm: 57, material: 'steel' }, note: 'one bend' },
      ],
      state: 'planned',
      taken: null,
      keepOffMm: 10,
      fall: { pitchDeg: [-5, 15], rollDeg: [-5, 5], withinPlumbDeg: 15 },
      nearStraight: false,
      note: 'short',
    },
    {
      id: 'O2',
      from: 'turbo.feed',
      to: 'tank.out',
      duty: 'oil-pressure',
      dash: 4,
      hose: 'h4',
      state: 'made',
      flowLMin: 2.5,
      pressureBar: 5,
      vacuumBar: 0,
      temperatureC: 110,
      sleeve: 'fire sleeve',
      rises: true,
      taken: {
        rank: 1,
        feasible: true,
        ends: [
          { port: 'turbo.feed', makeUp: ['end-0'], angleDeg: 0, clockDeg: null },
          { port: 'tank.out', makeUp: ['end-45'], angleDeg: 45, clockDeg: 213, clockFrom: 'up' },
        ],
        pieces: [
          {
            hose: 'h4',
            cutLengthMm: 655,
            allowanceMm: [-5, 15],
            odMm: 13,
            minBendRadiusMm: 56,
            tightestBendMm: 80.2,
            endToEndDeg: null,
          },
        ],
        clamps: [{ alongMm: 130, atMm: [1, 2, 3], on: 'wall', bracket: false }],
        bodies: [
          {
            part: 'hose',
            pathMm: [
              [2070, 330, 330],
              [2070, 330, 400],
            ],
            odMm: 13,
          },
        ],
        gaps: [{ part: 'turbo', gapMm: 0.5 }],
      },
    },
  ],
  origins: [
    {
      id: 'sill',
      name: 'Left sill',
      kind: 'points',
      points: [
        { name: 'a', readMm: [0, 0, 0], atMm: [1000, -700, 50], knownToMm: 3 },
        { name: 'b', readMm: [500, 0, 0], atMm: [1500, -700, 50] },
        { name: 'c', readMm: [0, 300, 0], atMm: [1000, -400, 50] },
      ],
    },
    {
      id: 'edge',
      kind: 'straightedge',
      points: [
        { name: 'left', atMm: [0, -500, 600] },
        { name: 'right', atMm: [0, 500, 600] },
      ],
      down: [0, 0, -1],
      out: [1, 0, 0],
    },
    {
      id: 'line',
      kind: 'level',
      points: [{ name: 'peg', atMm: [0, 0, 600], downMm: 50 }],
      pitchDeg: 0.5,
      rollDeg: -0.2,
      note: 'laser',
    },
    { id: 'pegs', kind: 'marks', points: [{ name: 'p', atMm: [0, 0, 0] }] },
  ],
  catalogue: {
    hoses: [
      {
        id: 'h12',
        name: 'Twelve',
        dash: 12,
        boreMm: 17.5,
        odMm: 27,
        minBendRadiusMm: 122,
        pressureBar: 60,
        vacuumBar: 0.7,
        minC: -40,
        maxC: 150,
        partNumber: 'A-12',
        supplier: 'shop',
        price: 31.5,
        currency: 'EUR',
      },
      { id: 'h4', boreMm: 5.6, odMm: 13, minBendRadiusMm: 56 },
    ],
    hoseEnds: [
      {
        id: 'he',
        insertMm: 22,
        curveLMinKpa: [
          [20, 1],
          [60, 8],
        ],
        curveAtC: 100,
      },
    ],
    adapters: [{ id: 'ad' }],
    tubes: [{ id: 'tu', odMm: 19, wallMm: 1.2, bendRadiusMm: 57 }],
    seals: [{ id: 'se' }],
    clamps: [{ id: 'cl' }],
    grommets: [{ id: 'gr' }],
  },
  keepOffMm: { hot: 110, hotShielded: 55, moving: 30, fixed: 7, line: 4 },
  box: [{ id: 'he', qty: 3, note: 'red' }],
  ...wholeCircuits,
  ...wholePanels,
  ...wholeLevers,
  ...wholeHeat,
  ...wholeWorkshop,
} as const;
