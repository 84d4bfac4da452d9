import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { describeEnd, type End, endKey, endTypes, mates, parseEnd, sizedBy, threadOf } from './index.ts';

const end = (text: string): End => {
  const read = parseEnd(text);
  if (!read.ok) throw new Error(read.fault);
  return read.end;
};
const why = (a: string, b: string): string => {
  const mating = mates(end(a), end(b));
  return mating.ok ? 'mates' : mating.why;
};

describe('mates', () => {
  it.each([
    ['flare37-male -16', 'flare37-female -16', 'cone', []],
    ['flare45-male -6', 'flare45-female -6', 'cone', []],
    ['orb -12', 'orb-stud -12', 'o-ring', [{ id: 'o-ring-912', qty: 1 }]],
    ['orb -4', 'orb-stud -4', 'o-ring', [{ id: 'o-ring-904', qty: 1 }]],
    ['npt-female 1/8', 'npt-male 1/8', 'taper-thread', [{ id: 'thread-sealant', qty: 1 }]],
    ['metric-washer M14x1.5', 'metric-washer-stud M14x1.5', 'washer', [{ id: 'washer-m14x1.5', qty: 1 }]],
    ['metric-orb M14x1.5', 'metric-orb-stud M14x1.50', 'o-ring', [{ id: 'o-ring-m14x1.5', qty: 1 }]],
    ['bspp 1/4', 'bspp-stud G1/4', 'washer', [{ id: 'washer-g1-4', qty: 1 }]],
    ['face-seal -8', 'face-seal-swivel -8', 'o-ring', [{ id: 'o-ring-face-8', qty: 1 }]],
    ['inverted-flare M10x1.0', 'inverted-flare-nut M10x1', 'cone', []],
    ['flange2 -12', 'flange2-foot -12', 'gasket', [{ id: 'gasket-flange2', qty: 1 }]],
    ['bead 38 mm', 'hose-bore 38 mm', 'clamp', []],
    ['barb 6 mm', 'hose-bore 6 mm', 'clamp', []],
    ['plain-tube 19.05 mm', 'tube-socket 19.05 mm', 'sleeve', []],
  ])('%s takes %s', (a, b, kind, seals) => {
    expect(mates(end(a), end(b))).toMatchObject({ ok: true, seal: { kind, seals } });
    expect(mates(end(b), end(a))).toMatchObject({ ok: true, seal: { kind, seals } });
  });

  // published (public thread tables): 37- and 45-degree flares share the thread at -2 -3 -4 -5 -8 -10.
  it.each([2, 3, 4, 5, 8, 10])('refuses 45 on 37 degrees at -%i: same thread, other seat', (dash) => {
    expect(why(`flare37-female -${dash}`, `flare45-male -${dash}`)).toMatch(
      /^same thread .*, other seat: .*37-degree.*45-degree/u,
    );
  });
  // published: they differ at -6 (9/16-18 and 5/8-18) and at -12 (1 1/16-12 and 1 1/16-14).
  it.each([6, 12])('refuses 45 on 37 degrees at -%i, where the threads differ', (dash) => {
    expect(why(`flare37-female -${dash}`, `flare45-male -${dash}`)).not.toMatch(/same thread|mates/u);
  });
  // published: the -4 face-seal thread is the -6 flare's, the -12 the -14 flare's.
  it('knows the face-seal traps', () => {
    expect(threadOf(end('face-seal -4'))).toBe(threadOf(end('flare37-male -6')));
    expect(threadOf(end('face-seal -12'))).toBe(threadOf(end('orb -14')));
    expect(why('face-seal -4', 'flare37-female -6')).toMatch(/^same thread 9\/16-18, other seat/u);
  });
  // published (ISO 6149 and ISO 9974, from memory): an M14x1.5 washer port takes no O-ring stud.
  it('keeps an O-ring stud out of a washer port of the same thread', () => {
    expect(why('metric-washer M14x1.5', 'metric-orb-stud M14x1.5')).toMatch(/^same thread M14x1.5, other seat/u);
    expect(why('metric-orb M14x1.5', 'metric-washer-stud M14x1.5')).toMatch(/^same thread M14x1.5, other seat/u);
  });
  it('keeps a flare out of an O-ring boss, whose thread it shares', () => {
    expect(why('orb -8', 'flare37-male -8')).toMatch(/^same thread 3\/4-16, other seat/u);
  });
  it('keeps parallel and taper pipe apart, and sizes apart', () => {
    expect(why('bspp 1/4', 'npt-male 1/4')).not.toBe('mates');
    expect(why('orb -12', 'orb-stud -10')).toMatch(/^sizes differ/u);
    expect(why('flare37-male -8', 'flare37-male -8')).toMatch(/neither screws/u);
    expect(mates({ type: 'orb' }, { type: 'orb-stud' }).ok).toBe(false);
  });
  it('stretches a hose over a spigot a little, and says when it is loose or tight', () => {
    expect(why('bead 38 mm', 'hose-bore 40 mm')).toMatch(/loose/u);
    expect(why('bead 38 mm', 'hose-bore 32 mm')).toMatch(/too tight/u);
    expect(why('bead 38.1 mm', 'hose-bore 38 mm')).toBe('mates');
    expect(mates(end('plain-tube 19 mm'), end('hose-bore 19 mm'))).toMatchObject({
      ok: true,
      seal: { text: expect.stringContaining('bead the tube') },
    });
  });

  const anyEnd = fc.record(
    {
      type: fc.constantFrom(...endTypes),
      dash: fc.constantFrom(2, 3, 4, 6, 8, 10, 12, 14, 16, 20),
      thread: fc.constantFrom('M10x1', 'M14x1.5', '3/8-24'),
      pipe: fc.constantFrom('1/8', '1/4', '1'),
      odMm: fc.constantFrom(6, 19.05, 38, 57),
    },
    { requiredKeys: ['type'] },
  ) as fc.Arbitrary<End>;
  it('does not care which end is named first', () => {
    fc.assert(
      fc.property(anyEnd, anyEnd, (a, b) => mates(a, b).ok === mates(b, a).ok),
      { seed: 31, numRuns: 4000 },
    );
  });
  it('gives a refusal in one line', () => {
    fc.assert(
      fc.property(anyEnd, anyEnd, (a, b) => {
        const mating = mates(a, b);
        return mating.ok || /^[^\n]{8,240}$/u.test(mating.why);
      }),
      { seed: 32, numRuns: 2000 },
    );
  });
  it('lets two ends with one key join the same ends', () => {
    fc.assert(
      fc.property(anyEnd, anyEnd, anyEnd, (a, b, c) => endKey(a) !== endKey(b) || mates(a, c).ok === mates(b, c).ok),
      { seed: 33, numRuns: 4000 },
    );
  });
});

