import type { Shape } from '../drawing.ts';
import { block, brokenText } from '../text-block.ts';
import { type Block, headingBlocks, textBlocks, together } from './block.ts';
import type { BookInput } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import { tickBox } from './grid.ts';
import { signBlock } from './sign-block.ts';
import type { RuleClause } from './handed-over.ts';
import type { SheetFrame } from './sheet-frame.ts';

const MOST_EVIDENCE = 6;

/** A sheet for each rule pack: clause by clause what it asks, what the car shows, a box for the scrutineer, room for a photograph. */
export function rulesSheets(input: BookInput, frame: SheetFrame): BookSheet[] {
  return (input.rulePacks ?? []).map((pack): BookSheet => {
    const code = `rules-${pack.id}`;
    const blocks: Block[] = [
      ...textBlocks(
        "The builder's own words for the rules; the event's rules as printed, and its scrutineer, decide. A clause that is met here is met as entered, by the car as drawn.",
        frame.inner,
        { size: frame.small },
      ),
      ...pack.conflicts.flatMap((text) =>
        textBlocks(
          `Asked otherwise elsewhere: ${text}`,
          frame.inner,
          { size: frame.size, role: 'stop' },
          { space: frame.size * 0.4 },
        ),
      ),
      ...pack.clauses.flatMap((clause) => clauseBlocks(clause, frame)),
      signBlock(frame, ['shown by', 'scrutineer']),
    ];
    const head = {
      code,
      title: `${pack.name}, ${pack.year}`,
      about: ['for the scrutineer'],
      car: input.car.name ?? 'Car',
    };
    return {
      code,
      title: `Scrutineering: ${pack.name}, ${pack.year}`,
      group: 'rules',
      pages: filledPages(frame, head, blocks),
      lines: [...new Set(pack.clauses.flatMap(({ lines }) => lines))],
      rows: [
        ['clause', 'asks', 'verdict', 'evidence'],
        ...pack.clauses.map((clause) => [clause.clause, clause.text, clause.verdict, clause.evidence.join('; ')]),
      ],
    };
  });
}

const VERDICTS: Readonly<Record<RuleClause['verdict'], string>> = {
  meets: 'meets the entered rule',
  'does not meet': 'does not meet the entered rule',
  look: 'not measured: look',
};

function clauseBlocks(clause: RuleClause, frame: SheetFrame): Block[] {
  const { inner, size, small } = frame;
  const photo = clause.wantsPhoto ? PHOTO_EM * size : 0;
  const width = inner - (photo === 0 ? 0 : photo + size * 1.5);
  const evidence = clause.evidence.slice(0, MOST_EVIDENCE);
  const left = clause.evidence.length - evidence.length;
  const role = clause.verdict === 'does not meet' ? 'stop' : 'ink';
  const words = [
    ...headingBlocks(clause.clause, width, size, 0),
    ...textBlocks(clause.text, width, { size }),
    ...textBlocks(VERDICTS[clause.verdict], width - size * 2.4, { size, weight: 'bold', role }, { space: size * 0.3 }),
    ...evidence.flatMap((text) => textBlocks(text, width, { size: small }, { space: size * 0.15 })),
    ...(left > 0 ? textBlocks(`and ${left} more: see the CSV of this sheet`, width, { size: small }) : []),
  ];
  const column = together(words);
  const height = Math.max(column.height, photo * 0.75, size * 2);
  const shapes: Shape[] = [
    ...column.shapes,
    ...tickBox([width - size * 1.6, 0], size * 1.5),
    ...(photo === 0 ? [] : photoBox(inner - photo, photo, small)),
    {
      kind: 'line',
      from: [0, height + size * 0.6],
      to: [inner, height + size * 0.6],
      pen: { role: 'rule', width: 0.25 },
    },
  ];
  return [{ shapes, height: height + size * 0.7, space: size * 0.9 }];
}

const PHOTO_EM = 17;

function photoBox(x: number, width: number, size: number): Shape[] {
  const height = width * 0.75;
  const rows = brokenText('photograph here', width - size, size);
  return [
    { kind: 'rect', at: [x, 0], width, height, pen: { role: 'soft', width: 0.25, dash: [2, 1.2] } },
    ...block([x + width / 2, height / 2 - size], rows, { size, role: 'soft', anchor: 'middle' }).shapes,
  ];
}
