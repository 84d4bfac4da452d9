import type { Case } from '#car';
import { scale, type Vec } from '#geometry';
import { clockTime, type Way, type WayEnd } from '#lines';
import { type FinishRow, finishOf, heatCover, sleeves } from '#standards';
import { agreedCorrections } from '../car/agreed-corrections.ts';
import { CarHeat } from '../car/car-heat.ts';
import type { HeatModel } from '../car/heat-model.ts';
import { netLayout } from '../car/net-layout.ts';
import { type Corrections, hasAgreed, noCorrections } from '../car/readings.ts';
import type { HeatCase, HeatCure, LineCures, LineHeat } from '../heat-answer.ts';
import type { HeatAsk } from '../heat-ask.ts';
import type { Traced } from '../heat-memory.ts';
import { heatCases } from '../heat-of-car.ts';
import { rankedCures } from './ranked-cures.ts';
import { movedWay, withOwnRays, withBlankets, withLine, withLineSleeve, withPlate } from './changed-model.ts';
import { SHIELD_FINISH, SHIELD_NAME, shieldsFor } from './shield-cures.ts';

/** Gaps that are tried [mm]. */
const GAPS_MM = [10, 25, 50] as const;
/** A source that counts for less of the rise is not wrapped [K]. */
const SOURCE_K = 5;
/** A pump that runs on is tried for so long [min]. */
const PUMP_MIN = 5;

/** What is asked of a line's cures beside the car: other ways it could take. */
export interface CureWish {
  readonly otherWays?: readonly Way[];
}

/** Before a cure: the case that is worst for the line, and what it is told by. */
interface Stand {
  readonly ask: HeatAsk;
  readonly traced: Traced;
  readonly corrections: Corrections;
  readonly line: string;
  readonly index: number;
  readonly at: Case;
  readonly kind: HeatCase['kind'];
  readonly heat: LineHeat;
  readonly beforeC: number;
  /** What the line comes to by the rays that a cure is judged by, with nothing changed: the noise of rays drops out of a difference. */
  readonly bases: Map<Rays, number>;
}

/** As the car was traced; of the line only its own rays; the line's rays shot anew. */
type Rays = 'traced' | 'own' | 'shot';

/** What each cure is worth on one line, that which gains most first. */
export function curesOfLine(ask: HeatAsk, line: string, wish: CureWish = {}): LineCures {
  const whole = new CarHeat(ask);
  const traced = whole.traced([]);
  const index = traced.model.lines.findIndex((row) => row.line.id === line);
  if (index < 0) return { line, cures: [] };
  const stand = worstCase(ask, traced, correctionsFor(ask, whole), line, index);
  if (stand === null) return { line, cures: [] };
  const cures = [
    ...gapCures(stand),
    ...blanketCures(stand),
    ...shieldCures(stand),
    ...sleeveCures(stand),
    ...wayCures(stand, wish.otherWays ?? []),
    ...soakCures(stand),
  ];
  return { line, cures: rankedCures(cures) };
}

/** Cures are told of the car as agreed readings correct it. */
function correctionsFor({ car }: HeatAsk, whole: CarHeat): Corrections {
  if (!hasAgreed(car)) return noCorrections;
  const read = new Set(car.heatReadings!.map((reading) => reading.case));
  const cases = heatCases(car).filter(({ id }) => read.has(id));
  return agreedCorrections(
    car,
    whole,
    cases.map((at) => whole.inCase(at)),
  );
}

/** The case in which the line has least to spare. */
function worstCase(ask: HeatAsk, traced: Traced, corrections: Corrections, line: string, index: number): Stand | null {
  const work = new CarHeat(ask, { traced, line, corrections });
  let worst: Stand | null = null;
  let least = Infinity;
  for (const at of heatCases(ask.car, ask.caseId)) {
    const answer = work.inCase(at);
    const heat = answer.lines.find((row) => row.line === line);
    if (heat === undefined) continue;
    const margin = heat.limits[0]?.marginK ?? -heat.worst.surfaceC;
    if (margin >= least) continue;
    least = margin;
    worst = {
      ask,
      traced,
      corrections,
      line,
      index,
      at,
      kind: answer.kind,
      heat,
      beforeC: toldC(heat, null),
      bases: new Map(),
    };
  }
  return worst;
}

