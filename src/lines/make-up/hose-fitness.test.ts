import { describe, expect, it } from 'vitest';
import { type HoseRow, catalogue } from '#standards';
import { chooseHoses } from './choose-hoses.ts';
import { type LineConditions, assemblyPressureBar, hoseFitness } from './hose-fitness.ts';

const shelf = catalogue();
const rubber = shelf.findHose('rubber-braid-12')!;
const ptfe = shelf.findHose('ptfe-steel-8')!;

const codes = (hose: HoseRow, line: LineConditions): string[] =>
  hoseFitness(hose, line).map((f) => `${f.level} ${f.code}`);

describe('hoseFitness', () => {
  it('wants a vacuum rating on suction: unknown is open, too low is a broken limit', () => {
    const line: LineConditions = { duty: 'oil-suction', temperatureC: 105 };
    expect(codes(rubber, line)).toEqual(['fix hose-vacuum-unknown']);
    expect(codes({ ...rubber, vacuumBar: 0.5 }, line)).toEqual(['stop hose-vacuum']);
    expect(codes({ ...rubber, vacuumBar: 0.9 }, line)).toEqual([]);
    // read (builders-reports): a scavenge inlet stands up to 0.7 bar below the air outside.
    expect(hoseFitness({ ...rubber, vacuumBar: 0.5 }, line)[0]).toMatchObject({
      breaks: 'vacuum',
      value: 0.7,
      limit: 0.5,
      unit: 'bar',
    });
    expect(codes({ ...rubber, vacuumBar: 0.5 }, { ...line, vacuumBar: 0.15 })).toEqual([]);
  });

  it('stops at pressure, by the weaker of hose and end', () => {
    expect(codes({ ...rubber, pressureBar: 50 }, { duty: 'oil-pressure', pressureBar: 50, temperatureC: 100 })).toEqual(
      [],
    );
    expect(
      codes({ ...rubber, pressureBar: 50 }, { duty: 'oil-pressure', pressureBar: 50.1, temperatureC: 100 }),
    ).toEqual(['stop hose-pressure']);
    expect(
      assemblyPressureBar(rubber, [
        { name: 'end A', fixing: 'crimped' },
        { name: 'end B', fixing: 'reusable', pressureBar: 20 },
      ]),
    ).toEqual({ bar: 20, weakest: 'end B' });
    const held = hoseFitness(rubber, { duty: 'oil-pressure', pressureBar: 9, temperatureC: 100 }, [
      { name: 'hose on a bead', fixing: 'clamped' },
    ]);
    expect(held.map((f) => f.breaks)).toEqual(['pressure']);
  });

  it('hand: a limit that was taken from the usual hose refuses nothing, a fitting that is too weak still does', () => {
    const own = catalogue({ hoses: [{ id: 'mine', dash: 12, boreMm: 17, odMm: 26, minBendRadiusMm: 120 }] });
    const mine = own.findHose('mine')!;
    const hard: LineConditions = { duty: 'oil-pressure', pressureBar: 900, temperatureC: 200 };
    expect(codes(mine, hard)).toEqual(['fix hose-pressure', 'fix hose-hot']);
    expect(hoseFitness(mine, hard)[1]?.text).toMatch(/does not say "maxC"/u);
    expect(codes({ ...mine, assumed: ['maxC'] }, hard)).toEqual(['stop hose-pressure', 'fix hose-hot']);
    const clamped = hoseFitness(mine, { ...hard, pressureBar: 9 }, [{ name: 'bead', fixing: 'clamped' }]);
    expect(clamped.map((f) => `${f.level} ${f.code}`)).toEqual(['stop hose-pressure', 'fix hose-hot']);
  });

  it('gives a sleeve no temperature', () => {
    const hot: LineConditions = { duty: 'oil-pressure', temperatureC: 150 };
    // published: MIL-DTL-8794F 6.1, 250 degF = 121 degC.
    expect(rubber.maxC).toBe(121);
    expect(codes(rubber, hot)).toEqual(['stop hose-hot']);
    expect(codes(rubber, { ...hot, sleeve: 'fire sleeve' })).toEqual(['stop hose-hot']);
    expect(hoseFitness(rubber, { ...hot, sleeve: 'fire sleeve' })[0]?.text).toMatch(/sleeve does not raise/u);
    expect(codes(rubber, { duty: 'oil-pressure', temperatureC: 100, ambientC: 130 })).toEqual(['stop hose-hot']);
  });

  it('wants a liner that leads static away for fuel, and the right fluid', () => {
    const fuel: LineConditions = { duty: 'fuel' };
    const carries = (conductive: boolean | null): HoseRow => ({ ...ptfe, fluids: ['fuel'], conductive });
    expect(codes(carries(true), fuel)).toEqual([]);
    expect(codes(carries(false), fuel)).toEqual(['stop hose-static']);
    expect(codes(carries(null), fuel)).toEqual(['fix hose-static-unknown']);
    expect(codes({ ...ptfe, fluids: ['oil'] }, fuel)).toContain('stop hose-fluid');
    expect(codes({ ...ptfe, fluids: ['oil'] }, { duty: 'brake', pressureBar: 80 })).toEqual(['stop hose-fluid']);
  });

  it("holds the hose to the line's size", () => {
    expect(codes(rubber, { duty: 'oil-pressure', temperatureC: 100, dash: 10 })).toEqual(['stop hose-size']);
    expect(codes(rubber, { duty: 'oil-pressure', temperatureC: 100, boreMm: 19 })).toEqual(['stop hose-bore']);
    expect(codes(rubber, { duty: 'oil-pressure', temperatureC: 100, boreMm: 16 })).toEqual([]);
  });
});

