import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { findPort, readCar } from '#car';
import { type HoseRow, catalogue } from '#standards';
import { chooseHoses } from './choose-hoses.ts';
import { clockFrame } from './clock-frame.ts';
import { endMakeUps } from './end-make-ups.ts';
import { lineSpans } from './line-spans.ts';
import { makeUpText } from './make-up-text.ts';
import { beadedTubeEnd, tubeEndMakeUps } from './tube-end-make-ups.ts';

const shelf = catalogue();
const hose = (id: string): HoseRow => shelf.findHose(id)!;

it("reads from the port outwards, with the clock in the car's words", () => {
  const found = endMakeUps({ end: { type: 'orb', dash: 16 } }, hose('rubber-braid-16'), shelf, {
    angles: [45],
    allowElbowAdapters: false,
  });
  const makeUp = 'makeUps' in found ? found.makeUps[0]! : undefined;
  // hand: rearward-facing port, clock 240: three o'clock is right, so 240 is left and down.
  expect(makeUpText(makeUp!, { type: 'orb', dash: 16 }, { frame: clockFrame([1, 0, 0]), clockDeg: 240 })).toBe(
    "-16 O-ring boss port (1 5/16-12) → adapter -16 O-ring boss to -16 37-degree male, straight → 45° reusable end, tail points left, down (eight o'clock)",
  );
});

it('gives an elbow adapter its own clock, and a straight end none', () => {
  const found = endMakeUps({ end: { type: 'orb', dash: 12 } }, hose('rubber-braid-12'), shelf, { angles: [0] });
  const elbow = 'makeUps' in found ? found.makeUps.find((m) => m.clockHow === 'locknut')! : undefined;
  const frame = clockFrame([0, 0, 1]);
  expect(
    makeUpText(elbow!, { type: 'orb', dash: 12 }, { frame, clockDeg: null, adapter: { frame, clockDeg: 90 } }),
  ).toMatch(/degrees, locknut, tail points right \(three o'clock\) → straight reusable end$/u);
});

it('leads a port to a hard tube through a nut and sleeve', () => {
  // hand: 3/4 in tube is -12 (dash = sixteenths of outside diameter): flange foot to -12 male, then the tube nut.
  const found = tubeEndMakeUps({ end: { type: 'flange2', dash: 12 } }, { odMm: 19, wallMm: 0.9 }, shelf, {
    allowElbowAdapters: false,
  });
  const makeUp = 'makeUps' in found ? found.makeUps[0]! : undefined;
  expect(makeUp?.parts.map((p) => p.id)).toEqual(['gasket-flange2', 'flange2-12-flare-12', 'tube-nut-12']);
  expect(makeUp).toMatchObject({ fixing: 'tube', angleDeg: 0 });
  expect(makeUp?.insertMm).toBe(shelf.adapters.find((a) => a.id === 'tube-nut-12')?.lengthMm);
  expect(tubeEndMakeUps({ end: { type: 'bead', odMm: 38 } }, { odMm: 38, wallMm: 1.6 }, shelf, {})).toHaveProperty(
    'missing',
  );
  expect(beadedTubeEnd({ odMm: 38, wallMm: 1.6 }, shelf)).toMatchObject({
    parts: [],
    stages: [],
    insertMm: 0,
    fixing: 'tube',
  });
});

it('makes up every port of the demo car that a hose or tube of its line ends on', () => {
  const reading = readCar(readFileSync('demo/fellside.json', 'utf8'));
  if (!reading.ok) throw new Error(`demo car: ${JSON.stringify(reading.faults[0])}`);
  const own = catalogue(reading.car.catalogue as Parameters<typeof catalogue>[0]);
  const missing: string[] = [];
  let ends = 0;
  for (const line of reading.car.lines) {
    for (const { piece, from, to } of lineSpans(line).spans) {
      for (const joint of [from, to]) {
        if (joint.kind !== 'port') continue;
        const port = findPort(reading.car, joint.ref)!.port;
        const end = {
          end: port.end as Parameters<typeof endMakeUps>[0]['end'],
          ...(port.restrictorMm === undefined ? {} : { restrictorMm: port.restrictorMm }),
        };
        // A hose that the catalogue does not know is another room's fault to tell; the ports are made up with what suits the line.
        const row = own.findHose(piece.hose ?? '') ?? chooseHoses(line, own.hoses).hoses[0]?.hose;
        const found =
          piece.tube === undefined
            ? endMakeUps(end, row!, own, { duty: line.duty })
            : tubeEndMakeUps(end, piece.tube, own, { duty: line.duty });
        ends++;
        if ('missing' in found) missing.push(`${line.id} ${joint.ref}: ${found.missing}`);
      }
    }
  }
  expect(missing).toEqual([]);
  expect(ends).toBeGreaterThan(50);
});
