import type { Case } from '#car';
import type { ReadyCircuit } from '../circuit/circuit-state.ts';
import type { CoolantHeights, HeightsAt, TrapWords } from '../circuit/coolant-answer.ts';
import type { FlowFinding } from '../finding.ts';
import { toldApart } from '../told-apart.ts';
import { guides } from '../limits.ts';
import { raisedHeaderCures, risingBleedCures, siphonCures } from './heights-cures.ts';
import { mostAirMl, type TrapAsk, trapCures } from './trap-cures.ts';
import { LEAST_TRAP_MM } from './trap-words.ts';

/** A bleed that dips less than this still lets air up. Common practice, no source [mm]. */
const LEAST_DIP_MM = 5;

/** What the heights of a water circuit break, in words of the trade. */
export function heightsFindings(heights: CoolantHeights, ask: HeightsAsk): FlowFinding[] {
  const { ready } = ask;
  return [
    ...capFindings(ready),
    ...trapFindings(heights.attitudes, ask),
    ...headerFindings(ready, heights),
    ...bleedDips(ready, heights),
    ...siphonFindings(heights, ask),
  ];
}

/** What cures of heights are worked out with; `hot`: just switched off. */
export interface HeightsAsk extends TrapAsk {
  readonly hot: Case | undefined;
  /** The slowest that the engine runs, warm. */
  readonly idle: Case | undefined;
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
        cures: [],
        advice: [
          'name the header tank as a vessel of kind header: then its height, its cap and its bleeds are looked at',
        ],
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
      cures: [],
      advice: ['state its capBar: the boiling margin hangs on it'],
    }),
  ];
}

/** One finding a place, with the ways of standing in which air stays there, told as deep as it is in the first of them. */
function trapFindings(attitudes: readonly HeightsAt[], ask: HeightsAsk): FlowFinding[] {
  const byPlace = new Map<string, { trap: TrapWords; where: string[]; level: boolean }>();
  for (const { words, traps } of attitudes)
    for (const trap of traps) {
      const seen = byPlace.get(trap.words) ?? { trap, where: [], level: false };
      const where = seen.where.includes(words) ? seen.where : [...seen.where, words];
      byPlace.set(trap.words, { ...seen, where, level: seen.level || words === 'level' });
    }
  return [...byPlace.values()].map(({ trap, where, level }) => {
    const { depthMm } = trap;
    const depth = depthMm === null ? 'with no way out' : `${toldApart(depthMm, LEAST_TRAP_MM, 0)} mm deep`;
    const airMl = mostAirMl(ask.ready.drawn, [trap.words]);
    return of(ask.ready, {
      code: 'air-trap',
      level: level ? 'stop' : 'fix',
      text: `air stays in ${trap.words}, ${depth}, up to ${airMl.toFixed(0)} ml: ${where.join(', ')}`,
      source: 'geometry',
      value: depthMm ?? airMl,
      ...(depthMm === null ? { unit: 'mL' } : { unit: 'mm', limit: LEAST_TRAP_MM }),
      place: trap.atMm,
      ...(trap.line === undefined ? { part: trap.words.split('.')[0]! } : { line: trap.line }),
      cures: trapCures(trap, ask),
    });
  });
}

function headerFindings(ready: ReadyCircuit, heights: CoolantHeights): FlowFinding[] {
  const { attitudes } = heights;
  const header = ready.drawn.vessels.find(({ vessel }) => vessel.kind === 'header');
  const rows = attitudes.flatMap((row) =>
    row.headerBottomMm === null || row.headerSurfaceMm === null || row.highestMm === null
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
  const text = `the bottom of ${name} stands ${level.bottom < least ? toldApart(level.bottom, least, 0) : level.bottom.toFixed(0)} mm over the highest water (${level.highestWords}), its water ${level.surface.toFixed(0)} mm${other}`;
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
      cures: raisedHeaderCures(ready, heights, header.part.id, name),
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
        text: `bleed ${line} dips ${toldApart(dipMm, LEAST_DIP_MM, 0)} mm on its way up: water stands there and shuts the air in`,
        source: 'common-practice',
        line,
        value: dipMm,
        limit: LEAST_DIP_MM,
        unit: 'mm',
        place: atMm,
        cures: risingBleedCures(ready, line, dipMm),
      }),
    );
}

function siphonFindings({ siphons }: CoolantHeights, { ready, hot, idle }: HeightsAsk): FlowFinding[] {
  return siphons.map((row) => {
    const about = { part: row.part, value: row.mostW, unit: 'W', source: 'energy-balance' };
    if (row.runs === 'stalls')
      return of(ready, {
        ...about,
        code: 'siphon-stalls',
        level: 'fix',
        text: `switched off, no water runs through ${row.words} by itself: ${row.why}`,
        cures: siphonCures(ready, { hot, idle }, row),
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
