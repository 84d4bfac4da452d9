import { carFrom } from '#car';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dataFolder } from './data-folder.ts';
import { carIdFrom, checkedName, freeId, isScanFile } from './shelf-names.ts';

/** Whether a car's shape may name the file: the rule of the car file, which the shelf's own must agree with. */
function mayStandInCar(file: string): boolean {
  const part = { id: 'a', class: 'fixed', shapes: [{ mesh: { file, unit: 'mm' } }] };
  return carFrom({ fairlead: 1, parts: [part] }).ok;
}

describe('the name of a scan', () => {
  it.each([
    ['engine.stl', true],
    ['scans/engine ü (2).STL', true],
    ['a/b/c/d.step', true],
    ['..stl', true],
    ['a/..b/c.obj', true],
    ['/engine.stl', false],
    ['../engine.stl', false],
    ['scans/../../engine.stl', false],
    ['./scans/engine.stl', true],
    ['scans /engine.stl', false],
    ['scans./engine.stl', false],
    ['scans//engine.stl', false],
    ['c:engine.stl', false],
    ['scans\\engine.stl', false],
    ['~/engine.stl', false],
    ['%2e%2e/engine.stl', false],
    ['en\u0000gine.stl', false],
    ['en\ngine.stl', false],
    ['en\u202egine.stl', false],
    ['engine.stl/', false],
    ['engine.exe', false],
    ['.stl/x', false],
    ['', false],
    [`${'a'.repeat(296)}.stl`, true],
    [`${'a'.repeat(297)}.stl`, false],
  ])('%j: %s', (file, isOne) => {
    expect(isScanFile(file)).toBe(isOne);
    expect(mayStandInCar(file)).toBe(isOne);
  });

  it('is one that the car file takes too, and the other way round, seed 7501', () => {
    const piece = fc.constantFrom(
      'a',
      '.',
      '..',
      '/',
      '//',
      '\\',
      ':',
      '%',
      '~',
      ' ',
      '\u0000',
      '\u200b',
      'scans/',
      '.stl',
      '.STP',
    );
    const file = fc.array(piece, { maxLength: 6 }).map((pieces) => `${pieces.join('')}.stl`);
    let taken = 0;
    fc.assert(
      fc.property(file, (name) => {
        if (isScanFile(name)) taken++;
        expect(isScanFile(name)).toBe(mayStandInCar(name));
      }),
      { seed: 7501, numRuns: 500 },
    );
    expect(taken).toBeGreaterThan(20);
  });
});

describe('the id of a car', () => {
  it('is what it is called, in letters that stand in an address', () => {
    expect(carIdFrom('Shed special')).toBe('shed-special');
    expect(carIdFrom('  Årsta/../No. 7  ')).toBe('arsta-no-7');
    expect(carIdFrom('車')).toBe('car');
    expect(carIdFrom('Shop')).toBe('car');
    expect(carIdFrom('x'.repeat(99))).toHaveLength(48);
    expect(freeId('a', (id) => ['a', 'a-2'].includes(id))).toBe('a-3');
  });
});

describe('who did something', () => {
  it('is one line, or nobody', () => {
    expect(checkedName(' Ann ', 'who')).toBe('Ann');
    expect(checkedName('', 'who')).toBe('');
    for (const name of ['a\nb', 'a\u0000', '\ud800', 'x'.repeat(121), 7 as never])
      expect(() => checkedName(name, 'who')).toThrow(/^who ".*": allowed is one line of at most 120 characters$/);
  });
});

describe('the folder of the shelf', () => {
  it("is the builder's own, else where the system keeps such things", () => {
    expect(dataFolder({ FAIRLEAD_DATA: '/srv/cars', XDG_DATA_HOME: '/x' })).toBe('/srv/cars');
    expect(dataFolder({ FAIRLEAD_DATA: '', XDG_DATA_HOME: '/x' })).toBe('/x/fairlead');
    expect(dataFolder({})).toMatch(/[/\\]\.local[/\\]share[/\\]fairlead$/);
  });
});
