import { describe, expect, it } from 'vitest';
import { applyEdit, type Car, checkCar } from '#car';
import { emptyPair, filePoint, filePointTexts, scanFile, scanPartEdits, wholePairs } from './scan-draft.ts';

const empty: Car = { fairlead: 1, parts: [], movers: [], lines: [] };

describe('a scan in the form', () => {
  it('is kept under a plain name that is not taken', () => {
    expect(scanFile('Engine left (2).STL', [])).toBe('scans/engine-left-2.stl');
    expect(scanFile('Motor ölfrei.ply', ['scans/motor-ölfrei.ply'])).toBe('scans/motor-ölfrei-2.ply');
    expect(scanFile('..%.glb', [])).toBe('scans/scan.glb');
  });

  it('a point comes back out of the form, and what is none is none', () => {
    expect(filePoint(filePointTexts([12.34, -0.02, 7]))).toEqual([12.3, 0, 7]);
    expect(filePoint(['1,5', '\u22122', '3'])).toEqual([1.5, -2, 3]);
    expect(filePoint(['1', '', '3'])).toBeUndefined();
  });

  // hand: 600 mm forward of the datum is X -600; 2 in up is Z 50.8.
  it('only whole pairs are sent, each with its row', () => {
    const onCar = { ...emptyPair.onCar, sides: ['minus', 'plus', 'plus'] as const, far: ['600', '0', '2 in'] as const };
    const pairs = wholePairs(empty, [emptyPair, { onScan: ['1', '2', '3'], onCar }, { ...emptyPair, onCar }], 'mm');
    expect(pairs).toEqual([{ row: 1, pair: { inFile: [1, 2, 3], inCar: [-600, 0, 50.8] } }]);
  });

  it('comes onto the car as a part with its mesh', () => {
    const mesh = {
      file: 'scans/engine.stl',
      unit: 'mm',
      turnDeg: [0, 1e-9, 90.00004],
      atMm: [1600.004, -20, 90],
    } as const;
    const made = scanPartEdits(empty, { name: 'Engine', class: 'hot', known: '2 mm' }, mesh, null);
    if (!made.ok) throw new Error(made.fault);
    const { car } = applyEdit(empty, made.value.edits[0]!);
    expect(checkCar(car)).toEqual([]);
    expect(car.parts[0]!.shapes[0]!.mesh).toEqual({
      file: 'scans/engine.stl',
      unit: 'mm',
      turnDeg: [0, 0, 90],
      atMm: [1600, -20, 90],
      knownToMm: 2,
    });
    expect(scanPartEdits(empty, { name: '', class: 'hot', known: '2 mm' }, mesh, null).ok).toBe(false);
  });
});
