import type { Panel } from '#car';
import { norm, sub, type Vec } from '#geometry';
import { balancedCorners } from '../corners/balanced-corners.ts';
import { mm, type PanelFinding, placeOf } from '../finding.ts';
import { rigidFit } from '../surface/rigid-fit.ts';

/** A corner against the mirror of the master's. */
export interface MirrorCorner {
  readonly id: string;
  /** Own less mirrored [mm, car axes]. */
  readonly off: Vec;
  readonly offMm: number;
  /** What is left when the mirrored master is laid onto it as well as can be [mm]. */
  readonly leftMm: number;
  /** How well both are known together [mm]. */
  readonly toleranceMm: number;
  readonly at: Vec;
}

/** A panel against the mirror of its master. */
export interface MirrorCheck {
  readonly master: string;
  readonly corners: readonly MirrorCorner[];
  /** Shift and turn of the whole before the corners are compared. */
  readonly shiftMm: number;
  readonly turnDeg: number;
}

/** Corner by corner, by id; undefined where there is no master, or fewer than three corners in common. */
export function mirrorCheck(panel: Panel, master: Panel | undefined): MirrorCheck | undefined {
  if (panel.mirrorOf === undefined || master === undefined) return undefined;
  const plane = panel.mirrorOf.planeYMm ?? 0;
  const [own, other] = [balancedCorners(panel), balancedCorners(master)];
  const pairs = own.corners.flatMap((corner) => {
    const twin = other.corners.find(({ id }) => id === corner.id);
    if (twin === undefined) return [];
    const mirrored: Vec = [twin.at[0], 2 * plane - twin.at[1], twin.at[2]];
    return [{ corner, mirrored, toleranceMm: Math.hypot(corner.knownToMm, twin.knownToMm) }];
  });
  if (pairs.length < 3) return undefined;
  const fit = rigidFit(
    pairs.map(({ mirrored }) => mirrored),
    pairs.map(({ corner }) => corner.at),
  );
  return {
    master: master.id,
    shiftMm: norm(sub(fit.to, fit.from)),
    turnDeg: fit.turnDeg,
    corners: pairs.map(({ corner, mirrored, toleranceMm }, k) => {
      const off = sub(corner.at, mirrored);
      return { id: corner.id, off, offMm: norm(off), leftMm: norm(fit.left[k]!), toleranceMm, at: corner.at };
    }),
  };
}

const WAYS = [
  ['forward', 'back'],
  ['left', 'right'],
  ['down', 'up'],
] as const;

/** A difference in words, such as "4 mm right, 4 mm up". */
function inWords(off: Vec): string {
  const words = off.flatMap((d, i) => (Math.abs(d) < 0.5 ? [] : [`${mm(Math.abs(d))} ${WAYS[i]![d < 0 ? 0 : 1]}`]));
  return words.length === 0 ? 'nothing to speak of' : words.join(', ');
}

/** Where the two sides are no mirror of each other, and that a mirror was asked of a panel that is not there. */
export function mirrorFindings(panel: Panel, check: MirrorCheck | undefined): readonly PanelFinding[] {
  if (panel.mirrorOf === undefined) return [];
  if (check === undefined)
    return [
      {
        code: 'panel-mirror-unknown',
        level: 'fix',
        panel: panel.id,
        text: `${panel.id}: is to be the mirror of "${panel.mirrorOf.panel}": no panel with three corners of the same names`,
        source: 'builder',
        cures: ['name a panel whose corners carry the same ids'],
      },
    ];
  const off = check.corners.filter(({ offMm, toleranceMm }) => offMm > toleranceMm);
  if (off.length === 0) return [];
  const worst = off.reduce((a, b) => (b.offMm > a.offMm ? b : a));
  return [
    {
      code: 'panel-no-mirror',
      level: 'fix',
      panel: panel.id,
      at: worst.id,
      text: `${panel.id}: is no mirror of ${check.master}: ${off.map(({ id, off: d }) => `${id} ${inWords(d)}`).join('; ')}; each is cut from its own drawing, none is turned over`,
      value: Number(worst.offMm.toFixed(1)),
      limit: Number(worst.toleranceMm.toFixed(1)),
      unit: 'mm',
      source: 'least-squares',
      place: placeOf(worst.at),
      cures: [
        `cut ${panel.id} from its own flat: edges, fixings and windows are carried over from ${check.master}`,
        `measure ${worst.id} on both sides again`,
      ],
      inputs: check.corners.map(({ id, offMm, leftMm }) => ({
        name: id,
        value: `${mm(offMm)}; ${mm(leftMm)} after laying one on the other`,
      })),
    },
  ];
}
