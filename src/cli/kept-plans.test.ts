import { tmpdir } from 'node:os';
import { describe, expect, it } from 'vitest';
import { keptFolder } from './kept-plans.ts';

describe('the folder for kept plans', () => {
  it.each([
    [{ FAIRLEAD_CACHE: '/a', XDG_CACHE_HOME: '/b', HOME: '/c' }, '/a'],
    [{ FAIRLEAD_CACHE: '', XDG_CACHE_HOME: '/b', HOME: '/c' }, '/b/fairlead'],
    // XDG base directories, 0.8: "If an implementation encounters a relative path ... it should consider the path invalid and ignore it."
    [{ XDG_CACHE_HOME: 'b', HOME: '/c' }, '/c/.cache/fairlead'],
    [{ HOME: '/c' }, '/c/.cache/fairlead'],
    [{ USERPROFILE: '/u' }, '/u/.cache/fairlead'],
    [{}, undefined],
  ])('published: of %j is %s', (env, folder) => {
    expect(keptFolder(env)).toBe(folder);
  });

  it('hand: of these tests is one of their own', () => {
    expect(process.env['FAIRLEAD_CACHE']?.startsWith(tmpdir())).toBe(true);
  });
});
