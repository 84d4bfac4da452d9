import { type Line, findLine } from '#car';
import { pathsGap } from '#geometry';
import { bodiesOfWay, type LinesWorld, type Way } from '#lines';
import { type FitsElsewhere, fitsElsewhere } from './fits-elsewhere.ts';
import { type KeptLine, type KeptLines, keptLines } from './kept-lines.ts';
import { type BuyRow, type PartsMove, type SurplusRow, partsMoved } from './parts-moved.ts';
import { type LineWithWay, type PlannedLines, linesWithWays } from './planned-lines.ts';
import { wayDifferences } from './way-differences.ts';

export type Verdict = 'keep' | 'remake' | 'scrap' | 'new';

export interface LineVerdict {
  readonly line: string;
  readonly verdict: Verdict;
  readonly why: string;
  /** What to do about a line that is kept or remade, one step each. */
  readonly steps: readonly string[];
}

/** What a change costs: each line's fate, parts to buy, parts that go back in the drawer, hoses that do elsewhere. */
export interface Comparison {
  readonly lines: readonly LineVerdict[];
  readonly buy: readonly BuyRow[];
  readonly surplus: readonly SurplusRow[];
  readonly fitsElsewhere: readonly FitsElsewhere[];
  /** Lines of the second car to be made that have no way: what they need is not known, what they have is set aside. */
  readonly withoutWay: readonly string[];
}

/** One line of the first car against the second: what it was, what it is to be. */
interface Pair {
  readonly verdict: LineVerdict;
  readonly was: LineWithWay | null;
  readonly is: LineWithWay | null;
}

/**
 * From one car to the other. A line is kept where its hose still does, judged without planning; or where the second plan asks for that very
 * hose, only hung or turned otherwise. `planB` is best made with the kept lines standing (see `withKept`), so that new lines go round them.
 */
export function compare(
  a: LinesWorld,
  plannedA: PlannedLines,
  b: LinesWorld,
  plannedB: PlannedLines,
  known: KeptLines = keptLines(a, plannedA, b),
): Comparison {
  const linesA = linesWithWays(a.car, plannedA);
  const linesB = linesWithWays(b.car, plannedB);
  const pairs = linesB.map((is) =>
    pairOf(is, linesA.find((entry) => entry.line.id === is.line.id) ?? null, known, b, plannedB),
  );
  const gone = linesA
    .filter(({ line }) => findLine(b.car, line.id) === undefined)
    .map((was): Pair => ({ was, is: null, verdict: scrapped(was, b) }));
  const all = clashing([...pairs, ...gone], b.lineKeepOffMm);
  const loose = all
    .filter((p) => p.verdict.verdict === 'remake' || p.verdict.verdict === 'scrap')
    .filter((p) => !isSetAside(p))
    .flatMap(({ was }) => (was?.way ? [{ line: was.line.id, way: was.way }] : []));
  const wanted = all
    .filter((p) => p.verdict.verdict === 'remake' || p.verdict.verdict === 'new')
    .flatMap(({ is }) => (is?.way ? [{ line: is.line.id, way: is.way }] : []));
  const elsewhere = fitsElsewhere(loose, wanted, b.shelf);
  const moves = all
    .filter((pair) => !isSetAside(pair))
    .map((pair): PartsMove => ({ was: pair.was, is: pair.is, kept: pair.verdict.verdict === 'keep' }));
  return {
    lines: all.map((p) => p.verdict),
    ...partsMoved(a, b, moves, elsewhere),
    withoutWay: all
      .filter((pair) => pair.is?.way === null && pair.verdict.verdict !== 'keep')
      .map((p) => p.verdict.line),
    fitsElsewhere: elsewhere.filter((fit) => fit.line !== fit.fits || fit.how === 'cut down'),
  };
}

/** To be made otherwise, but how is not known: its parts are neither needed nor over. */
const isSetAside = ({ verdict, was, is }: Pair): boolean =>
  verdict.verdict === 'remake' && was?.way !== null && is?.way === null;

