import type { Vec } from '#geometry';
import type { HeatFinding } from '../finding.ts';
import type { HeatCase, HeatLimit, HeatShare, LineHeat, PanelHeat, PartHeat } from '../heat-answer.ts';
import type { RangeLeft } from '../laws/film.ts';
import { type Films, FIRST_BAY, zoneAt } from './air-zones.ts';
import { partOrCable } from './body-heat.ts';
import type { HeatModel } from './heat-model.ts';
import { isOfItself } from './heat-shares.ts';
import { usualFlowText } from './line-fluid.ts';
import type { ToldC } from './line-heat.ts';
import { insideLeaves } from './inside-film.ts';
import { canCool, type CaseState, partCapacity } from './net-in-case.ts';
import type { NetLayout } from './net-layout.ts';
import { isSwitchedOff, USUAL_AIR_C } from './part-warmth.ts';

export interface FindingAsk {
  readonly model: HeatModel;
  readonly layout: NetLayout;
  readonly answer: Omit<HeatCase, 'findings'>;
  readonly state: CaseState;
  readonly films: Films;
  readonly settled: boolean;
  readonly told: ToldC;
}

const degrees = (c: number): string => `${c.toFixed(0)} degC`;

/** What is wrong in one case, and what its numbers rest on. */
export function caseFindings(ask: FindingAsk): readonly HeatFinding[] {
  const { answer } = ask;
  const at = answer.case;
  const words = at.name ?? at.id;
  const own = (finding: Omit<HeatFinding, 'case' | 'cures'> & { readonly cures?: readonly string[] }): HeatFinding => ({
    ...finding,
    case: at.id,
    cures: finding.cures ?? [],
  });
  return [
    ...answer.lines.flatMap((line) => lineFindings(ask, line, words).map(own)),
    ...[...answer.parts, ...answer.panels].flatMap((body) =>
      body.limits.flatMap((limit) => bodyFinding(ask, body, limit, words)).map(own),
    ),
    ...answer.bays.flatMap(({ findings }) => findings),
    ...(ask.settled
      ? []
      : [
          own({
            code: 'heat-unsettled',
            level: 'stop',
            text: `${words}: the heat balances do not settle; its temperatures are as far as they came`,
            source: 'the balance of heat',
            value: answer.unbalanced,
            limit: 1e-6,
          }),
        ]),
    ...rangeFindings(ask, words).map(own),
    ...restsOn(ask, words).map(own),
  ];
}

type Bare = Omit<HeatFinding, 'case' | 'cures'> & { readonly cures?: readonly string[] };

/** Where along a long part it is hottest. */
function alongWords(body: PartHeat | PanelHeat): string {
  const places = 'part' in body ? body.places : undefined;
  const hottest = places?.reduce((best, row) => (row.c > best.c ? row : best));
  return hottest === undefined ? '' : ` ${hottest.alongMm.toFixed(0)} mm along it`;
}

/** How much hotter the air about a place is than that outside the car, and how hot. */
interface AirThere {
  readonly airC: number;
  readonly overK: number;
}

function airAt({ model, answer }: FindingAsk, atMm: Vec | undefined): AirThere {
  const outsideC = answer.case.airC ?? USUAL_AIR_C;
  const bay = atMm === undefined ? undefined : model.car.bays?.[zoneAt(model.car, atMm) - FIRST_BAY];
  const airC = answer.bays.find((row) => row.bay === bay?.id)?.airC ?? outsideC;
  return { airC, overK: airC - outsideC };
}

const isAir = (shares: readonly HeatShare[], { overK }: AirThere): boolean =>
  overK > AIR_COUNTS_K &&
  overK > Math.max(0, ...shares.map(({ kelvin, kind }) => (kind === 'surroundings' ? 0 : kelvin)));

/** Air less warm than this over that outside is no cause of its own [K]. */
const AIR_COUNTS_K = 10;

/** The greatest source of a place, in words; one of less than a kelvin is none. */
const mostlyFrom = (shares: readonly HeatShare[], air: AirThere): string => {
  if (isAir(shares, air)) return `, most of it from the air about it (${degrees(air.airC)})`;
  const first = shares.find(
    (share) => share.kelvin >= 1 && share.kind !== 'surroundings' && share.kind !== 'bay-air' && !isOfItself(share),
  );
  return first === undefined ? '' : `, most of it from ${first.name} (+${first.kelvin.toFixed(0)} K)`;
};

