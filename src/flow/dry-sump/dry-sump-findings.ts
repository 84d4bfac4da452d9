import type { Catalogue } from '#standards';
import { liquidFlow, type ReadyCircuit } from '../circuit/circuit-state.ts';
import { FOAM, leastFallDeg } from './drain-fall.ts';
import { galleryOf } from './gallery.ts';
import { feedInletPa } from './inlets.ts';
import { boreRoughnessM } from '../losses/roughness.ts';
import { carriesFoam } from '../drains/drain-capacity.ts';
import type { FlowFinding } from '../finding.ts';
import { type Guide, guides } from '../limits.ts';
import { standardPressure } from '../fluids/standard-atmosphere.ts';
import { toldApart } from '../told-apart.ts';
import type { DrySumpState } from './dry-sump-state.ts';
import { tankCaseFindings } from './tank-case-findings.ts';
import type { TankInCase } from './tank-answer.ts';
import { oilInputs } from './tank-words.ts';

const bar = (pa: number): number => pa / 1e5;
const lMin = (m3s: number): number => m3s * 60_000;
const fixed = (value: number, digits = 2): string => value.toFixed(digits);

/** What a case breaks or comes near, in words of the trade; cures are worked out elsewhere. */
export function drySumpFindings(
  ready: ReadyCircuit,
  state: DrySumpState,
  tanks: readonly TankInCase[],
  shelf: Catalogue,
): FlowFinding[] {
  const say = teller(ready, state);
  return [
    ...feedFindings(ready, state, shelf, say),
    ...scavengeFindings(ready, state, shelf, say),
    ...pressureFindings(state, say),
    ...drainFindings(ready, state, say),
    ...gasFindings(state, say),
    ...tankCaseFindings(ready, state, tanks),
  ];
}

type About = Partial<Pick<FlowFinding, 'line' | 'part' | 'value' | 'limit' | 'unit' | 'place' | 'cures'>>;
type Say = (
  level: FlowFinding['level'],
  code: string,
  text: string,
  source: FlowFinding['source'],
  about?: About,
) => FlowFinding;

const teller =
  (ready: ReadyCircuit, state: DrySumpState): Say =>
  (level, code, text, source, about = {}) => ({
    circuit: ready.drawn.circuit.id,
    case: state.asked.at.id,
    code,
    level,
    text: `${state.asked.at.name ?? state.asked.at.id}: ${text}`,
    source,
    cures: [],
    inputs: oilInputs(state.asked),
    ...about,
  });

const against = (value: number, { value: limit, unit }: Guide): About => ({ value, limit, unit });

/** The hose of a line and the vacuum it is rated for [bar]; undefined where neither is known. */
function vacuumOf(ready: ReadyCircuit, shelf: Catalogue, line: string): number | undefined {
  const row = ready.drawn.lines.get(line);
  const ids = [row?.hose, ...(row?.pieces ?? []).map(({ hose }) => hose)].flatMap((id) => id ?? []);
  const ratings = ids.flatMap((id) => shelf.findHose(id)?.vacuumBar ?? []);
  return ratings.length === 0 ? undefined : Math.min(...ratings);
}

function feedFindings(ready: ReadyCircuit, state: DrySumpState, shelf: Catalogue, say: Say): FlowFinding[] {
  const out: FlowFinding[] = [];
  for (const pump of state.liquid.pumps) {
    const row = ready.drawn.pumps.find(({ id }) => id === pump.id);
    const feed = state.liquid.lines.find(({ line }) => ready.drawn.lines.get(line)?.to === row?.from);
    if (row === undefined || feed === undefined || state.asked.at.engineRpm === 0) continue;
    const inlet = bar(feedInletPa(state.liquid, state.asked.fluid, feed.line)!);
    const worst = Math.min(inlet, bar(thickInletPa(ready, state, feed.line)));
    const spread = (limit: number): string =>
      worst < inlet - 0.005 || inlet >= limit
        ? ` (${toldApart(worst, limit, 2)} bar with the thickest oil that its grade allows)`
        : '';
    const held = (limit: number, code: string, words: string, source: FlowFinding['source']): void => {
      if (worst >= limit) return;
      const level = inlet < limit ? 'stop' : 'fix';
      const stands = inlet < limit ? toldApart(inlet, limit, 2) : fixed(inlet);
      // More than the air outside pushes cannot be drawn: then the figure says only how far off it is.
      const isPast = inlet < -bar(standardPressure(state.asked.at.altitudeM ?? 0));
      const text = `the pump's inlet ${isPast ? 'would have to stand' : 'stands'} at ${stands} bar${isPast ? ', below nothing at all: it does not fill' : ''}${spread(limit)}; ${words}: the feed ${isPast ? 'would lose' : 'loses'} ${fixed(bar(feed.dropPa))} bar`;
      const value = inlet < limit ? inlet : worst;
      out.push(say(level, code, text, source, { line: feed.line, value, limit, unit: 'bar' }));
    };
    const least = row.leastInletBar ?? guides.leastInlet.value;
    held(
      least,
      'feed-draws-air',
      `below ${fixed(least)} bar oil gives off its air and the pump fills with it`,
      row.leastInletBar === undefined ? guides.leastInlet.source : 'builder',
    );
    const rating = vacuumOf(ready, shelf, feed.line);
    if (rating !== undefined)
      held(-rating, 'vacuum', `its hose is rated for ${fixed(rating)} bar of vacuum`, 'builder');
    const stated = ready.drawn.lines.get(feed.line)?.vacuumBar;
    if (stated !== undefined && -inlet > stated)
      held(-stated, 'vacuum-stated', `its hose was chosen for ${fixed(stated)} bar of vacuum at most`, 'builder');
    if (feed.velocityMS > guides.feedVelocity.value)
      out.push(
        say(
          'note',
          'feed-speed',
          `oil runs at ${toldApart(feed.velocityMS, guides.feedVelocity.value, 1)} m/s; ${guides.feedVelocity.words}`,
          guides.feedVelocity.source,
          { line: feed.line, ...against(feed.velocityMS, guides.feedVelocity) },
        ),
      );
  }
  return out;
}