describe('parseEnd', () => {
  it('reads back what it is keyed by', () => {
    for (const text of [
      'orb -16',
      'flare37-female -3',
      'metric-washer M12x1.5',
      'npt-male 3/8',
      'hose-bore 57 mm',
      'inverted-flare 3/8-24',
    ]) {
      const read = end(text);
      expect(endKey(read)).toBe(text.replace(' ', ':').replace(/:(\d.*) mm$/u, ':$1 mm'));
    }
  });
  it.each([
    ['flair37-male -12', /nearest: flare37-male/u],
    ['orb 1/8', /dash size/u],
    ['orb -7', /comes as/u],
    ['flare45-male -16', /comes as/u],
    ['npt-male 5/8', /pipe size/u],
    ['metric-orb 14', /thread/u],
    ['bead', /diameter/u],
    ['', /no end is named/u],
  ])('refuses %j and says what is allowed', (text, fault) => {
    expect(parseEnd(text)).toMatchObject({ ok: false, fault: expect.stringMatching(fault) });
  });
  it('never throws', () => {
    fc.assert(
      fc.property(
        fc.string({ maxLength: 60 }),
        fc.constantFrom(...endTypes),
        (text, type) => parseEnd(text).ok !== undefined && parseEnd(`${type} ${text}`).ok !== undefined,
      ),
      { seed: 34, numRuns: 2000 },
    );
  });
});

describe('describeEnd', () => {
  it('names seat, size and thread', () => {
    expect(describeEnd(end('flare37-male -12'))).toBe('-12 37-degree male flare (1 1/16-12)');
    expect(describeEnd(end('metric-washer M14x1.5'))).toBe('M14x1.5 metric port for a sealing washer');
    expect(describeEnd(end('bead 38 mm'))).toBe('38 mm beaded spigot');
    for (const type of endTypes) expect(describeEnd({ type })).not.toMatch(/undefined|NaN/u);
    expect(Object.keys(sizedBy).sort()).toEqual([...endTypes].sort());
  });
});
