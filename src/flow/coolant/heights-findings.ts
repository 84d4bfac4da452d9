import type { ReadyCircuit } from '../circuit/circuit-state.ts';
import type { Vec } from '#geometry';
import { withRun } from '../circuit/changed-runs.ts';
import type { CoolantHeights, HeightsAt, TrapWords } from '../circuit/coolant-answer.ts';
import type { DrawnCircuit } from '../circuit/drawn-circuit.ts';
import type { LineRun } from '../circuit/line-run.ts';
import { pullG } from '../circuit/pull.ts';
import type { FlowFinding } from '../finding.ts';
import { guides } from '../limits.ts';
import { airTraps } from './air-traps.ts';
import { ATTITUDES } from './heights.ts';
import { LEAST_TRAP_MM } from './trap-words.ts';

/** A bleed that dips less than this still lets air up. Common practice, no source [mm]. */
const LEAST_DIP_MM = 5;

/** What the heights of a water circuit break, in words of the trade. */
export function heightsFindings(ready: ReadyCircuit, heights: CoolantHeights): FlowFinding[] {
  return [
    ...capFindings(ready),
    ...trapFindings(ready, heights.attitudes),
    ...headerFindings(ready, heights.attitudes),
    ...bleedDips(ready, heights),
    ...siphonFindings(ready, heights),
  ];
}

type Rest = Omit<FlowFinding, 'circuit'>;
const of = (ready: ReadyCircuit, rest: Rest): FlowFinding => ({ circuit: ready.drawn.circuit.id, ...rest });

function capFindings(ready: ReadyCircuit): FlowFinding[] {
  const header = ready.drawn.vessels.find(({ vessel }) => vessel.kind === 'header');
  if (header === undefined)
    return [
      of(ready, {
        code: 'no-header',
        level: 'fix',
        text: 'no vessel is a header: nothing keeps the water under pressure or takes its growth and its air',
        source: 'common-practice',
        cures: ['name the header tank as a vessel of kind header'],
      }),
    ];
  if (header.vessel.capBar !== undefined || header.vessel.pressureBar !== undefined) return [];
  return [
    of(ready, {
      code: 'no-cap',
      level: 'fix',
      text: `${header.part.name ?? header.part.id} has no cap pressure (capBar): taken as open to the air`,
      source: 'builder',
      part: header.part.id,
      cures: ['state its capBar; the boiling margin follows it'],
    }),
  ];
}

/** One finding a place, with the attitudes in which air stays there. */
function trapFindings(ready: ReadyCircuit, attitudes: readonly HeightsAt[]): FlowFinding[] {
  const byPlace = new Map<string, { trap: TrapWords; where: string[]; level: boolean }>();
  for (const { words, traps } of attitudes)
    for (const trap of traps) {
      const seen = byPlace.get(trap.words);
      if (seen === undefined) byPlace.set(trap.words, { trap, where: [words], level: words === 'level' });
      else seen.where.push(words);
    }
  return [...byPlace.values()].map(({ trap, where, level }) => {
    const shut = !Number.isFinite(trap.depthMm);
    const depth = shut ? 'with no way out' : `${trap.depthMm.toFixed(0)} mm deep`;
    return of(ready, {
      code: 'air-trap',
      level: level ? 'stop' : 'fix',
      text: `air stays in ${trap.words}, ${depth}, up to ${trap.airMl.toFixed(0)} ml: ${where.join(', ')}`,
      source: 'geometry',
      value: shut ? trap.airMl : trap.depthMm,
      ...(shut ? { unit: 'mL' } : { unit: 'mm', limit: LEAST_TRAP_MM }),
      place: trap.atMm,
      ...(trap.line === undefined ? { part: trap.words.split('.')[0]! } : { line: trap.line }),
      cures: [
        ...(trap.line === undefined || shut ? [] : loweredCures(ready, trap)),
        'a bleed there, rising all the way to the header: not computed',
        'a bleed screw there, opened at each fill: not computed',
      ],
    });
  });
}

/** How much lower than the trap is deep a line is tried: laid flat, it still traps air where the car leans. */
const LOWERINGS = [1, 1.5, 2, 3] as const;

/** The line laid lower at the trap, looked at again in every way the car is stood: the least that clears it, else what gains most. */
function loweredCures({ drawn }: ReadyCircuit, trap: TrapWords): string[] {
  const run = drawn.runs.find(({ line }) => line === trap.line);
  if (run === undefined) return [];
  const before = mostAirMl(drawn, run.line);
  const tried = LOWERINGS.map((times) => {
    const lowerMm = Math.ceil(times * trap.depthMm);
    const after = mostAirMl(withRun(drawn, lowered(run, trap.atMm[2] - lowerMm)), run.line);
    return { lowerMm, after, gain: before - after };
  });
  const best = tried.find(({ after }) => after === 0) ?? tried.toSorted((a, b) => b.gain - a.gain)[0]!;
  if (best.gain <= 0) return [];
  const left =
    best.after === 0
      ? `no air stays in it in any of the ${ATTITUDES.length} ways the car was stood`
      : `${best.after.toFixed(0)} mL still stay in it`;
  return [`${run.line} laid ${best.lowerMm} mm lower there: ${best.gain.toFixed(0)} mL less, ${left}`];
}

