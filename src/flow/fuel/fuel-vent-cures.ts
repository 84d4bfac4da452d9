import type { Vec } from '#geometry';
import { hoseSizes, OPEN_AIR, topOf, withLine } from '../circuit/changed-circuit.ts';
import { withRun } from '../circuit/changed-runs.ts';
import { type ReadyCircuit, redrawn } from '../circuit/circuit-state.ts';
import { partOf } from '../circuit/drawn-circuit.ts';
import type { FuelStands, FuelVent } from '../circuit/fuel-answer.ts';
import type { LineRun } from '../circuit/line-run.ts';
import { pullG } from '../circuit/pull.ts';
import { toldCures } from '../circuit/worked-cure.ts';
import { guides } from '../limits.ts';
import { easierFuel, fuelAfter, type FuelCureAsked } from './fuel-cure-ask.ts';
import type { FuelState } from './fuel-state.ts';

type Attitudes = FuelVent['attitudes'];

/** Pull along a ball valve's axis toward its seat from which the ball shuts it [share of all of it]: near upside down only. */
const BALL_SHUTS = 0.5;

const runsOut = (rows: Attitudes): Attitudes =>
  rows.filter(({ mouthCovered, highestOverMm }) => mouthCovered && highestOverMm <= 0);

const isShutByBall = (row: Attitudes[number]): boolean => pullG(row)[2] > BALL_SHUTS;

const wordsOf = (rows: Attitudes): string => rows.map(({ words }) => words).join(', ');

const outWords = (rows: Attitudes): string =>
  rows.length === 0 ? 'fuel runs out in no way the car was laid' : `fuel still runs out ${wordsOf(rows)}`;

const kpaBelow = (state: FuelState | undefined): number | undefined =>
  state?.answer.vent === null || state === undefined ? undefined : state.answer.vent.depressionPa / 1000;

/** The vent in the next sizes: how far below the air outside the cell then stands. */
export function widerVentCures({ ready, shelf, at, state, finding }: FuelCureAsked): string[] {
  const now = kpaBelow(state) ?? 0;
  return toldCures(
    easierFuel(finding.line, { ready, shelf }).flatMap(({ words, changed }) => {
      const kpa = kpaBelow(fuelAfter(changed, at));
      if (kpa === undefined) return [];
      const enough = kpa <= guides.ventDepression.value ? ', which is enough' : '';
      return [
        { words: `${words}: ${(now - kpa).toFixed(2)} kPa less, ${kpa.toFixed(2)} kPa${enough}`, gain: now - kpa },
      ];
    }),
    0.01,
  );
}

const VENT = 'added vent';
const VENT_DASHES = [4, 6, 8, 10] as const;
/** A vent that ends outside ends this far from the cell [mm]. Our choice. */
const VENT_REACH_MM = 500;

/** A vessel with one port more, so that what stands at its mouth is known. */
const withPort = (ready: ReadyCircuit, part: string, id: string, atMm: Vec): ReadyCircuit => ({
  ...ready,
  insides: ready.insides.map((row) =>
    row.drawn.vessel.part === part
      ? {
          ...row,
          drawn: { ...row.drawn, ports: [...row.drawn.ports, { ...row.drawn.ports[0]!, id, atMm: [...atMm] }] },
        }
      : row,
  ),
});

/** A vent for a cell without one: the least size that lets the air of the burn in. */
export function ventAddedCures({ ready, shelf, at }: FuelCureAsked): string[] {
  const cell = ready.drawn.vessels.find(({ vessel }) => vessel.kind === 'cell');
  const fromMm = cell === undefined ? undefined : topOf(cell);
  if (cell === undefined || fromMm === undefined) return [];
  for (const { dash, boreMm } of hoseSizes(shelf, VENT_DASHES)) {
    const toMm: Vec = [fromMm[0], fromMm[1], fromMm[2] + VENT_REACH_MM];
    const added = {
      id: VENT,
      from: `${cell.vessel.part}.${VENT}`,
      to: OPEN_AIR,
      duty: 'fuel-vent',
      fromMm,
      toMm,
      boreMm,
    } as const;
    const solved = fuelAfter(
      withPort(redrawn(ready, withLine(ready.drawn, added)), cell.vessel.part, VENT, fromMm),
      at,
    );
    const kpa = kpaBelow(solved);
    if (kpa === undefined || kpa > guides.ventDepression.value) continue;
    const out = runsOut(solved?.answer.vent?.attitudes ?? []);
    const left = out.filter((row) => !isShutByBall(row));
    const ball = left.length === out.length ? '' : `; with a ball valve in it, if that is tight, ${outWords(left)}`;
    const lies = out.length === 0 ? '' : `; fuel runs out of it ${wordsOf(out)}${ball}`;
    return [
      `a vent of -${dash}, ${VENT_REACH_MM} mm up from the cell: it stands ${kpa.toFixed(2)} kPa below the air outside at full burn${lies}`,
    ];
  }
  return [];
}