/** What a line is told by: what breaks its least limit; of a sleeve that is the outside, whatever is pulled over it then. */
const toldC = (heat: LineHeat, by: LineHeat | null): number => {
  const first = (by ?? heat).limits[0];
  if (first === undefined || first.what === 'sleeve') return heat.worst.surfaceC;
  return heat.limits.find(({ what }) => what === first.what)?.valueC ?? heat.worst.underC;
};

type About = Pick<HeatCure, 'kind' | 'words' | 'parts'> &
  Partial<Pick<HeatCure, 'roomMm' | 'grams' | 'note' | 'plate'>>;

/** The line with the model or the case changed. */
function lineWith(stand: Stand, model: HeatModel, at: Case): LineHeat {
  const traced = model === stand.traced.model ? stand.traced : { model, layout: netLayout(model) };
  const { line, corrections } = stand;
  const answer = new CarHeat(stand.ask, { traced, line, corrections }).inCase(at);
  return answer.lines.find((row) => row.line === line)!;
}

/** What the line comes to with the model or the case changed [degC]. */
const comesTo = (stand: Stand, model: HeatModel, at: Case): number => toldC(lineWith(stand, model, at), stand.heat);

function baseC(stand: Stand, rays: Rays): number {
  const { traced, index, at, bases } = stand;
  if (rays === 'traced') return stand.beforeC;
  const known = bases.get(rays);
  if (known !== undefined) return known;
  const { model } = traced;
  const same = rays === 'own' ? withOwnRays(model, index) : withLine(model, index, model.lines[index]!.way);
  const c = comesTo(stand, same, at);
  bases.set(rays, c);
  return c;
}

/** A cure: the line's temperature with the model or the case changed, beside the same without. */
function tried(stand: Stand, about: About, rays: Rays, model: HeatModel, at: Case = stand.at): HeatCure {
  return gained(stand, about, rays, lineWith(stand, model, at));
}

function gained(stand: Stand, about: About, rays: Rays, now: LineHeat): HeatCure {
  const gainK = baseC(stand, rays) - toldC(now, stand.heat);
  return { ...about, case: stand.at.id, beforeC: stand.beforeC, afterC: stand.beforeC - gainK, gainK };
}

function gapCures(stand: Stand): HeatCure[] {
  const { traced, index, heat } = stand;
  const way = traced.model.lines[index]!.way;
  return GAPS_MM.flatMap((mm) => {
    const moved = movedWay(way, heat.worst.alongMm, scale(heat.worst.faces, -mm) as Vec);
    if (moved === null) return [];
    const there =
      moved.share > 0.95
        ? 'there'
        : `beside it (its end holds the place itself: that moves ${(mm * moved.share).toFixed(0)} mm)`;
    const about: About = {
      kind: 'gap',
      words: `gap + ${mm} mm ${there}, away from what heats it`,
      roomMm: mm,
      parts: [moved.isTube ? 'the tube bent anew' : 'a clamp that holds it there'],
      note: `gap + ${mm} mm: that what is moved clears everything else is for the plan to say${moved.share > 0.5 ? '' : '; nearer to the end only another clock or another end brings it away'}`,
    };
    const now = lineWith(stand, withLine(traced.model, index, moved.way), stand.at);
    const cure = gained(stand, about, 'shot', now);
    return [cure.gainK >= 1 ? cure : { ...cure, words: `${cure.words}: ${whyNothing(heat, now)}` }];
  });
}

