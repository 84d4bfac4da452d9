import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import type { HeatAnswer, HeatCase, LineCures } from '#heat';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runMain } from './run-main.fixture.ts';

const taken = fileURLToPath(new URL('../../test/screen/fellside-taken.json.gz', import.meta.url));

const run = (words: readonly string[]) => runMain(words, { columns: 110 });

/** Lines of the demo on its hot side, with two far from it. */
const KEPT = new Set(['A1', 'C6', 'C7', 'O8', 'B1', 'F5']);

describe('heat', () => {
  let folder = '';
  let car = '';
  let code = 0;
  let answer: HeatAnswer & { readonly cures: LineCures };
  let running: HeatCase;
  let off: HeatCase;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'fairlead-heat-'));
    car = join(folder, 'car.json');
    const demo = JSON.parse(gunzipSync(readFileSync(taken)).toString()) as {
      lines: { id: string; state: string }[];
      parts: { shapes: { mesh?: unknown }[]; surfaceByCase?: unknown }[];
      circuits: { lines: string[] }[];
      cases: { id: string; soakMin?: number }[];
      heatReadings: unknown[];
      workshop?: unknown;
    };
    demo.lines = demo.lines.filter(({ id }) => KEPT.has(id));
    // Bought: no other way is looked for, which takes longer than all else here; the soak as long as its peaks take.
    demo.lines.find(({ id }) => id === 'C7')!.state = 'bought';
    for (const at of demo.cases) if (at.soakMin !== undefined) at.soakMin = 10;
    // Work planned on lines that are left out.
    delete demo.workshop;
    demo.circuits = [];
    demo.heatReadings = [];
    demo.cases = demo.cases.filter(({ id }) => id === 'full-load' || id === 'switched-off');
    for (const part of demo.parts) {
      part.shapes = part.shapes.filter((shape) => shape.mesh === undefined);
      delete part.surfaceByCase;
    }
    writeFileSync(car, JSON.stringify(demo));
    const said = await run(['heat', car, '--json', '--cures', 'C7']);
    if (said.out === '') throw new Error(said.err);
    code = said.code;
    answer = JSON.parse(said.out) as typeof answer;
    running = answer.cases.find((row) => row.case.id === 'full-load')!;
    off = answer.cases.find((row) => row.case.id === 'switched-off')!;
  }, 180_000);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('finds the lines within reach of turbine and manifold, ranked by degrees; those far off keep their fluid', () => {
    expect(code).toBe(1);
    const ranked = running.lines.toSorted((a, b) => b.worst.surfaceC - a.worst.surfaceC).map(({ line }) => line);
    expect(ranked.slice(0, 4).toSorted()).toEqual(['A1', 'C6', 'C7', 'O8']);
    expect(ranked.slice(-2).toSorted()).toEqual(['B1', 'F5']);
    const from = (id: string): string | undefined =>
      running.lines.find(({ line }) => line === id)!.worst.shares.find(({ kind }) => kind === 'part')?.of;
    expect([from('C7'), from('O8'), from('C6')]).toEqual(['manifold', 'manifold', 'turbine']);
  });

  it('adds its shares up to how much hotter the worst place is than the air about it', () => {
    for (const line of running.lines) {
      const place = line.points.toSorted((a, b) => b.worstC - a.worstC)[0]!;
      const sum = line.worst.shares.reduce((total, { kelvin }) => total + kelvin, 0);
      expect(Math.abs(sum - (line.worst.surfaceC - place.airC)), line.line).toBeLessThan(1);
    }
  });

  it('balances its heat to 1e-6, steady and over the soak', () => {
    expect(running.unbalanced).toBeLessThan(1e-6);
    expect(Math.abs(running.heatInW - running.heatOutW) / running.heatInW).toBeLessThan(1e-6);
    expect(off.soak!.unbalanced).toBeLessThan(1e-6);
  });

  it('peaks after switching off where fluid stands beside what is hot', () => {
    for (const id of ['C7', 'C6', 'O8']) {
      const line = off.lines.find((row) => row.line === id)!;
      expect(line.peak!.atMin, id).toBeGreaterThan(0.2);
      expect(line.worst.surfaceC, id).toBeGreaterThan(
        running.lines.find((row) => row.line === id)!.worst.surfaceC + 10,
      );
    }
    // Water holds at its boiling point under the cap, within what lets the steam out; the heat beyond is steam.
    expect(off.soak!.boils.map(({ line }) => line)).toContain('C7');
    for (const { line: id, atC, litres } of off.soak!.boils) {
      const fluid = off.lines.find(({ line }) => line === id)!.limits.find(({ what }) => what === 'fluid')!;
      expect(fluid.valueC, id).toBeGreaterThan(atC);
      expect(fluid.valueC, id).toBeLessThan(atC + 2);
      expect(litres, id).toBeGreaterThan(0);
    }
    const hot = off.soak!.parts.find(({ id }) => id === 'turbine')!;
    expect(hot.peak.atMin).toBe(0);
  });

  it('has a cure that helps more than any sleeve; a fire sleeve counts for nothing in a soak and says so', async () => {
    const [best] = answer.cures.cures;
    const sleeves = answer.cures.cures.filter(({ kind }) => kind.endsWith('sleeve')).map(({ gainK }) => gainK);
    expect(best!.kind.endsWith('sleeve')).toBe(false);
    expect(best!.gainK).toBeGreaterThan(Math.max(0, ...sleeves) + 2);
    const notes = off.findings.filter(({ code: what }) => what === 'heat-fire-sleeve');
    expect(notes[0]?.text).toMatch(/buys time in a flame; in a soak it gains nothing/);
  });

  it('prints one case whole, worst snags first, and in Fahrenheit too', async () => {
    const said = await run(['heat', car, '--case', 'full-load', '--inches']);
    expect(said.code).toBe(1);
    expect(said.out).toMatch(/line +outside °C +outside °F +hose °C +fluid °C +least margin +from/);
    expect(said.out).toMatch(/Turbine housing: 800 °C \(1,?472 °F\) \(given\)/);
    expect(said.out).toMatch(/Hot parts burn long after switching off/);
    expect(said.out).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('ends with 2 and one clear line where a case or line is not in the car', async () => {
    const wrong = await run(['heat', car, '--case', 'full-lod']);
    expect(wrong.code).toBe(2);
    expect(wrong.err).toMatch(/--case: "full-lod" is not a case of .*nearest: full-load/);
    expect((await run(['heat', car, '--cures', 'Z9'])).err).toMatch(/--cures: "Z9" is not a line/);
  });
});