/** The most air that stays in a line, whichever way the car is stood [mL]. */
const mostAirMl = (drawn: DrawnCircuit, line: string): number =>
  ATTITUDES.reduce((most, stand) => {
    const traps = airTraps(drawn, pullG(stand), LEAST_TRAP_MM).filter((trap) => trap.line === line);
    return Math.max(
      most,
      traps.reduce((sum, { volumeM3 }) => sum + volumeM3 * 1e6, 0),
    );
  }, 0);

/** No point of the line but its two ends higher than this [mm]. */
function lowered(run: LineRun, mostMm: number): LineRun {
  const last = run.stretches.length - 1;
  const stretches = run.stretches.map((row, s) => ({
    ...row,
    pathMm: row.pathMm.map((at, i): Vec => {
      const isEnd = (s === 0 && i === 0) || (s === last && i === row.pathMm.length - 1);
      return isEnd ? at : [at[0], at[1], Math.min(at[2], mostMm)];
    }),
  }));
  return { ...run, stretches };
}

function headerFindings(ready: ReadyCircuit, attitudes: readonly HeightsAt[]): FlowFinding[] {
  const header = ready.drawn.vessels.find(({ vessel }) => vessel.kind === 'header');
  const rows = attitudes.flatMap((row) =>
    row.headerBottomMm === null || row.headerSurfaceMm === null
      ? []
      : [{ ...row, bottom: row.headerBottomMm - row.highestMm, surface: row.headerSurfaceMm - row.highestMm }],
  );
  const level = rows[0];
  if (level === undefined || header === undefined) return [];
  const worst = rows.reduce((a, b) => (b.bottom < a.bottom ? b : a));
  const least = guides.headerOverAll.value;
  const name = header.part.name ?? header.part.id;
  const other =
    worst.words === level.words
      ? ''
      : `; ${worst.words} ${worst.bottom.toFixed(0)} mm, its water ${worst.surface.toFixed(0)} mm`;
  const text = `the bottom of ${name} stands ${level.bottom.toFixed(0)} mm over the highest water (${level.highestWords}), its water ${level.surface.toFixed(0)} mm${other}`;
  const under = rows.some(({ surface }) => surface < 0);
  if (level.bottom >= least && !rows.some(({ bottom }) => bottom < 0))
    return [
      of(ready, {
        code: 'header-height',
        level: 'note',
        text,
        source: guides.headerOverAll.source,
        part: header.part.id,
        value: level.bottom,
        limit: least,
        unit: 'mm',
        cures: [],
      }),
    ];
  const lift = Math.ceil(Math.max(least - level.bottom, -worst.bottom));
  return [
    of(ready, {
      code: 'header-height',
      level: under ? 'stop' : 'fix',
      text: `${text}; ${least} mm is usual`,
      source: guides.headerOverAll.source,
      part: header.part.id,
      value: level.bottom,
      limit: least,
      unit: 'mm',
      cures: [
        `${name} ${lift} mm higher: ${least} mm level, never under the water in any of the ${rows.length} ways the car was stood`,
      ],
    }),
  ];
}

function bleedDips(ready: ReadyCircuit, { bleeds }: CoolantHeights): FlowFinding[] {
  return bleeds
    .filter(({ dipMm }) => dipMm > LEAST_DIP_MM)
    .map(({ line, dipMm, atMm }) =>
      of(ready, {
        code: 'bleed-dips',
        level: 'fix',
        text: `bleed ${line} dips ${dipMm.toFixed(0)} mm on its way up: water stands there and shuts the air in`,
        source: 'common-practice',
        line,
        value: dipMm,
        limit: LEAST_DIP_MM,
        unit: 'mm',
        place: atMm,
        cures: [
          `${line} rising all the way: lift it ${dipMm.toFixed(0)} mm there, or clamp it up: ${dipMm.toFixed(0)} mm less dip, by arithmetic`,
        ],
      }),
    );
}

function siphonFindings(ready: ReadyCircuit, { siphons }: CoolantHeights): FlowFinding[] {
  return siphons.map((row) => {
    const about = { part: row.part, value: row.mostW, unit: 'W', source: 'energy-balance' };
    if (row.runs === 'stalls')
      return of(ready, {
        ...about,
        code: 'siphon-stalls',
        level: 'fix',
        text: `switched off, no water runs through ${row.words} by itself: ${row.why}`,
        cures:
          row.lacksMm > 0
            ? [
                `${row.lines[0] ?? 'its bleed'} into the header ${Math.ceil(row.lacksMm)} mm lower, or as much more water in it`,
              ]
            : ['an electric pump that runs on, or the engine idled before it is switched off: not computed'],
      });
    return of(ready, {
      ...about,
      code: 'siphon',
      level: 'note',
      text: `switched off, ${row.words} runs by itself: ${(row.flowM3S * 60_000).toFixed(2)} L/min up ${row.lines[0] ?? ''} (${row.heightMm.toFixed(0)} mm) before it boils, ${row.riseK.toFixed(0)} K hotter, ${(row.mostW / 1000).toFixed(1)} kW carried off`,
      cures: [],
    });
  });
}
