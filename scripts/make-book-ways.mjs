// Thins a plan of the demo to what the tests of the book need: every line's best way, with few points of each path.
// node bin/fairlead.mjs plan demo/fellside.json --json > PLAN.json; node scripts/make-book-ways.mjs PLAN.json
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const MOST_POINTS = 14;
const [planFile] = process.argv.slice(2);
if (planFile === undefined) {
  process.stderr.write('make-book-ways: PLAN.json\n');
  process.exit(2);
}
const { lines } = JSON.parse(readFileSync(planFile, 'utf8'));
const rounded = (value) => Math.round(value * 1000) / 1000;
const thinned = (path) => {
  const step = Math.max(1, Math.ceil((path.length - 1) / (MOST_POINTS - 1)));
  return path.filter((_, i) => i % step === 0 || i === path.length - 1).map((point) => point.map(rounded));
};
const bodies = (way) => way.bodies.map((body) => ({ ...body, pathMm: thinned(body.pathMm) }));
const rows = lines.map(({ line, taken, best }) =>
  JSON.stringify({ line, isTaken: taken !== null, way: { ...best, bodies: bodies(best) } }),
);
const out = fileURLToPath(new URL('../src/book/corpus/fellside-ways.json', import.meta.url));
writeFileSync(out, `[\n${rows.join(',\n')}\n]\n`);
