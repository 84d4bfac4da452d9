import type { BayPart } from '#bay';
import { partKeepOffMm } from '#car';
import { distance, dot, sub, type Vec } from '#geometry';
import type { LinesWorld, WayBody } from '#lines';
import { facetAt, heightOver, type PanelFinding, type PanelLayout, type PanelOpening, panelOpenings } from '#panels';
import { sheetRule } from '#standards';
import { type HotMouth, hotMouths, isInJet, jetMeetsMm, jetReachMm } from './hot-mouths.ts';

type Bodies = ReadonlyMap<string, readonly WayBody[]>;

/** What the hot pipes that leave through panels blow on, and inlets that draw what is hot. */
export function exitFindings(world: LinesWorld, bodies: Bodies, layout: PanelLayout): readonly PanelFinding[] {
  const mouths = hotMouths(world);
  const leaving = mouths.filter((mouth) => layout.holes.some(({ line }) => line === mouth.part.id));
  return [
    ...leaving.flatMap((mouth) => mouthFindings(world, bodies, layout, mouth)),
    ...inletFindings(world, layout, mouths),
  ];
}

const whole = (mm: number): string => `${Math.round(mm)} mm`;

function mouthFindings(world: LinesWorld, bodies: Bodies, layout: PanelLayout, mouth: HotMouth): PanelFinding[] {
  const hole = layout.holes.find(({ line }) => line === mouth.part.id)!;
  const { frame } = facetAt(layout.facets, hole.at);
  const beyondMm = heightOver(frame, mouth.at);
  // The end on the engine's side is no exit.
  if (beyondMm < 0) return [];
  const about = { panel: layout.panel.id, at: hole.id, unit: 'mm', place: mouth.at } as const;
  const stands = sheetRule('exit-beyond');
  const standsMm = stands.value * mouth.odMm;
  const short: PanelFinding[] =
    beyondMm >= standsMm
      ? []
      : [
          {
            ...about,
            code: 'panel-exit-short',
            part: mouth.part.id,
            level: 'fix',
            text: `${layout.panel.id}: ${mouth.part.name} ends ${whole(beyondMm)} out of the panel that it leaves through; ${whole(standsMm)} out of it, its gas does not blow back into the opening`,
            value: Math.round(beyondMm),
            limit: Math.round(standsMm),
            source: stands.source,
            cures: [`carry it ${whole(standsMm - beyondMm)} further out`],
          },
        ];
  return [...short, ...blownOn(world, bodies, layout, mouth).map((row) => ({ ...about, ...row }))];
}

type Blown = Pick<PanelFinding, 'code' | 'level' | 'text' | 'value' | 'limit' | 'source' | 'cures' | 'part' | 'line'>;

function blownOn(world: LinesWorld, bodies: Bodies, { panel }: PanelLayout, mouth: HotMouth): Blown[] {
  const reachMm = jetReachMm(mouth);
  const rule = sheetRule('exit-clear');
  const told = (name: string, atMm: number | undefined, level: PanelFinding['level'], what: Partial<Blown>): Blown[] =>
    atMm === undefined
      ? []
      : [
          {
            code: 'panel-exit-blows-on',
            level,
            ...what,
            text: `${panel.id}: ${mouth.part.name} blows on ${name} ${whole(atMm)} from its mouth; so far its gas is as hot as it left, ${whole(reachMm)} are wanted`,
            value: Math.round(atMm),
            limit: Math.round(reachMm),
            source: rule.source,
            cures: [`turn its end away from ${name}`, `carry it past ${name}`, `move ${name} out of its way`],
          },
        ];
  const parts = world.bay.parts
    .filter((part) => part !== mouth.part && part.id !== panel.id && part.solids.length > 0)
    .flatMap((part) => {
      const gap = (at: Vec): number => Math.min(...part.solids.map((solid) => solid.distance(...at)));
      return told(part.name, jetMeetsMm(mouth, gap), 'fix', { part: part.id });
    });
  const lines = [...bodies].flatMap(([line, pieces]) => {
    const gap = (at: Vec): number =>
      Math.min(...pieces.flatMap(({ pathMm, odMm }) => pathMm.map((p) => distance(p, at) - odMm / 2)));
    return pieces.length === 0 ? [] : told(line, jetMeetsMm(mouth, gap), 'stop', { line });
  });
  return [...lines, ...parts];
}

