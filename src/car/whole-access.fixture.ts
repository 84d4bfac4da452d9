/** What strip-down asks of a part, every field once. */
export const wholePartAccess = {
  fasteners: [
    {
      id: 'top',
      name: 'Top strap',
      atMm: [1700, -600, 500],
      faces: [-1, 0, 0],
      head: 'hexagon',
      acrossFlatsMm: 10,
      size: 'M6',
      lengthMm: 25,
      into: 'wall',
      minutes: 2,
      note: 'with a washer',
    },
    { id: 'low', atMm: [1700, -600, 150], faces: [-1, 0, 0], head: 'quarter-turn', into: 'lid' },
  ],
  sitsOn: ['wall'],
  comesAfter: ['lid'],
  spillsL: 0.4,
  pulls: [[0, 0, 1]],
  lifts: 'hoist',
  gives: false,
  staysOn: false,
} as const;

/** The workshop, every field once. */
export const wholeWorkshop = {
  workshop: {
    brake: { noseMm: 50, highMm: 100, beamMm: 120, bedMm: 80, fingerMm: 20 },
    crew: 2,
    minutes: [{ work: 'hexagon', minutes: 2 }],
    tools: [{ kind: 'open-end', acrossFlatsMm: 10, headMm: 24, thickMm: 5, lengthMm: 140, measured: true }],
    hand: { acrossMm: 90, thickMm: 50, armMm: 85, measured: true },
    breaks: [{ name: 'Between two runs', minutes: 40, jobs: ['tank'] }],
  },
} as const;
