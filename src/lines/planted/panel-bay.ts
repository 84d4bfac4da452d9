import type { Vec } from '#geometry';
import { unit } from '#geometry';
import { type Chance, chance } from './chance.ts';

/** How the line of a panel bay passes its panel. */
export type PanelKind = 'bulkhead-fitting' | 'grommet';

/** What stands in for the panel, its place and direction where they are fixed. */
export interface PanelBayWant {
  readonly kind: PanelKind;
  readonly atMm?: Vec;
  readonly faces?: Vec;
}

/** The panel of every such bay: square to X at 0, 1.2 mm thick. */
export const PANEL = { halfMm: 400, thickMm: 1.2, keepOffMm: 6 } as const;
const DASHES = [6, 8, 10] as const;
const AWAY_MM = [350, 600] as const;
const ASIDE_MM = 260;
const THINGS = [1, 4] as const;

/** A bay with one line from one side of a panel to the other, the same for the same seed whatever is wanted of the crossing. */
export function panelBay(seed: number, want: PanelBayWant) {
  const draw = chance(70_000 + seed);
  const dash = draw.oneOf(DASHES);
  const ports = [-1, 1].map((side) => portPart(draw, side as -1 | 1, dash));
  const things = Array.from({ length: draw.whole(...THINGS) }, (_, n) => thing(draw, n, ports));
  return {
    fairlead: 1,
    name: `panel ${seed}`,
    parts: [
      {
        id: 'panel',
        name: 'Panel',
        class: 'fixed',
        keepOffMm: PANEL.keepOffMm,
        crossable: ['bulkhead-fitting', 'grommet'],
        shapes: [
          {
            box: {
              minMm: [-PANEL.thickMm / 2, -PANEL.halfMm, -PANEL.halfMm],
              maxMm: [PANEL.thickMm / 2, PANEL.halfMm, PANEL.halfMm],
            },
          },
        ],
        ports: [],
      },
      ...ports,
      ...things.filter((part) => part !== null),
    ],
    lines: [
      {
        id: 'L1',
        from: 'a.p',
        to: 'b.p',
        duty: 'oil-pressure',
        dash,
        hose: `rubber-braid-${dash}`,
        state: 'planned',
        through: [{ part: 'panel', ...want }],
      },
    ],
  };
}

const BLOCK_MM = 40;

/** A block on one side of the panel with a port that looks towards the panel or along it. */
function portPart(draw: Chance, side: -1 | 1, dash: number) {
  const at: Vec = [
    side * draw.between(...AWAY_MM),
    draw.between(-ASIDE_MM, ASIDE_MM),
    draw.between(-ASIDE_MM, ASIDE_MM),
  ];
  const faces = unit([-side * draw.between(0, 1), draw.between(-1, 1), draw.between(-1, 1)]);
  const behind = at.map((c, k) => c - faces[k]! * 2) as unknown as Vec;
  return {
    id: side < 0 ? 'a' : 'b',
    name: side < 0 ? 'From' : 'To',
    class: 'fixed',
    keepOffMm: 6,
    shapes: [
      {
        cylinder: {
          fromMm: behind.map((c, k) => c - faces[k]! * BLOCK_MM),
          toMm: at,
          radiusMm: BLOCK_MM,
        },
      },
    ],
    ports: [{ id: 'p', atMm: at, faces, end: { type: 'flare37-male', dash } }],
  };
}

/** A box clear of the ports and the panel, anywhere between. */
function thing(draw: Chance, n: number, ports: readonly { readonly ports: readonly { readonly atMm: Vec }[] }[]) {
  const half = [0, 1, 2].map(() => draw.between(15, 60));
  const side = draw.oneOf([-1, 1]);
  const at = [side * draw.between(70, 450), draw.between(-300, 300), draw.between(-300, 300)];
  const reach = Math.hypot(...half) + 100;
  if (Math.abs(at[0]!) - half[0]! < 40) return null;
  if (ports.some(({ ports: [port] }) => Math.hypot(...port!.atMm.map((c, k) => c - at[k]!)) < reach)) return null;
  return {
    id: `t${n}`,
    name: `Thing ${n}`,
    class: draw.oneOf(['fixed', 'hot']),
    keepOffMm: draw.whole(6, 40),
    shapes: [{ box: { minMm: at.map((c, k) => c - half[k]!), maxMm: at.map((c, k) => c + half[k]!) } }],
    ports: [],
  };
}
