import type { Panel } from '#car';
import type { Point2 } from '#geometry';
import type { TemplateShape } from '#panels';
import type { Parsed } from '#units';
import type { Mark } from '../tape/drafts.ts';
import { tapeMm, type TapeUnit } from '../tape/tape-text.ts';
import { allCorners, cornerName, cornerOf } from './outline-corners.ts';

type Match = NonNullable<Panel['template']>['matches'][number];

/** A point of the template where it is on the car, as it is typed. */
export interface MatchDraft {
  /** Name of a corner; "own" for a place that is none. */
  readonly corner: string;
  readonly own: Point2;
  readonly at: readonly [string, string, string];
}

/** As many as lay a template onto the car. */
export const LEAST_MATCHES = 3;

export const emptyMatches = (shape: TemplateShape): readonly MatchDraft[] => {
  const all = allCorners(shape).filter(({ ring }) => ring === 0);
  const step = Math.max(1, Math.floor(all.length / LEAST_MATCHES));
  return Array.from({ length: LEAST_MATCHES }, (_, i) => ({
    corner: cornerName(all[Math.min(i * step, all.length - 1)]!),
    own: [0, 0] as const,
    at: ['', '', ''] as const,
  }));
};

/** A corner this near is the one that was meant [mm]. */
const SAME_MM = 0.05;

export function matchDrafts(shape: TemplateShape, matches: readonly Match[]): readonly MatchDraft[] {
  return matches.map(({ flatMm: [x, y], atMm }) => {
    const corner = allCorners(shape).find((at) => {
      const [a, b] = cornerOf(shape, at)!.at;
      return Math.hypot(a - x, b - y) < SAME_MM;
    });
    return {
      corner: corner === undefined ? 'own' : cornerName(corner),
      own: [x, y],
      at: [`${atMm[0]} mm`, `${atMm[1]} mm`, `${atMm[2]} mm`],
    };
  });
}

const isBlank = ({ at }: MatchDraft): boolean => at.every((text) => text.trim() === '');
const ways = ['rearward', 'right', 'up'] as const;
const tenth = (mm: number): number => Math.round(mm * 10) / 10 + 0;
const hundredth = (mm: number): number => Math.round(mm * 100) / 100 + 0;

/** Where the points are on the car; none where nothing is said of any. */
export function matchesFrom(
  shape: TemplateShape,
  drafts: readonly MatchDraft[],
  unit: TapeUnit,
): Parsed<readonly Match[]> {
  const said = drafts.filter((draft) => !isBlank(draft));
  const found: Match[] = [];
  for (const { corner, own, at } of said) {
    const named = allCorners(shape).find((one) => cornerName(one) === corner);
    const flat = named === undefined ? own : cornerOf(shape, named)!.at;
    const place: number[] = [];
    for (const [i, text] of at.entries()) {
      const read = tapeMm(text, unit);
      if (!read.ok) return { ...read, fault: `corner ${corner}, ${ways[i]}: ${read.fault}` };
      place.push(tenth(read.value));
    }
    found.push({ flatMm: [hundredth(flat[0]), hundredth(flat[1])], atMm: [place[0]!, place[1]!, place[2]!] });
  }
  const twice = said.find(({ corner }, i) => corner !== 'own' && said.findIndex((one) => one.corner === corner) !== i);
  if (twice !== undefined)
    return { ok: false, fault: `corner ${twice.corner} stands on the car twice; each once is allowed`, ways: [] };
  if (found.length > 0 && found.length < LEAST_MATCHES)
    return {
      ok: false,
      fault: `${found.length} of its corners ${found.length === 1 ? 'is' : 'are'} found on the car; none, or ${LEAST_MATCHES} and more are allowed`,
      ways: [],
    };
  return { ok: true, value: found };
}

/** Where the points are, to be drawn on the car. */
export const matchMarks = (drafts: readonly MatchDraft[], unit: TapeUnit): readonly Mark[] =>
  drafts.flatMap(({ corner, at }) => {
    const [x, y, z] = at.map((text) => tapeMm(text, unit));
    return x?.ok && y?.ok && z?.ok ? [{ label: corner, atMm: [x.value, y.value, z.value], faces: null }] : [];
  });