/** How far past the cell's walls a loop of the vent is laid [mm]. */
const LOOP_MM = 50;

/** A loop round the cell, a ball valve, and both; each looked at in every way the car may lie. */
export function loopedVentCures(asked: FuelCureAsked): string[] {
  const now = asked.state.answer.vent;
  const loop = loopedVent(asked);
  if (now === null) return [];
  const before = runsOut(now.attitudes);
  const ball = (words: string, rows: Attitudes) => {
    const left = runsOut(rows).filter((row) => !isShutByBall(row));
    return { words: `${words}: it shuts upside down; ${outWords(left)}`, gain: before.length - left.length };
  };
  const valve = `a ball valve in ${now.line} at the cell, upright, if it is tight`;
  return toldCures(
    [
      ...(loop === undefined
        ? []
        : [
            {
              words: `${loop.words}: ${outWords(runsOut(loop.rows))}, ${loop.kpa.toFixed(2)} kPa at full burn`,
              // Without a part that may leak, where both do as much.
              gain: before.length - runsOut(loop.rows).length + 0.5,
            },
          ]),
      ball(valve, now.attitudes),
    ],
    0.5,
  );
}

/** The vent led round the cell: what then stands over the fuel at the g of the case. */
export function ventInCornerCures(asked: FuelCureAsked): string[] {
  const loop = loopedVent(asked);
  return loop === undefined || (loop.inCase.mouthCovered && loop.inCase.highestOverMm <= 0)
    ? []
    : [
        `${loop.words}: its highest point ${loop.inCase.highestOverMm.toFixed(0)} mm over the fuel at this g, ${loop.kpa.toFixed(2)} kPa at full burn`,
      ];
}

/** The vent led round the cell once over its top and past its far bottom. */
function loopedVent({
  ready,
  at,
  finding,
}: FuelCureAsked):
  | { readonly words: string; readonly rows: Attitudes; readonly inCase: FuelStands; readonly kpa: number }
  | undefined {
  const run = ready.drawn.runs.find(({ line }) => line === finding.line);
  const cell = ready.insides.find(
    ({ drawn }) =>
      run !== undefined &&
      [partOf(run.from), partOf(run.to)].includes(drawn.vessel.part) &&
      drawn.vessel.kind === 'cell',
  );
  const mesh = cell?.tank?.mesh;
  if (run === undefined || cell === undefined || mesh === undefined) return undefined;
  const bounds = ([0, 1, 2] as const).map((axis) => {
    const along = mesh.positions.filter((_, i) => i % 3 === axis).map((v) => v + mesh.centre[axis]);
    return [Math.min(...along) - LOOP_MM, Math.max(...along) + LOOP_MM] as const;
  });
  const looped = withLoop(run, partOf(run.from) === cell.drawn.vessel.part, bounds as unknown as Bounds);
  const vent = fuelAfter(redrawn(ready, withRun(ready.drawn, looped)), at)?.answer.vent;
  if (vent === null || vent === undefined) return undefined;
  const more = looped.lengthMm - run.lengthMm;
  return {
    words: `${run.line} led round the cell, ${LOOP_MM} mm off it, over its top, past both sides, its front, its back and its bottom (${(more / 1000).toFixed(1)} m more)`,
    rows: vent.attitudes,
    inCase: vent.inCase,
    kpa: vent.depressionPa / 1000,
  };
}

type Bounds = readonly [readonly [number, number], readonly [number, number], readonly [number, number]];

/** The run with a loop from its end at the cell through opposite corners of a box round it. */
function withLoop(run: LineRun, ahead: boolean, [[x0, x1], [y0, y1], [z0, z1]]: Bounds): LineRun {
  const end = ahead ? run.stretches[0]! : run.stretches.at(-1)!;
  const mouth = ahead ? end.pathMm[0]! : end.pathMm.at(-1)!;
  const loop: Vec[] = [mouth, [x0, y0, z1], [x1, y1, z1], [x1, y1, z0], [x0, y0, z0], [x0, y0, z1]];
  const pathMm = ahead ? loop : loop.toReversed();
  const lengthMm = loop
    .slice(1)
    .reduce((sum, at, i) => sum + Math.hypot(at[0] - loop[i]![0], at[1] - loop[i]![1], at[2] - loop[i]![2]), 0);
  const hose = run.stretches.find(({ what }) => what === 'hose' || what === 'tube') ?? end;
  const added = { ...hose, pathMm, lengthMm };
  return {
    ...run,
    stretches: ahead ? [added, ...run.stretches] : [...run.stretches, added],
    lengthMm: run.lengthMm + lengthMm,
  };
}