describe('chooseHoses', () => {
  it('puts a hose with a known vacuum rating first on suction', () => {
    const { hoses } = chooseHoses({ duty: 'oil-suction', dash: 12, temperatureC: 105 }, shelf.hoses);
    expect(hoses[0]?.hose.id).toBe('rubber-braid-coil-12');
    expect(hoses.every((c) => c.hose.dash === 12 && c.findings.every((f) => f.level !== 'stop'))).toBe(true);
  });

  it('offers only hoses whose liner is known to lead static for fuel under PTFE, and refuses the rest with the limit', () => {
    const { hoses, refused } = chooseHoses({ duty: 'fuel', dash: 8 }, shelf.hoses);
    expect(hoses.map((c) => c.hose.id)).toContain('ptfe-aramid-conductive-8');
    expect(hoses.map((c) => c.hose.id)).not.toContain('ptfe-steel-8');
    expect(refused.find((c) => c.hose.id === 'ptfe-steel-8')?.findings.map((f) => f.breaks)).toContain('fluid');
  });

  it('looks at no other hose than the one the builder chose', () => {
    const { hoses, refused } = chooseHoses({ duty: 'fuel', dash: 8 }, shelf.hoses, 'ptfe-steel-8');
    expect(hoses).toEqual([]);
    expect(refused.map((c) => c.hose.id)).toEqual(['ptfe-steel-8']);
  });

  it('goes by bore where there is no dash, and says what is missing', () => {
    expect(chooseHoses({ duty: 'charge-air', boreMm: 57 }, shelf.hoses).hoses.map((c) => c.hose.id)).toContain(
      'silicone-57',
    );
    expect(chooseHoses({ duty: 'water', boreMm: 150 }, shelf.hoses).missing).toBe(
      'no hose within 10 % of 150 mm bore in the catalogue',
    );
    expect(chooseHoses({ duty: 'water' }, shelf.hoses).missing).toMatch(/neither dash nor boreMm nor hose/u);
    expect(chooseHoses({ duty: 'water' }, shelf.hoses, 'no-such').missing).toBe('no hose "no-such" in the catalogue');
    expect(chooseHoses({ duty: 'water' }, shelf.hoses, 'textile-10').missing).toBe(
      'no hose "textile-10" in the catalogue; nearest: rubber-textile-10',
    );
    expect(chooseHoses({ duty: 'oil-suction', dash: 32 }, shelf.hoses, 'ruber-32').missing).toBe(
      'no hose "ruber-32" in the catalogue; of -32 there are: rubber-braid-32',
    );
  });
});
