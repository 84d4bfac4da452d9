import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { main } from './main.ts';

const demo = fileURLToPath(new URL('../../demo/fellside.json', import.meta.url));
const bare = fileURLToPath(new URL('../../demo/three-ports.json', import.meta.url));

/** A handbrake of 340 over 50 mm on a cylinder that makes too much of it. */
const kit = join(mkdtempSync(join(tmpdir(), 'fairlead-lever-')), 'kit.json');
writeFileSync(
  kit,
  JSON.stringify({
    fairlead: 1,
    parts: [],
    levers: [
      {
        ...{ id: 'hb', acts: 'hand', pivotMm: [900, 120, 220], axis: [0, 1, 0], turnDeg: [0, 22] },
        handle: { atMm: [900, 120, 560] },
        arms: [{ id: 'push', atMm: [900, 120, 170] }],
        force: { usualN: 200, rangeN: [150, 260] },
        cylinders: [
          {
            ...{ id: 'm', arm: 'push', farMm: [800, 120, 170], boreMm: 15.87, strokeMm: 28 },
            ...{ freeMm: 1, needsMl: 2, wantedBar: [40, 70] },
          },
        ],
      },
    ],
  }),
);
afterAll(() => rmSync(dirname(kit), { recursive: true, force: true }));

async function run(...words: readonly string[]) {
  const said = { out: '', err: '' };
  const code = await main(['lever', ...words], {
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    outIsTerminal: false,
    errIsTerminal: false,
    columns: 100,
    env: {},
  });
  return { code, ...said };
}

interface Output {
  readonly restRatio: number;
  readonly handleMm: readonly number[];
  readonly cylinder: { readonly bores: readonly { readonly pressureBar: readonly number[] }[] };
}

describe('lever', () => {
  it('gives ratio, travel and pressure of the handbrake (second: 250 N, 7:1, 17.8 mm bore is 70.3 bar)', async () => {
    const { out } = await run(demo, 'K2', '--json');
    const answer = JSON.parse(out) as { outputs: readonly Output[] };
    const [output] = answer.outputs;
    expect(output?.restRatio).toBeCloseTo(7, 6);
    expect(output!.handleMm[1]).toBeCloseTo(90, 0);
    // The ratio rises with the swing; where pressure stands it makes more than the 70.3 bar as drawn.
    expect(output!.cylinder.bores[0]!.pressureBar[1]).toBeGreaterThan(70.3);
    expect(out).not.toMatch(/NaN|Infinity/);
  });

  it('tells all levers in words, in inches too, with what is open and cautions', async () => {
    const { out } = await run(demo);
    expect(out).toMatch(/K1 {2}Gear lever/);
    expect(out).toMatch(/as drawn 5\.00 : 1/);
    expect(out).toMatch(/Shift cable bends \d+ deg in all; 270 is the most/);
    expect(out).toMatch(/qualified person/);
    expect(out).not.toMatch(/NaN|Infinity|not known|undefined/);
    const inches = await run(demo, 'K2', '--inches');
    expect(inches.out).toMatch(/8\.27 in from the pivot/);
    // 900 N on a plate of the bracket; 362 MPa of bearing is 52,500 psi.
    expect(inches.out).toMatch(/202 lbf on each plate: pin on its hole 2610 psi of 52400 psi/);
    expect(inches.out).not.toMatch(/\d (MPa|N|bar)\b/);
  });

  it('finds a lever by its name, and tells the nearest where there is none', async () => {
    expect((await run(demo, 'handbrake LEVER')).out).toMatch(/^K2/);
    const { code, out, err } = await run(demo, 'K3');
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(
      /no lever "K3"; nearest: K1; allowed: K1 \(Gear lever\), K1-gate \(Gear lever across the gate\), gate-arm \(Gate selector on the transaxle\), K2 \(Handbrake lever\)\n$/,
    );
  });

  it('speaks psi and inches in sentences too, and leaves ratios alone', async () => {
    const { out } = await run(kit, '--inches');
    // 200 N at 6.98 : 1 on a bore of 15.87 mm, 197.8 mm2: 70.6 bar, 1024 psi; 55 of 70.6 bar wanted in the middle, so 5.4 : 1.
    expect(out).toMatch(/makes 102\d psi \(7\d\d to 13\d\d psi over its range\); 580 to 1015 psi\s+are\s+wanted/);
    expect(out).toMatch(/a ratio of 5\.4 : 1, not 7\.0 : 1/);
    // A cylinder without a name is not said twice.
    expect(out).toMatch(/^ {2}m$/m);
  });

  it('says where levers go in a car without any', async () => {
    const { code, out } = await run(bare);
    expect(code).toBe(0);
    expect(out).toMatch(/no levers/);
    expect((await run(bare, 'K1')).code).toBe(2);
  });
});