/** Why a place that is moved away gains nothing: it does, but another one is then the hottest; or it is as hot there. */
export function whyNothing({ worst: was }: Pick<LineHeat, 'worst'>, now: Pick<LineHeat, 'worst' | 'points'>): string {
  const same = now.points.reduce((best, point) =>
    Math.abs(point.alongMm - was.alongMm) < Math.abs(best.alongMm - was.alongMm) ? point : best,
  );
  const gainK = was.surfaceC - same.worstC;
  return gainK < 1
    ? 'it is as hot there'
    : `that place gains ${gainK.toFixed(0)} K, but ${now.worst.alongMm.toFixed(0)} mm along the line it is then as hot`;
}

function blanketCures(stand: Stand): HeatCure[] {
  const { traced, heat } = stand;
  const usual = heatCover('blanket');
  const sources = heat.worst.shares.filter(({ kind, kelvin }) => kind === 'part' && kelvin > SOURCE_K);
  return sources.slice(0, 2).flatMap(({ of, name }) => {
    const part = traced.model.parts.find((row) => row.part.id === of);
    if (part === undefined || part.cover !== null || part.part.class !== 'hot') return [];
    const about: About = {
      kind: 'blanket',
      words: `blanket of ${usual.thicknessMm} mm over ${name}`,
      roomMm: usual.thicknessMm,
      grams: part.openM2 * usual.thicknessMm * usual.densityKgM3,
      parts: [usual.name],
      note: `blanket: ${name} under it runs hotter than bare; its own metal and bolts have to stand that, and oil in it burns`,
    };
    return [tried(stand, about, 'traced', withBlankets(traced.model, new Set([of])))];
  });
}

/** So many plates are worked out whole; they come best first. */
const MOST_PLATES = 2;

function shieldCures(stand: Stand): HeatCure[] {
  const { ask, traced, index, heat, at } = stand;
  const temperatures = new CarHeat(ask, { traced, line: stand.line, corrections: stand.corrections }).surfacesC(at);
  return shieldsFor(traced, index, heat, temperatures)
    .slice(0, MOST_PLATES)
    .map((place) => {
      const { minMm, maxMm, turnDeg, atMm, grams, thicknessMm, plateK } = place;
      const size = [maxMm[0] - minMm[0], maxMm[1] - minMm[1], maxMm[2] - minMm[2]].toSorted((a, b) => b - a);
      const about: About = {
        kind: 'shield',
        words: `shield ${size[0]!.toFixed(0)} mm by ${size[1]!.toFixed(0)} mm of ${SHIELD_NAME}, ${AIR_WORDS}`,
        roomMm: SHIELD_ROOM_MM,
        grams,
        parts: [`plate of ${SHIELD_NAME}`, 'two brackets'],
        note: `shield: itself ${(plateK - ICE_K).toFixed(0)} °C there, counted as dull as sheet gets in use (emissivity ${SHIELD_FINISH.emissivity}); keep the air open on both sides of it`,
        plate: {
          minMm,
          maxMm,
          turnDeg,
          atMm,
          finish: SHIELD_FINISH.id,
          emissivity: SHIELD_FINISH.emissivity,
          thicknessMm,
          plateC: plateK - ICE_K,
        },
      };
      return tried(
        stand,
        about,
        'shot',
        withPlate(traced.model, index, { minMm, maxMm, turnDeg, atMm }, SHIELD_FINISH, grams),
      );
    });
}

const ICE_K = 273.15;
/** 12 mm of air to either side. */
const SHIELD_ROOM_MM = 25;
const AIR_WORDS = '12 mm of air to either side';

/** A bright finish as it gets in use: the dull end of its spread. */
const agedFinish = (finish: FinishRow): FinishRow => ({ ...finish, emissivity: finish.spread[1] });