function pairOf(
  is: LineWithWay,
  was: LineWithWay | null,
  known: KeptLines,
  b: LinesWorld,
  plannedB: PlannedLines,
): Pair {
  const { id } = is.line;
  const kept = known.kept.get(id);
  if (was !== null && kept !== undefined)
    return { was, is: { line: is.line, way: kept.way }, verdict: keptVerdict(kept) };
  if (was === null || was.way === null) return { was, is, verdict: withoutBefore(is, was, plannedB) };
  const because = (known.not.get(id)?.why ?? []).join('; ');
  if (is.way === null) {
    const best = notNow(id, plannedB);
    return {
      was,
      is,
      verdict: { line: id, verdict: 'remake', why: joined(because, best), steps: [] },
    };
  }
  const { hose, adapters, hung } = wayDifferences(was.way, is.way, b.shelf);
  if (hose.length === 0 && adapters.length === 0)
    return {
      was,
      is,
      verdict: { line: id, verdict: 'keep', why: joined(because, 'the same hose does, hung otherwise'), steps: hung },
    };
  const steps = [...hose, ...adapters];
  const stays = hose.length === 0 ? '; the hose itself stays' : '';
  return {
    was,
    is,
    verdict: {
      line: id,
      verdict: 'remake',
      why: `${joined(because, steps.join('; '))}${stays}`,
      steps: [...steps, ...hung],
    },
  };
}

const joined = (because: string, then: string): string => (because === '' ? then : `${because}: ${then}`);

const keptVerdict = ({ line, why }: KeptLine): LineVerdict => ({ line, verdict: 'keep', why, steps: [] });

/** A line that the first car has not, or has no way for. */
function withoutBefore(is: LineWithWay, was: LineWithWay | null, plannedB: PlannedLines): LineVerdict {
  const { id } = is.line;
  if (was === null)
    return {
      line: id,
      verdict: 'new',
      why: is.way === null ? `not in the first car; ${notNow(id, plannedB)}` : 'not in the first car',
      steps: [],
    };
  if (is.way === null)
    return {
      line: id,
      verdict: 'keep',
      why: `nothing was made and nothing changes: no way in either car${refusal(id, plannedB)}`,
      steps: [],
    };
  return { line: id, verdict: 'new', why: 'the first car has no way for it, now there is one', steps: [] };
}

/** Planned and refused, or nobody has planned it. */
const notNow = (id: string, planned: PlannedLines): string =>
  planned.lines.some((answer) => answer.line === id && answer.best !== undefined)
    ? `no way found for it now${refusal(id, planned)}`
    : 'no way is taken for it now';

function refusal(id: string, planned: PlannedLines): string {
  const best: Way | undefined = planned.lines.find((answer) => answer.line === id)?.best;
  const [fail] = best?.fails ?? [];
  return fail === undefined ? '' : ` (${fail.text})`;
}

function scrapped({ line, way }: LineWithWay, b: LinesWorld): LineVerdict {
  const gone = [line.from, line.to].filter((ref) => !b.bay.ports.has(ref));
  const why =
    gone.length === 0
      ? 'the second car has no such line'
      : `${gone.join(' and ')} ${gone.length === 1 ? 'is' : 'are'} gone`;
  return { line: line.id, verdict: 'scrap', why: way === null ? `${why}; nothing was made` : why, steps: [] };
}

/** A kept hose and a new way that want the same room: said on the kept one, for the plan to be made round it. */
function clashing(pairs: readonly Pair[], keepOffMm: number): Pair[] {
  const fresh = pairs
    .filter((p) => p.verdict.verdict === 'remake' || p.verdict.verdict === 'new')
    .flatMap((p) => (p.is?.way ? [{ line: p.is.line, bodies: bodiesOfWay(p.is.way) }] : []));
  return pairs.map((pair) => {
    if (pair.verdict.verdict !== 'keep' || !pair.is?.way) return pair;
    const mine = bodiesOfWay(pair.is.way);
    const hit = fresh
      .filter(({ bodies }) => pathsGap(mine, bodies, keepOffMm).gapMm < keepOffMm - 0.05)
      .map(({ line }: { line: Line }) => line.id);
    return hit.length === 0
      ? pair
      : {
          ...pair,
          verdict: {
            ...pair.verdict,
            steps: [
              ...pair.verdict.steps,
              `plan ${hit.join(', ')} round it: as planned now they come nearer than ${keepOffMm} mm`,
            ],
          },
        };
  });
}