/** An inlet in the jet of a mouth within this many of its reaches draws exhaust. */
const DRAWN_REACHES = 2;

/** Air inlets that are cut on purpose draw what stands before them: exhaust, and air that came past something hot. */
function inletFindings(world: LinesWorld, layout: PanelLayout, mouths: readonly HotMouth[]): PanelFinding[] {
  const { panel } = layout;
  const openings = panelOpenings(layout);
  const inlets = (panel.windows ?? []).filter(({ lets }) => lets === 'in');
  return inlets.flatMap(({ id }): PanelFinding[] => {
    const own = openings.filter(({ of }) => of === id);
    const drawn = own.flatMap((opening) => [...drawsExhaust(opening, mouths), ...drawsHeat(world, opening)]);
    // Each thing once, by the opening that it is nearest to.
    const nearest = [...new Set(drawn.map(({ part, words }) => `${part.id} ${words}`))].map(
      (key) =>
        drawn.filter(({ part, words }) => `${part.id} ${words}` === key).toSorted((a, b) => a.fromMm - b.fromMm)[0]!,
    );
    return nearest.map(({ part, at, fromMm, wantedMm, words, source, cures }) => ({
      code: 'panel-inlet-hot',
      level: 'fix',
      panel: panel.id,
      at: id,
      part: part.id,
      text: `${panel.id} ${id}: air is let in there, and ${part.name} ${words} ${whole(fromMm)} off`,
      value: Math.round(fromMm),
      limit: Math.round(wantedMm),
      unit: 'mm',
      source,
      place: at,
      cures,
    }));
  });
}

/** What is further behind the outside face than this is not drawn past [mm]. */
const BEHIND_MM = 1;

interface Drawn extends Pick<PanelFinding, 'source' | 'cures'> {
  readonly part: BayPart;
  readonly at: Vec;
  readonly fromMm: number;
  readonly wantedMm: number;
  readonly words: string;
}

function drawsExhaust({ outline }: PanelOpening, mouths: readonly HotMouth[]): Drawn[] {
  const at = middleOf(outline);
  return mouths.flatMap((mouth): Drawn[] => {
    const wantedMm = DRAWN_REACHES * jetReachMm(mouth);
    if (!isInJet(mouth, at, wantedMm)) return [];
    return [
      {
        part: mouth.part,
        at,
        fromMm: distance(mouth.at, at),
        wantedMm,
        words: 'blows its exhaust into it from',
        source: sheetRule('exit-clear').source,
        cures: ['put the inlet upstream of the pipe, or on the other side', 'turn the end of the pipe away'],
      },
    ];
  });
}

function drawsHeat({ bay, car }: LinesWorld, { outline, normal }: PanelOpening): Drawn[] {
  const at = middleOf(outline);
  return bay.parts
    .filter((part) => part.class === 'hot')
    .flatMap((part): Drawn[] => {
      const wantedMm = partKeepOffMm(car, part.part, 'water');
      const near = part.solids
        .map((solid) => solid.closest(...at))
        .filter(({ point }) => dot(sub(point, at), normal) > -BEHIND_MM)
        .toSorted((a, b) => a.distance - b.distance)[0];
      if (near === undefined || near.distance >= wantedMm) return [];
      return [
        {
          part,
          at,
          fromMm: near.distance,
          wantedMm,
          words: 'warms what it draws from',
          source: 'common-practice',
          cures: [`an inlet ${whole(wantedMm - near.distance)} further off`, 'a duct from cooler air'],
        },
      ];
    });
}

function middleOf(outline: readonly Vec[]): Vec {
  const sum = outline.reduce<Vec>((m, p) => [m[0] + p[0], m[1] + p[1], m[2] + p[2]], [0, 0, 0]);
  return [sum[0] / outline.length, sum[1] / outline.length, sum[2] / outline.length];
}
