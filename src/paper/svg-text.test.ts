import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Drawing, gapRuler, makeUpStrip, palettes } from '#book';
import type { Way } from '#lines';
import { catalogue } from '#standards';
import { describe, expect, it } from 'vitest';
import { systemNeed } from '../../scripts/system-needs.mjs';
import { escaped, svgText } from './svg-text.ts';

const hostile = `<script>alert("1")</script> & 'x' ]]> <!-- \u0000\u0008\uFFFE\uD800 </text></svg>`;

const sheet = (text: string): Drawing => ({
  title: text,
  description: text,
  unit: 'mm',
  width: 200,
  height: 20,
  shapes: [
    { kind: 'text', at: [2, 10], text, size: 3, weight: 'bold', anchor: 'start', role: 'ink', halo: 'card' },
    {
      kind: 'group',
      offset: [1, 1],
      clip: { at: [0, 0], width: 10, height: 10 },
      shapes: [
        { kind: 'circle', centre: [4, 4], radius: 3, fill: 'steel', hatch: { role: 'hot', pitch: 1 } },
        {
          kind: 'path',
          start: [0, 0],
          steps: [{ to: [4, 0] }, { to: [8, 4], radius: 4, isClockwise: true }],
          isClosed: true,
          pen: { role: 'ink', width: 0.3, dash: [1, 0.5] },
        },
      ],
    },
  ],
});

/** Everything that stands between two marks. */
const texts = (svg: string) => svg.replace(/<[^<>]*>/g, '\n');

describe('a drawing as SVG', () => {
  it('means nothing to XML in its texts', () => {
    const svg = svgText(sheet(hostile), palettes.paper);
    for (const bad of ['<script', '<!--', '</text></svg>', '\u0000', '\u0008', '\uFFFE'])
      expect(svg).not.toContain(bad);
    expect(texts(svg)).not.toMatch(/[<>"']/);
    expect(escaped(hostile)).toBe(
      '&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt; &amp; &#39;x&#39; ]]&gt; &lt;!-- ???? &lt;/text&gt;&lt;/svg&gt;',
    );
  });

  it('has a title and a description for whoever hears it', () => {
    const svg = svgText(sheet('Ruler'), palettes.paper);
    expect(svg).toMatch(/role="img" aria-labelledby="title desc"/);
    expect(svg).toMatch(/<title id="title">Ruler<\/title>\n<desc id="desc">Ruler<\/desc>/);
  });

  it('takes its colours from the palette and says its size in its unit', () => {
    const ruler = gapRuler(
      { nominal: 1, worst: 0, best: 2, limit: 3, unit: 'mm' },
      { width: 200, size: 13, unit: 'px' },
    );
    const [light, dark] = [svgText(ruler, palettes.light), svgText(ruler, palettes.dark)];
    expect(light).toContain(palettes.light.stop);
    expect(dark).toContain(palettes.dark.stop);
    expect(dark).not.toContain(palettes.light.ink);
    expect(light).toMatch(/width="200px" height="[\d.]+px" viewBox="0 0 200 /);
  });

  it('refuses a place that is no number', () => {
    const bad: Drawing = { ...sheet('x'), shapes: [{ kind: 'circle', centre: [Number.NaN, 0], radius: 1 }] };
    expect(() => svgText(bad, palettes.paper)).toThrow(/a place of the drawing is NaN; allowed: a number/);
  });
});

// second: rsvg-convert (libxml2) reads the file as XML and draws it; what is not well formed ends it with a fault.
describe.skipIf(!systemNeed('librsvg2-bin').isMet)('rsvg-convert', () => {
  const converted = (svg: string) => execFileSync('rsvg-convert', ['--format', 'png'], { input: svg });

  it('reads what is written, hostile texts too, and not what is broken', () => {
    for (const text of [hostile, 'Öl, 12 mm → 漢字 ½″', ''])
      expect(
        converted(svgText(sheet(text), palettes.paper))
          .subarray(1, 4)
          .toString(),
      ).toBe('PNG');
    expect(() =>
      execFileSync('rsvg-convert', ['--format', 'png'], {
        input: svgText(sheet('x'), palettes.paper).replace('</g>', ''),
        stdio: ['pipe', 'pipe', 'ignore'],
      }),
    ).toThrow(/Command failed/);
  });

  it('draws the strip of a whole line', () => {
    const file = fileURLToPath(new URL('../book/corpus/fellside-ways.json', import.meta.url));
    const [first] = JSON.parse(readFileSync(file, 'utf8')) as { way: Way }[];
    const strip = makeUpStrip(first!.way, catalogue(), { width: 190, size: 2.6, unit: 'mm' });
    expect(converted(svgText(strip, palettes.paper)).length).toBeGreaterThan(5000);
  });
});