/** The inlet with the oil at its thickest [Pa]: the liquid side alone is solved again. */
function thickInletPa(ready: ReadyCircuit, state: DrySumpState, line: string): number {
  const { thickest } = state.asked;
  if (thickest.viscosityPaS <= state.asked.fluid.viscosityPaS) return Number.POSITIVE_INFINITY;
  const liquid = liquidFlow(ready, { ...state.asked, fluid: thickest }, state.gasPa, state.liquid.answer);
  return 'why' in liquid ? Number.POSITIVE_INFINITY : (feedInletPa(liquid, thickest, line) ?? Number.POSITIVE_INFINITY);
}

function scavengeFindings(ready: ReadyCircuit, state: DrySumpState, shelf: Catalogue, say: Say): FlowFinding[] {
  const out: FlowFinding[] = [];
  for (const stage of state.scavenge.stages) {
    const line = ready.drawn.runs.find(
      ({ to }) =>
        ready.drawn.joints.of(to) ===
        ready.drawn.joints.of(ready.drawn.pumps.find(({ id }) => id === stage.id)?.from ?? ''),
    )?.line;
    const about = line === undefined ? {} : { line };
    if (stage.leftM3S > 0)
      out.push(
        say(
          'stop',
          'pan-floods',
          `${stage.words} sweeps ${toldApart(lMin(stage.sweptM3S), lMin(stage.oilM3S + stage.leftM3S), 1)} L/min and gets ${fixed(lMin(stage.oilM3S + stage.leftM3S), 1)} L/min of oil: ${stage.drains} fills`,
          'geometry',
          { ...about, value: lMin(stage.sweptM3S), limit: lMin(stage.oilM3S + stage.leftM3S), unit: 'L/min' },
        ),
      );
    const deep = -bar(stage.inletPa);
    const worst = -bar(stage.inletSpreadPa[0]);
    const rating = line === undefined ? undefined : vacuumOf(ready, shelf, line);
    const most = Math.min(rating ?? Number.POSITIVE_INFINITY, guides.deepestSuction.value);
    const source =
      rating !== undefined && rating < guides.deepestSuction.value ? 'builder' : guides.deepestSuction.source;
    if (worst > most)
      out.push(
        say(
          deep > most ? 'stop' : 'fix',
          'suction-depth',
          `${stage.words} pulls ${deep > most ? toldApart(deep, most, 2) : fixed(deep)} bar (${fixed(-bar(stage.inletSpreadPa[1]))} to ${toldApart(worst, most, 2)} bar as froth is reckoned); ${fixed(most)} bar is the most ${source === 'builder' ? 'its hose is rated for' : 'that is usual'}`,
          source,
          { ...about, value: deep > most ? deep : worst, limit: most, unit: 'bar' },
        ),
      );
  }
  return out;
}

function pressureFindings(state: DrySumpState, say: Say): FlowFinding[] {
  const out: FlowFinding[] = [];
  const { engineRpm } = state.asked.at;
  for (const pump of state.liquid.pumps) {
    if (engineRpm === 0 || pump.sweptM3S === undefined || pump.sweptM3S === 0) continue;
    const share = pump.reliefM3S / pump.sweptM3S;
    if (share > 0.02)
      out.push(
        say(
          'note',
          'relief-open',
          `the relief valve sends ${fixed(lMin(pump.reliefM3S), 1)} of ${fixed(lMin(pump.sweptM3S), 1)} L/min back; the engine gets ${fixed(lMin(pump.sweptM3S - pump.reliefM3S), 1)} L/min at ${fixed(bar(pump.toPa), 1)} bar behind the pump`,
          'wilson-slip',
          { value: 100 * share, unit: '%' },
        ),
      );
  }
  const gallery = galleryOf(state.liquid);
  const wanted = (guides.oilPerThousandRpm.value * engineRpm) / 1000;
  if (gallery !== undefined && engineRpm > 0 && state.asked.temperatureC > 60 && bar(gallery.fromPa) < wanted)
    out.push(
      say(
        'fix',
        'gallery-pressure',
        `the gallery has ${toldApart(bar(gallery.fromPa), wanted, 1)} bar; ${fixed(wanted, 1)} bar is usual at ${engineRpm} rpm`,
        guides.oilPerThousandRpm.source,
        { value: bar(gallery.fromPa), limit: wanted, unit: 'bar' },
      ),
    );
  return out;
}

