import { describe, expect, it } from 'vitest';
import { sourceFiles } from '../source-files.ts';
import { areas } from './published.ts';

describe('the published values', () => {
  it('are each claimed by a test, area by area', () => {
    const tests = sourceFiles('src', ['.test.ts']).filter(({ text }) => text.includes('published('));
    const claimed = new Set(
      tests.flatMap(({ text }) =>
        [...text.matchAll(/'((?:flow|fluid|air|slosh|heat|solid|lever|panel)\.[a-z]+)'/g)].map(([, area]) => area),
      ),
    );
    expect(areas.length).toBeGreaterThan(15);
    expect(areas.filter((area) => !claimed.has(area))).toEqual([]);
  });
});