function sleeveCures(stand: Stand): HeatCure[] {
  const { traced, index, kind } = stand;
  const { patches, walls } = traced.model.lines[index]!;
  return sleeves
    .filter((row) => row.kind === 'reflecting' || row.kind === 'fire')
    .flatMap((sleeve): HeatCure[] => {
      if (walls.some((wall) => wall.sleeve?.id === sleeve.id)) return [];
      const area = patches.reduce((sum, patch) => sum + patch.areaM2, 0);
      const about: About = {
        kind: sleeve.kind === 'fire' ? 'fire-sleeve' : 'reflecting-sleeve',
        words: sleeve.name,
        roomMm: sleeve.wallMm,
        grams: area * sleeve.wallMm * sleeve.densityKgM3,
        parts: [sleeve.name],
      };
      if (sleeve.kind !== 'fire') {
        const clean = finishOf(sleeve.finish);
        const aged = agedFinish(clean);
        const [kept, new_] = [aged, clean].map((finish) =>
          tried(stand, about, 'own', withLineSleeve(traced.model, index, sleeve, finish)),
        ) as [HeatCure, HeatCure];
        return [
          {
            ...kept,
            note: `reflecting sleeve: counted as it gets in use (emissivity ${aged.emissivity}); clean and new (${clean.emissivity}) ${new_.gainK.toFixed(0)} K. It turns away what shines on it, both ways, and holds back little of what flows or stands in the line; it does not raise what the hose stands`,
          },
        ];
      }
      const cure = tried(stand, about, 'own', withLineSleeve(traced.model, index, sleeve));
      return [
        {
          ...cure,
          // What it lags behind is time, not degrees: it is told and not counted.
          ...(kind === 'soak' ? { afterC: cure.beforeC, gainK: 0 } : {}),
          note: `fire sleeve: worth time in a flame and nothing in a soak${kind === 'soak' ? `; what it holds back at first (${cure.gainK.toFixed(0)} K here) comes through later` : ''}; the hose stands no more than before`,
        },
      ];
    });
}

const wayCures = (stand: Stand, others: readonly Way[]): HeatCure[] =>
  others
    .filter(({ feasible }) => feasible)
    .flatMap((way) => {
      const now = stand.traced.model.lines[stand.index]!.way;
      const changes = way.ends.flatMap((end, i) => endChange(now.ends[i]!, end));
      const about: About = {
        kind: 'way',
        words:
          changes.length === 0
            ? `another way with the same ends (way ${way.rank})`
            : `way ${way.rank}: ${changes.join('; ')}`,
        parts: way.ends.flatMap(({ makeUp }, i) => makeUp.filter((part) => !now.ends[i]!.makeUp.includes(part))),
        note: `way ${way.rank}: cut anew along another way; what it costs beside heat the ways of the line say`,
      };
      const cure = tried(stand, about, 'shot', withLine(stand.traced.model, stand.index, way));
      // The first way that is looked for is as a rule the one taken.
      return changes.length === 0 && Math.abs(cure.gainK) < 1 ? [] : [cure];
    });

/** What is other at one end, in words; nothing where it points alike. */
function endChange(now: WayEnd, next: WayEnd): readonly string[] {
  const said = ({ angleDeg, clockDeg }: WayEnd): string =>
    clockDeg === null ? 'straight' : `${Math.round(angleDeg)}° to ${clockTime(clockDeg)}`;
  return said(now) === said(next) ? [] : [`${next.port}: ${said(next)} instead of ${said(now)}`];
}

/** What can be done after switching off: covers off, the pump left running. */
function soakCures(stand: Stand): HeatCure[] {
  if (stand.kind !== 'soak') return [];
  const { car } = stand.ask;
  const removable = (car.panels ?? []).filter(({ removable: off }) => off === true).map(({ id }) => id);
  const found: HeatCure[] = [];
  if (removable.length > 0)
    found.push(
      tried(
        stand,
        {
          kind: 'cover-off',
          words: `covers off after switching off: ${removable.join(', ')}`,
          parts: [],
          note: 'covers off: counted for the air of the bay; what the sheets give back by radiation stays counted',
        },
        'traced',
        stand.traced.model,
        { ...stand.at, coversOff: removable },
      ),
    );
  if (stand.heat.carries === 'water')
    found.push(
      tried(
        stand,
        { kind: 'pump-on', words: `electric water pump runs on for ${PUMP_MIN} min`, parts: ['electric water pump'] },
        'traced',
        stand.traced.model,
        { ...stand.at, pumpRunsMin: PUMP_MIN },
      ),
    );
  return found;
}
