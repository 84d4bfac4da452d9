import type { Car } from '#car';
import { unit, type Vec } from '#geometry';
import { carFromFlat, facetAt, type PanelLayout } from '#panels';
import { screwHeadMm, type ToolKind } from '#standards';
import type { ToolNut } from './tool-nut.ts';

type Fastener = NonNullable<Car['parts'][number]['fasteners']>[number];

const toolsFor: Readonly<Record<Fastener['head'], readonly ToolKind[]>> = {
  hexagon: ['ratchet', 'ring', 'open-end', 'crow-foot'],
  nut: ['ratchet', 'ring', 'open-end', 'crow-foot'],
  socket: ['hex-key'],
  clip: ['driver'],
  'quarter-turn': ['driver'],
  rivet: ['driver'],
  'v-band': ['ratchet', 'ring', 'open-end'],
  hand: ['hand'],
};

/** Hexagon where neither size nor thread is said, and that of a v-band's nut [mm]. Source: common-practice. */
const USUAL_MM = { hexagon: 13, socket: 6, band: 10 } as const;
/** A head stands out by this share of its hexagon. Source: generic-dimensions. */
const HEAD_SHARE = 0.6;

/** Every fastener of every part. */
export const nutsOfParts = (car: Car): readonly ToolNut[] =>
  car.parts.flatMap((part) => (part.fasteners ?? []).map((fastener) => nutOf(part.id, fastener)));

function nutOf(part: string, fastener: Fastener): ToolNut {
  const { id, atMm, faces, head, acrossFlatsMm, size } = fastener;
  const said = acrossFlatsMm ?? screwHeadMm(size, head === 'socket' ? 'socket' : 'hexagon');
  const usual = head === 'socket' ? USUAL_MM.socket : head === 'v-band' ? USUAL_MM.band : USUAL_MM.hexagon;
  const hex = said ?? usual;
  return {
    id: `${part}.${id}`,
    role: 'fastener',
    part,
    fastener: id,
    at: atMm,
    axis: unit(faces),
    flatsMm: head === 'socket' ? [0, 0] : [-HEAD_SHARE * hex * 0.5, HEAD_SHARE * hex * 0.5],
    acrossFlatsMm: hex,
    isUsualSize: acrossFlatsMm === undefined,
    tools: toolsFor[head],
  };
}

/** Every fixing of every panel that comes off; what is glued or welded is none. */
export const nutsOfPanels = (layouts: readonly PanelLayout[]): readonly ToolNut[] =>
  layouts.flatMap(({ panel, fixings, facets }) =>
    fixings.flatMap((fixing, n): ToolNut[] => {
      if (facets.length === 0 || fixing.kind === 'bond' || fixing.kind === 'weld') return [];
      const { frame } = facetAt(facets, fixing.at);
      const isScrew = fixing.kind === 'screw' || fixing.kind === 'rivnut';
      const hex = isScrew ? (screwHeadMm(fixing.size, 'socket') ?? USUAL_MM.socket) : 0;
      const at: Vec = carFromFlat(frame, fixing.at);
      return [
        {
          id: `${panel.id} ${fixing.edge} ${n + 1}`,
          role: 'panel fixing',
          panel: panel.id,
          at,
          axis: frame.out,
          flatsMm: [0, 0],
          acrossFlatsMm: hex,
          isUsualSize: true,
          tools: isScrew ? ['hex-key', 'driver'] : ['driver'],
        },
      ];
    }),
  );
