import { outlineArea } from '../src/geometry/outline/outline.ts';
import { nested } from '../src/panels/nesting/nested.ts';
import { seededParts } from '../test/panels/seeded-parts.ts';

const SETS = 20;
const SHEETS = 5;

function cpuMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const middle = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return (sorted[(sorted.length - 1) >> 1]! + sorted[sorted.length >> 1]!) / 2;
};

/** Sets of so many panel-like shapes on five sheets: ours and the rectangles round them in the same run, beside the bound by area. */
function rowFor(count: number, sizeMm: readonly [number, number]): string[] {
  const runs = Array.from({ length: SETS }, (_, i) => {
    const parts = seededParts(1000 * count + i, count);
    const from = cpuMs();
    const nest = nested(
      parts,
      Array.from({ length: SHEETS }, () => sizeMm),
    );
    const areaMm2 = parts.reduce((sum, part) => sum + Math.abs(outlineArea(part.outline)), 0);
    return {
      ms: cpuMs() - from,
      ours: nest.wasteShare,
      plain: nest.rectanglesWasteShare,
      gain: nest.rectanglesWasteShare - nest.wasteShare,
      left: nest.left.length,
      sheets: nest.sheets.length,
      bound: areaMm2 / (sizeMm[0] * sizeMm[1]),
    };
  });
  return [
    String(count),
    `${sizeMm[0]} x ${sizeMm[1]}`,
    percent(middle(runs.map((run) => run.ours))),
    percent(middle(runs.map((run) => run.plain))),
    percent(middle(runs.map((run) => run.gain))),
    percent(Math.min(...runs.map((run) => run.gain))),
    `${middle(runs.map((run) => run.sheets))} / ${middle(runs.map((run) => run.bound)).toFixed(2)}`,
    String(Math.max(...runs.map((run) => run.left))),
    `${(middle(runs.map((run) => run.ms)) / 1000).toFixed(1)} / ${(Math.max(...runs.map((run) => run.ms)) / 1000).toFixed(1)}`,
  ];
}

export default {
  title: 'Nesting: waste over 20 seeded sets against bottom-left rectangles, 5 mm apart, one thread',
  async run(): Promise<{ headers: string[]; rows: string[][]; goal: string }> {
    return {
      headers: [
        'parts',
        'sheets',
        'waste',
        'rectangles',
        'less by',
        'least',
        'sheets used / by area',
        'left over',
        'CPU s mid / most',
      ],
      rows: [rowFor(12, [2000, 1000]), rowFor(40, [2000, 1000]), rowFor(40, [1500, 750]), rowFor(40, [1300, 700])],
      goal: 'never worse than the rectangles, 8 of a hundred less in the middle, 40 parts in 5 s; 1300 x 700 is the size on which they want all five sheets',
    };
  },
};