/** What is as hot as the outside, and when it is. */
const OUTSIDE: ReadonlySet<HeatLimit['what']> = new Set(['hose', 'tube', 'sleeve']);

const dryWords = (dryMin: number | undefined): string =>
  dryMin === undefined ? '' : `, all it holds: dry from ${dryMin.toFixed(0)} min on if nothing runs in after it`;

const steamWords = (litres: number): string =>
  litres < 1e-3 ? '' : `; ${(1000 * litres).toFixed(0)} mL go off as steam`;

/** What a limit is and whether it is broken, in words. */
function breaksWords({ name, limitC, marginK, isTableEnd }: HeatLimit, errorK: number): string {
  if (isTableEnd === true) return `${name} to ${degrees(limitC)}; beyond that nothing is known of it`;
  // A fluid does not stand its boiling point: it boils there.
  const at = / boils /u.test(name) ? 'at' : marginK < 0 ? 'stands' : 'may pass what it stands';
  return `${name} ${at}${marginK < 0 ? '' : ` (+-${errorK.toFixed(0)} K)${at === 'at' ? '' : ':'}`} ${degrees(limitC)}`;
}

function lineFindings(ask: FindingAsk, line: LineHeat, words: string): Bare[] {
  const { answer, state, model } = ask;
  const found: Bare[] = [];
  const errorK = line.worst.errorK;
  const air = airAt(ask, line.worst.atMm);
  const when = line.peak === undefined ? '' : `, ${line.peak.atMin.toFixed(0)} min after switching off`;
  for (const limit of line.limits) {
    if (limit.marginK >= errorK) continue;
    // What comes in as hot as that is not heated here.
    const comesIn = limit.what === 'fluid' && line.flowM3S !== 0 && line.fluidInC >= limit.limitC;
    // What is only known so far is never told as broken.
    const isBroken = limit.marginK < 0 && limit.isTableEnd !== true;
    const boils = limit.what === 'fluid' ? answer.soak?.boils.find((row) => row.line === line.line) : undefined;
    const boiling =
      boils === undefined
        ? ''
        : ` (it boils from ${boils.fromMin.toFixed(1)} min on and holds there${steamWords(boils.litres)}${dryWords(boils.dryMin)})`;
    const breaks = breaksWords(limit, errorK);
    found.push({
      code: `heat-${limit.what}`,
      level: isBroken ? 'stop' : 'fix',
      line: line.line,
      text: `${words}: ${line.line} comes to ${degrees(limit.valueC)}${OUTSIDE.has(limit.what) ? when : ''}; its ${breaks}${boiling}${comesIn ? ', as it comes in' : mostlyFrom(line.worst.shares, air)}`,
      value: limit.valueC,
      limit: limit.limitC,
      unit: 'degC',
      source: limit.source,
      ...(limit.atMm === undefined ? {} : { place: [...limit.atMm] as [number, number, number] }),
      cures: comesIn
        ? ['a cooler that gives off more, or more air through it; what it comes to is what the case states']
        : curesFor(answer, line, air),
      inputs: inputsOf(line.worst.shares),
    });
  }
  const of = model.lines.find((row) => row.line.id === line.line)!;
  const isFireSleeved = of.walls.some(({ sleeve }) => sleeve?.kind === 'fire');
  if (isFireSleeved && state.isOff)
    found.push({
      code: 'heat-fire-sleeve',
      level: 'note',
      line: line.line,
      text: `${words}: the fire sleeve on ${line.line} buys time in a flame; in a soak it gains nothing: what is under it comes to ${degrees(line.worst.underC)} and the hose stands no more than before`,
      source: 'sleeve-crew-report',
    });
  return found;
}

const inputsOf = (shares: readonly HeatShare[]): NonNullable<HeatFinding['inputs']> =>
  shares.slice(0, MOST_SHARES).map(({ name, watts, kelvin }) => ({
    name,
    value: `${kelvin >= 0 ? '+' : ''}${kelvin.toFixed(0)} K (${watts.toFixed(2)} W)`,
  }));

const MOST_SHARES = 8;

