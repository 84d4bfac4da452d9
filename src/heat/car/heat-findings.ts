import type { HeatFinding } from '../finding.ts';
import type { HeatCase, HeatLimit, LineHeat } from '../heat-answer.ts';
import type { Films } from './air-zones.ts';
import type { HeatModel } from './heat-model.ts';
import type { ToldC } from './line-heat.ts';
import { canCool, type CaseState, partCapacity } from './net-in-case.ts';
import type { NetLayout } from './net-layout.ts';
import { isSwitchedOff } from './part-warmth.ts';

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
      body.limits.flatMap((limit) => bodyFinding(body, limit, words)).map(own),
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

/** The greatest source of a line's worst place, in words. */
const mostlyFrom = ({ worst }: LineHeat): string => {
  const first = worst.shares.find(({ kelvin, kind }) => kelvin > 0 && kind !== 'surroundings' && kind !== 'bay-air');
  return first === undefined ? '' : `, most of it from ${first.name} (${first.kelvin.toFixed(0)} K)`;
};

/** What is as hot as the outside, and when it is. */
const OUTSIDE: ReadonlySet<HeatLimit['what']> = new Set(['hose', 'tube', 'sleeve']);

const steamWords = (litres: number): string =>
  litres < 1e-3 ? '' : `; ${(1000 * litres).toFixed(0)} mL go off as steam`;

function lineFindings({ answer, state, model }: FindingAsk, line: LineHeat, words: string): Bare[] {
  const found: Bare[] = [];
  const errorK = line.worst.errorK;
  const when = line.peak === undefined ? '' : `, ${line.peak.atMin.toFixed(0)} min after switching off`;
  for (const limit of line.limits) {
    if (limit.marginK >= errorK) continue;
    const isBroken = limit.marginK < 0;
    const boils = limit.what === 'fluid' ? answer.soak?.boils.find((row) => row.line === line.line) : undefined;
    const boiling =
      boils === undefined
        ? ''
        : ` (it boils from ${boils.fromMin.toFixed(1)} min on and holds there${steamWords(boils.litres)})`;
    const breaks = isBroken ? 'stands' : `may pass what it stands (+-${errorK.toFixed(0)} K):`;
    found.push({
      code: `heat-${limit.what}`,
      level: isBroken ? 'stop' : 'fix',
      line: line.line,
      text: `${words}: ${line.line} comes to ${degrees(limit.valueC)}${OUTSIDE.has(limit.what) ? when : ''}; its ${limit.name} ${breaks} ${degrees(limit.limitC)}${boiling}${mostlyFrom(line)}`,
      value: limit.valueC,
      limit: limit.limitC,
      unit: 'degC',
      source: limit.source,
      ...(limit.atMm === undefined ? {} : { place: [...limit.atMm] as [number, number, number] }),
      cures: curesFor(answer, limit),
      inputs: inputsOf(line),
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

const inputsOf = ({ worst }: LineHeat): NonNullable<HeatFinding['inputs']> =>
  worst.shares.slice(0, MOST_SHARES).map(({ name, watts, kelvin }) => ({
    name,
    value: `${kelvin >= 0 ? '+' : ''}${kelvin.toFixed(0)} K (${watts.toFixed(2)} W)`,
  }));

const MOST_SHARES = 8;

function curesFor(answer: Omit<HeatCase, 'findings'>, limit: HeatLimit): readonly string[] {
  if (limit.what === 'fluid' && answer.kind === 'soak')
    return ['let the engine idle before switching off, or let the pump run on', 'leave the covers off'];
  const usual = [
    'more gap to what heats it',
    'a shield between them with 10 mm of air or more',
    'a blanket over the source',
  ];
  return answer.kind === 'soak' ? [...usual, 'leave the covers off after switching off'] : usual;
}

function bodyFinding(
  body: { readonly name: string; readonly errorK: number; readonly part?: string; readonly panel?: string },
  limit: HeatLimit,
  words: string,
): Bare[] {
  if (limit.marginK >= body.errorK) return [];
  return [
    {
      code: `heat-${limit.what}`,
      level: limit.marginK < 0 ? 'stop' : 'fix',
      ...(body.part === undefined ? {} : { part: body.part }),
      ...(body.panel === undefined ? {} : { panel: body.panel }),
      text: `${words}: ${body.name} comes to ${degrees(limit.valueC)} (+-${body.errorK.toFixed(0)} K); it stands ${degrees(limit.limitC)}`,
      value: limit.valueC,
      limit: limit.limitC,
      unit: 'degC',
      source: limit.source,
      cures: ['a shield before it', 'a blanket over the source', 'more gap'],
    },
  ];
}

/** Laws whose range is left at parts and at the lines' worst places: said once each. */
function rangeFindings({ model, layout, films, state, told }: FindingAsk, words: string): Bare[] {
  const net = told.at(0).state.net;
  const left = new Map<string, string[]>();
  const nodes: { readonly node: number; readonly name: string }[] = [
    ...model.parts.map(({ part }, i) => ({ node: layout.partNode[i]!, name: part.name })),
    ...model.panels.map(({ id }, i) => ({ node: layout.panelNode[i]!, name: id })),
  ];
  for (const { node, name } of nodes) {
    const l = net.filmNode.indexOf(node);
    const why = l < 0 ? undefined : films.leaves(state.zones, net.film[l]!, told.c(node));
    if (why !== undefined) left.set(why, [...(left.get(why) ?? []), name]);
  }
  return [...left].map(([why, names]) => ({
    code: 'heat-range',
    level: 'note',
    text: `${words}: at ${names.slice(0, 4).join(', ')}${names.length > 4 ? ` and ${names.length - 4} more` : ''}: ${why}; its film may be off by more than the 20 % of the law`,
    source: 'churchill-chu-1975',
  }));
}

/** What was taken as usual or could not be known. */
function restsOn({ model, state }: FindingAsk, words: string): Bare[] {
  const found: Bare[] = [];
  for (const { note } of state.warmth)
    if (note !== undefined)
      found.push({ code: 'heat-stated', level: 'note', text: `${words}: ${note}`, source: 'the car file' });
  for (const { assumed } of state.fluids)
    if (assumed !== undefined)
      found.push({ code: 'heat-fluid', level: 'note', text: `${words}: ${assumed}`, source: 'the car file' });
  if (!state.isOff) return found;
  const guessed = model.parts.filter((row) => canCool(row) && !partCapacity(row).isStated).map(({ part }) => part.name);
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