function drainFindings(ready: ReadyCircuit, state: DrySumpState, say: Say): FlowFinding[] {
  return state.drains.flatMap(({ line, oilM3S }): FlowFinding[] => {
    const run = ready.drawn.runs.find((row) => row.line === line);
    if (run === undefined || oilM3S <= 0) return [];
    const fallDeg = leastFallDeg(run, state.asked.pull);
    if (fallDeg <= 0)
      return [
        say(
          'stop',
          'drain-falls',
          `does not fall all the way: ${fixed(-fallDeg, 0)} degrees up at its worst`,
          'geometry',
          { line, value: fallDeg, unit: 'deg' },
        ),
      ];
    const bore = Math.min(...run.stretches.map(({ boreMm }) => boreMm)) / 1000;
    const drain = { where: line, boreM: bore, fallDeg, roughnessM: boreRoughnessM('drawn-tube') };
    const foam = carriesFoam(drain, oilM3S, { factor: FOAM }, state.asked.fluid);
    if (foam.carries) return [];
    const plain = carriesFoam(drain, oilM3S, { factor: 1 }, state.asked.fluid);
    const most = plain.carries ? foam.mostOilM3S : plain.mostOilM3S;
    const kind = plain.carries ? 'as foam of three times its volume' : 'even without foam';
    return [
      say(
        plain.carries ? 'fix' : 'stop',
        'drain-capacity',
        `half full it carries ${toldApart(lMin(most), lMin(oilM3S), 2)} L/min of oil ${kind}; ${fixed(lMin(oilM3S), 2)} L/min comes`,
        guides.drainDepth.source,
        { line, value: lMin(oilM3S), limit: lMin(most), unit: 'L/min' },
      ),
    ];
  });
}

/** Less gas than this goes no way worth a line [L/min]. */
const LEAST_GAS_LMIN = 0.5;

function gasFindings(state: DrySumpState, say: Say): FlowFinding[] {
  const out: FlowFinding[] = [];
  for (const { vessels, inflowM3S } of state.gas.shut) {
    if (Math.abs(lMin(inflowM3S)) < 1) continue;
    const names = vessels.join(' and ');
    const pulled = inflowM3S < 0;
    out.push(
      say(
        'fix',
        'no-vent',
        pulled
          ? `a stage takes ${fixed(-lMin(inflowM3S), 1)} L/min of air out of ${names}, which has no vent: it comes past the seals, and oil with it`
          : `${fixed(lMin(inflowM3S), 1)} L/min of gas goes into ${names}, which has no vent`,
        'common-practice',
        {
          part: vessels.at(-1)!,
          value: lMin(inflowM3S),
          unit: 'L/min',
        },
      ),
    );
  }
  for (const [vessel, pa] of state.gas.gasPa) {
    if (bar(pa) > guides.crankcase.value)
      out.push(
        say(
          'fix',
          'gas-pressure',
          `gas stands at ${toldApart(bar(pa) * 1000, guides.crankcase.value * 1000, 0)} mbar in ${vessel}; ${guides.crankcase.words}`,
          guides.crankcase.source,
          { part: vessel, value: bar(pa), limit: guides.crankcase.value, unit: 'bar' },
        ),
      );
  }
  for (const line of state.gas.lines) {
    const backward = line.flowM3S < 0;
    const speed = Math.abs(line.velocityMS);
    if (Math.abs(lMin(line.flowM3S)) < LEAST_GAS_LMIN) continue;
    out.push(
      say(
        'note',
        'vent-way',
        `carries ${fixed(lMin(Math.abs(line.flowM3S)), 0)} L/min of gas ${backward ? 'backward, from its end to its start' : 'from its start to its end'}, at ${fixed(speed, 1)} m/s`,
        'geometry',
        { line: line.line, value: lMin(line.flowM3S), unit: 'L/min' },
      ),
    );
    if (speed > guides.ventVelocity.value)
      out.push(
        say(
          'fix',
          'vent-speed',
          `vents at ${toldApart(speed, guides.ventVelocity.value, 1)} m/s and takes oil mist along`,
          guides.ventVelocity.source,
          { line: line.line, ...against(speed, guides.ventVelocity) },
        ),
      );
  }
  return out;
}