/** What helps by where its heat comes from: what shines on it, what it is screwed to, or the air it stands in. */
function curesFor({ kind }: Omit<HeatCase, 'findings'>, line: LineHeat, air: AirThere): readonly string[] {
  const first = isAir(line.worst.shares, air)
    ? undefined
    : line.worst.shares.find(
        (share) => share.kelvin >= 1 && ['part', 'line', 'port'].includes(share.kind) && !isOfItself(share),
      );
  const against =
    first === undefined
      ? ['a way where the air is cooler', 'more free area in the panels of its bay, low and high']
      : first.kind === 'port'
        ? [
            `a blanket over what ${line.line} is screwed to, or over what heats that`,
            'a shield between that and what is hot',
          ]
        : ['more gap to what heats it', 'a shield between them with 10 mm of air or more', 'a blanket over the source'];
  if (kind !== 'soak') return against;
  return [
    ...against,
    'let the engine idle before switching off',
    ...(line.carries === 'water' ? ['let an electric water pump run on'] : []),
    'leave the covers off after switching off',
  ];
}

function bodyFinding(ask: FindingAsk, body: PartHeat | PanelHeat, limit: HeatLimit, words: string): Bare[] {
  if (limit.marginK >= body.errorK) return [];
  return [
    {
      code: `heat-${limit.what}`,
      level: limit.marginK < 0 ? 'stop' : 'fix',
      ...('panel' in body ? { panel: body.panel } : {}),
      ...('part' in body ? partOrCable(ask.model, body.part) : {}),
      text: `${words}: ${limit.name} comes to ${degrees(limit.valueC)} (+-${body.errorK.toFixed(0)} K)${alongWords(body)}; it stands ${degrees(limit.limitC)}${mostlyFrom(body.shares, airAt(ask, limit.atMm ?? ('panel' in body ? body.atMm : undefined)))}`,
      ...(limit.atMm === undefined ? {} : { place: [...limit.atMm] as [number, number, number] }),
      inputs: inputsOf(body.shares),
      value: limit.valueC,
      limit: limit.limitC,
      unit: 'degC',
      source: limit.source,
      cures: ['a shield before it', 'a blanket over the source', 'more gap'],
    },
  ];
}

/** Laws whose range is left at parts, panels and lines: each law said once with where. */
function rangeFindings({ model, layout, films, state, told }: FindingAsk, words: string): Bare[] {
  const { filmNode, film } = told.at(0).state.net;
  const left = new Map<string, { readonly row: RangeLeft; readonly names: Set<string>; readonly values: number[] }>();
  const names = nodeNames(model, layout);
  // Films of one shape, size and air are asked once for each few degrees.
  const asked = new Map<string, RangeLeft | undefined>();
  filmNode.forEach((node, l) => {
    const name = names(node);
    const c = RANGE_STEP_K * Math.round(told.c(node) / RANGE_STEP_K);
    const key = `${film[l]} ${c}`;
    if (!asked.has(key)) asked.set(key, films.leaves(state.zones, film[l]!, c));
    const row = asked.get(key);
    if (name === undefined || row === undefined) return;
    const law = `${row.of} ${row.beyond}`;
    const known = left.get(law) ?? { row, names: new Set(), values: [] };
    known.names.add(name);
    known.values.push(row.value);
    left.set(law, known);
  });
  const outside = [...left.values()].map(
    ({ row, names: of, values }): Bare => ({
      code: 'heat-range',
      level: 'note',
      text: `${words}: at ${fewOf([...of])}: ${row.of} ${spanOf(values)} lies beyond ${row.beyond}; its film may be off by more than the 20 % of the law`,
      source: 'churchill-chu-1975',
    }),
  );
  const inside = model.lines.flatMap(({ line, walls }, i): Bare[] => {
    const fluid = state.fluids[i]!;
    const law = walls.map(({ boreMm }) => insideLeaves(fluid, boreMm)).find((row) => row !== undefined);
    // Two codes: a line that leaves both is told of both.
    return (
      [
        ['heat-table', fluid.leaves, 'the car file'],
        ['heat-range', law, 'gnielinski-1976'],
      ] as const
    ).flatMap(([code, why, source]): Bare[] =>
      why === undefined
        ? []
        : [
            {
              code,
              level: 'note',
              line: line.id,
              text: `${words}: in ${line.id}: ${why}; what its wall takes from it is less well known`,
              source,
            },
          ],
    );
  });
  return [...outside, ...inside];
}

