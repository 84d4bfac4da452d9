import type { CarsCompared } from '#answers';
import { crewCompared } from '#crew';
import type { BuyRow, SurplusRow } from '#stock';
import { carOnFile } from './car-on-file.ts';
import { columns } from './columns.ts';
import type { Command } from './command.ts';
import { exitCode } from './exit-code.ts';
import { freshOption, keptPlans, tellKept } from './kept-plans.ts';
import { type Lengths, lengthsIn } from '#units';
import { planExit, threads } from './planned-car.ts';
import { type Progress, progress } from './progress.ts';
import { snagCount } from './snag-rows.ts';
import { type Style, styleFor } from './style.ts';
import { colourOption, inchesOption, jsonOption } from './usual-options.ts';

export const compare: Command = {
  name: 'compare',
  about: 'what a change costs: each line keep, remake or scrap; to buy, left over',
  operands: [
    { name: 'CAR', about: 'the car file as it is' },
    { name: 'OTHER', about: 'the car file as it is to be' },
  ],
  options: [jsonOption, inchesOption, freshOption, colourOption],
  more: [
    'Ways taken in CAR count as taken; its other lines are planned. Lines of OTHER whose hose still does stay, the rest is planned round them. The exit code is that of OTHER.',
  ],
  async run(asked, terminal) {
    const [file = '', other = ''] = asked.operands;
    const from = await carOnFile(file);
    const to = await carOnFile(other);
    const kept = keptPlans(asked, terminal);
    const bars = new Map<string, Progress>();
    const answer = await crewCompared(
      from.input,
      to.input,
      (car, part, done, total) => {
        const title = `${car} car, ${part === 'alone' ? 'each line alone' : 'all together'}`;
        const bar = bars.get(title) ?? progress(title, terminal, false);
        bars.set(title, bar);
        bar.at(done, total);
        if (done >= total) bar.end();
        return true;
      },
      { hands: threads(terminal), kept },
    );
    if (answer === null) return exitCode.interrupted;
    tellKept(file, answer.keptAt.first, kept, terminal);
    tellKept(other, answer.keptAt.second, kept, terminal);
    if (asked.has('json')) terminal.out(`${JSON.stringify(answer.comparison)}\n`);
    else terminal.out(`${inWords(answer, styleFor(asked, terminal), lengthsIn(asked.has('inches'))).join('\n')}\n`);
    return planExit(answer);
  },
};

const ORDER = ['scrap', 'remake', 'new', 'keep'] as const;

function inWords({ comparison, snags }: CarsCompared, style: Style, lengths: Lengths): string[] {
  const lines = [...comparison.lines].sort((p, q) => ORDER.indexOf(p.verdict) - ORDER.indexOf(q.verdict));
  const count = ORDER.map((verdict) => `${lines.filter((row) => row.verdict === verdict).length} ${verdict}`).join(
    ', ',
  );
  return [
    `${style.strong('Lines')}: ${count}`,
    ...lines.flatMap((row) => {
      const text = `  ${row.line.padEnd(4)} ${row.verdict.padEnd(6)} ${lengths.text(row.why)}`;
      return [
        row.verdict === 'keep' ? text : style.strong(text),
        ...row.steps.map((step) => style.blue(`              ${lengths.text(step)}`)),
      ];
    }),
    '',
    style.strong('To buy'),
    ...buyRows(comparison.buy, lengths),
    style.strong('Left over'),
    ...surplusRows(comparison.surplus, lengths),
    ...(comparison.fitsElsewhere.length === 0
      ? []
      : [
          style.strong('Hoses that do elsewhere'),
          ...comparison.fitsElsewhere.map(
            (fit) => `  ${fit.line} does for ${fit.fits}, ${fit.how}: ${lengths.text(fit.why)}`,
          ),
        ]),
    '',
    ...(comparison.withoutWay.length === 0
      ? []
      : [
          style.stop(
            `▲ No way for ${comparison.withoutWay.join(', ')}: what they need is not in these lists, and what they have is set aside.`,
          ),
        ]),
    'A line only planned gives back all it has, hose and tube by the metre; a made one what comes off it and can be used again.',
    `Open on the second car, kept lines aside: ${snagCount(snags)}. What a kept line left open stays open.`,
  ];
}

const amount = (qty: number, unit: string, lengths: Lengths): string =>
  unit === 'm' ? lengths.metres(qty) : String(qty);

const buyRows = (rows: readonly BuyRow[], lengths: Lengths): string[] =>
  rows.length === 0
    ? ['  nothing']
    : columns(
        rows.map((row) => [
          `  ${amount(row.toBuy, row.unit, lengths)}`,
          row.id,
          row.name,
          lengths.text(row.usedIn.join('; ')),
        ]),
      );

const surplusRows = (rows: readonly SurplusRow[], lengths: Lengths): string[] =>
  rows.length === 0
    ? ['  nothing']
    : columns(
        rows.map((row) => [
          `  ${amount(row.qty, row.unit, lengths)}`,
          row.id,
          row.name,
          lengths.text(`from ${row.from.join('; ')}`),
        ]),
      );
