import { type Line, type TakenWay, findPort } from '#car';
import { type LinesWorld, type Way, conditionsOf, hoseFitness } from '#lines';
import { describeEnd, endKey } from '#standards';

/** What the second car asks of a line that a hose made for the first does not have; empty where it has it all. */
export function askedOtherwise(a: LinesWorld, lineA: Line, way: Way | TakenWay, b: LinesWorld, lineB: Line): string[] {
  return [...portsAsk(a, lineA, b, lineB), ...hoseAsks(a, lineA, way, b, lineB), ...pathAsks(lineA, lineB)];
}

/** Other thread or seat on a port. */
export function portsAsk(a: LinesWorld, lineA: Line, b: LinesWorld, lineB: Line): string[] {
  return (
    [
      ['from', lineA.from, lineB.from],
      ['to', lineA.to, lineB.to],
    ] as const
  ).flatMap(([, refA, refB]) => {
    const before = findPort(a.car, refA)?.port;
    const after = findPort(b.car, refB)?.port;
    if (before === undefined || after === undefined) return [];
    if (endKey(before.end) !== endKey(after.end))
      return [`${refB} is now a ${describeEnd(after.end)}, it was a ${describeEnd(before.end)}`];
    return before.restrictorMm === after.restrictorMm
      ? []
      : [`the restrictor in ${refB} is now ${after.restrictorMm ?? 'none'}, it was ${before.restrictorMm ?? 'none'}`];
  });
}

function hoseAsks(a: LinesWorld, lineA: Line, way: Way | TakenWay, b: LinesWorld, lineB: Line): string[] {
  if (lineA.dash !== lineB.dash && lineB.dash !== undefined)
    return [`the line is now a -${lineB.dash}${lineA.dash === undefined ? '' : `, it was a -${lineA.dash}`}`];
  if (lineA.boreMm !== lineB.boreMm && lineB.boreMm !== undefined)
    return [
      `the line's bore is now ${lineB.boreMm} mm${lineA.boreMm === undefined ? '' : `, it was ${lineA.boreMm} mm`}`,
    ];
  const wantsA = piecesInWords(lineA);
  const wantsB = piecesInWords(lineB);
  if (wantsA !== wantsB) return [`it is now to be made of ${wantsB}, it was of ${wantsA}`];
  return [
    ...new Set(
      way.pieces.flatMap(({ hose: id }) => {
        const hose = id === undefined ? undefined : b.shelf.findHose(id);
        if (id !== undefined && hose === undefined) return [`${id} is no longer in the catalogue`];
        if (hose === undefined) return [];
        const was = a.shelf.findHose(id!);
        const known = new Set(
          was === undefined
            ? []
            : hoseFitness(was, conditionsOf(lineA))
                .filter((f) => f.level === 'stop')
                .map((f) => f.code),
        );
        return hoseFitness(hose, conditionsOf(lineB))
          .filter((f) => f.level === 'stop' && !known.has(f.code))
          .map((f) => f.text);
      }),
    ),
  ];
}

const piecesInWords = ({ pieces, hose }: Line): string => {
  if (pieces.length === 0) return hose ?? 'any hose';
  return pieces
    .map(
      ({ hose: id, tube }) =>
        id ??
        (tube === undefined ? 'any hose' : `${tube.odMm} x ${tube.wallMm} mm tube bent at ${tube.bendRadiusMm} mm`),
    )
    .join(', then ');
};

/** Other panels on the way, or a drain that must fall in other conditions. */
function pathAsks(lineA: Line, lineB: Line): string[] {
  const passes = ({ through }: Line): string =>
    through.length === 0
      ? 'nothing'
      : through
          .map(({ kind, part, atMm }) => `${part} by ${kind}${atMm === undefined ? '' : ` at ${atMm.join(', ')}`}`)
          .join(', then ');
  const path =
    passes(lineA) === passes(lineB)
      ? []
      : [`it now passes through ${passes(lineB)}; it passed through ${passes(lineA)}`];
  const fall =
    JSON.stringify(lineA.fall) === JSON.stringify(lineB.fall) && lineA.rises === lineB.rises
      ? []
      : ['it must now fall or rise otherwise than before'];
  return [...path, ...fall];
}