/** What a node of a part, panel or line is called; undefined: what is in a line. */
function nodeNames(model: HeatModel, layout: NetLayout): (node: number) => string | undefined {
  const names: (string | undefined)[] = Array.from({ length: layout.nodes });
  model.parts.forEach(({ part }, i) => {
    names[layout.partNode[i]!] = part.name;
  });
  model.panels.forEach(({ id, patches }, i) =>
    names.fill(id, layout.panelNode[i]!, layout.panelNode[i]! + patches.length / 2),
  );
  model.lines.forEach(({ line }, i) => {
    const { head, tail } = layout.lines[i]!;
    names.fill(line.id, head, tail + 1);
  });
  return (node) => names[node];
}

/** So finely are temperatures told apart where laws are asked how far they reach [K]. */
const RANGE_STEP_K = 5;

function spanOf(values: readonly number[]): string {
  const [least, most] = [Math.min(...values), Math.max(...values)].map((value) =>
    Math.abs(value) >= 1e4 || Math.abs(value) < 1 ? value.toExponential(1) : value.toFixed(0),
  );
  return least === most ? least! : `${least} to ${most}`;
}

const fewOf = (names: readonly string[]): string =>
  `${names.slice(0, FEW).join(', ')}${names.length > FEW ? ` and ${names.length - FEW} more` : ''}`;
const FEW = 4;

/** What was taken as usual or could not be known. */
function restsOn({ model, state }: FindingAsk, words: string): Bare[] {
  const found: Bare[] = [];
  for (const { note } of state.warmth)
    if (note !== undefined)
      found.push({ code: 'heat-stated', level: 'note', text: `${words}: ${note}`, source: 'the car file' });
  for (const { assumed } of state.fluids)
    if (assumed !== undefined)
      found.push({ code: 'heat-fluid', level: 'note', text: `${words}: ${assumed}`, source: 'the car file' });
  const usual = usualFlowText(
    model.lines.map(({ line }) => line),
    state.fluids,
  );
  if (usual !== null)
    found.push({ code: 'heat-fluid', level: 'note', text: `${words}: ${usual}`, source: 'the car file' });
  if (!state.isOff) return found;
  const guessed = [
    ...new Set(model.parts.filter((row) => canCool(row) && !partCapacity(row).isStated).map(({ part }) => part.name)),
  ];
  if (guessed.length > 0)
    found.push({
      code: 'heat-mass',
      level: 'note',
      text: `${words}: without a mass ${guessed.slice(0, 5).join(', ')}${guessed.length > 5 ? ` and ${guessed.length - 5} more` : ''} cool as metal of 3 mm (hot) or 10 mm wall: state massKg`,
      source: 'common-practice',
      value: guessed.length,
    });
  return found;
}

/** What holds whatever the case. */
export function runFindings(model: HeatModel): readonly HeatFinding[] {
  const found: HeatFinding[] = [];
  const missing = model.car.lines
    .filter(({ id }) => !model.lines.some(({ line }) => line.id === id))
    .map(({ id }) => id);
  if (missing.length > 0)
    found.push({
      code: 'heat-no-way',
      level: 'note',
      text: `${missing.join(', ')}: no way yet, so no temperature`,
      source: 'the car as it stands',
      cures: ['take a way for each'],
    });
  const bare = model.parts.filter(({ part }) => part.class === 'hot' && part.part.surfaceC === undefined);
  for (const { part } of bare)
    found.push({
      code: 'heat-no-source',
      level: 'fix',
      part: part.id,
      text: `${part.name} is hot but has no surfaceC: it heats nothing until it has one`,
      source: 'the car file',
      cures: ['read it with strips, paint or a probe and enter surfaceC'],
    });
  if ((model.car.cases ?? []).every((at) => !isSwitchedOff(at)))
    found.push({
      code: 'heat-no-soak',
      level: 'note',
      text: 'no case is switched off (engineRpm 0): what cooks in the minutes after is not worked out',
      source: 'the car file',
      cures: ['add a case with engineRpm 0'],
    });
  return found;
}
