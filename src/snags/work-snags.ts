import type { Line } from '#car';
import type { LinesWorld, Way } from '#lines';
import { describeSource } from '#sources';
import { partWords } from './part-words.ts';
import type { Snag } from './snag.ts';

/** What a taken way asks of the builder's hands: brackets, fittings that go in first, dimensions to measure. */
export function workSnags(world: LinesWorld, line: Line, way: Way): Snag[] {
  return [...bracketSnags(line, way), ...goesInFirst(world, line, way), ...toMeasure(world, line, way)];
}

function bracketSnags(line: Line, way: Way): Snag[] {
  const brackets = way.clamps.filter((clamp) => clamp.bracket);
  const [first] = brackets;
  if (first === undefined) return [];
  const places = brackets.map((clamp) => clamp.alongMm.toFixed(0)).join(', ');
  const many = brackets.length === 1 ? 'a bracket' : `${brackets.length} brackets`;
  return [
    {
      id: `${line.id}-brackets`,
      kind: 'brackets',
      level: 'note',
      question: 'cut',
      line: line.id,
      text: `${line.id} wants ${many} to clamp it to, ${places} mm along from ${line.from}: nothing fixed is within a clip's reach.`,
      value: brackets.length,
      limit: 0,
      unit: 'brackets',
      source: describeSource('common-practice'),
      atMm: first.atMm,
      cures: ['put into the car file what is there to clamp to, if something is'],
    },
  ];
}

function goesInFirst(world: LinesWorld, line: Line, way: Way): Snag[] {
  return way.ends.flatMap((end): Snag[] => {
    const early = end.makeUp.filter((id) => world.shelf.adapters.find((row) => row.id === id)?.before === true);
    if (early.length === 0) return [];
    const [partId = end.port] = end.port.split('.');
    const port = world.bay.ports.get(end.port);
    const names = early.map((id) => world.shelf.adapters.find((row) => row.id === id)?.name ?? id).join(', ');
    return [
      {
        id: `${line.id}-first-${end.port.replace('.', '-')}`,
        kind: 'goes-in-first',
        level: 'note',
        question: 'fit',
        line: line.id,
        part: partId,
        text: `${line.id}: ${names} must be in ${end.port} before ${partWords(world.car, partId)} is mounted.`,
        value: early.length,
        limit: 0,
        unit: 'parts',
        source: 'the catalogue',
        ...(port === undefined ? {} : { atMm: port.at }),
        cures: [],
      },
    ];
  });
}

/** One note a line, however many of its parts have a usual part's dimensions. */
function toMeasure(world: LinesWorld, line: Line, way: Way): Snag[] {
  const hoses = way.pieces.flatMap((piece) => piece.hose ?? []);
  const { shelf } = world;
  const ends = hoses.flatMap((id) => {
    const hose = shelf.findHose(id);
    return hose === undefined ? [] : shelf.hoseEndsFor(hose);
  });
  const rows = [...ends, ...shelf.adapters, ...shelf.bulkheadFittings];
  const ids = new Set([...way.ends, ...way.joints].flatMap((end) => end.makeUp));
  const generic = [...ids].filter((id) => rows.find((row) => row.id === id)?.measure === true).sort();
  const bare = hoses.filter((id) => shelf.findHose(id)?.measure === true);
  const all = [...new Set([...bare, ...generic])];
  if (all.length === 0) return [];
  return [
    {
      id: `${line.id}-measure`,
      kind: 'to-measure',
      level: 'note',
      question: 'buy',
      line: line.id,
      text: `${line.id} is worked out with a usual part's dimensions for ${all.join(', ')}: measure the part in your hand before cutting.`,
      value: all.length,
      limit: 0,
      unit: 'parts',
      source: describeSource('generic-dimensions'),
      cures: ["put the measured dimensions into the car's catalogue under the same id"],
    },
  ];
}
