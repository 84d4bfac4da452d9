import type { Vec } from '#geometry';
import type { ToolKind } from '#standards';
import type { Swing } from './handle-swing.ts';
import type { HandRoom } from './hand-room.ts';
import { swingOf } from './spanner-on.ts';
import type { Look } from './things.ts';
import type { ToolNut } from './tool-nut.ts';
import type { Tools } from './workshop.ts';

/** What goes on a nut among the things of a look. */
export interface ToolAt {
  readonly verdict: 'yes' | 'tight' | 'no';
  readonly tool: ToolKind;
  readonly with?: string;
  readonly freeDeg: number;
  readonly needDeg: number;
  readonly toward: Vec | null;
  readonly isHandThere: boolean;
  /** A place of the hand that is reached [mm]. */
  readonly hand: Vec | null;
  /** Where a hand would have to come, one of them [mm]. */
  readonly grips: readonly Vec[];
  readonly why: string;
  readonly inTheWay: readonly string[];
}

/** A tool, or a swing, that is less by this share would do: `tight`, not `no`. Tables of tools are no nearer to the one in the hand. */
export const TIGHT_SHARE = 0.15;
const SLIM = 1 - TIGHT_SHARE;

interface Tried {
  readonly swing: Swing;
  readonly hand: Vec | null;
  readonly verdict: 'yes' | 'tight' | 'no';
  readonly why: string;
}

/** The best tool on a nut: the first that goes on plainly, else the first that is tight, else the one that comes nearest. */
export function toolAt(nut: ToolNut, look: Look, tools: Tools, hands: Pick<HandRoom, 'reaches'>): ToolAt {
  const tried: Tried[] = [];
  for (const tool of nut.tools) {
    const found = plainly(swingOf(tool, nut, look, tools), hands);
    if (found.verdict === 'yes') return written(found);
    tried.push(found);
  }
  const fingers = tried.find(({ verdict }) => verdict === 'tight');
  if (fingers !== undefined) return written(fingers);
  for (const tool of nut.tools) {
    const slim = plainly(slimmer(swingOf(tool, nut, look, tools, SLIM)), hands);
    const plain = tried.find(({ swing }) => swing.tool === tool)!;
    if (slim.verdict !== 'no')
      return written({
        ...plain,
        swing: { ...slim.swing, met: plain.swing.met, needDeg: plain.swing.needDeg },
        hand: slim.hand,
        verdict: 'tight',
        why: 'it goes with a tool 15 % slimmer than the table has it: try the one in your hand',
      });
  }
  return written(tried.reduce((a, b) => (b.swing.fingersDeg > a.swing.fingersDeg + 1e-9 ? b : a)));
}

const slimmer = (swing: Swing): Swing => ({ ...swing, needDeg: swing.needDeg * SLIM });

function plainly(swing: Swing, hands: Pick<HandRoom, 'reaches'>): Tried {
  const { freeDeg, fingersDeg, needDeg } = swing;
  const hand = swing.hands.find((at) => hands.reaches(at)) ?? null;
  if (swing.toward === null || fingersDeg < needDeg) return { swing, hand: null, verdict: 'no', why: whyNot(swing) };
  if (hand === null) return { swing, hand, verdict: 'no', why: 'the tool goes on, but no hand comes to its end' };
  return freeDeg >= needDeg
    ? { swing, hand, verdict: 'yes', why: '' }
    : { swing, hand, verdict: 'tight', why: 'it swings, but no fist goes round its end: fingers only' };
}

const whyNot = ({ fingersDeg, needDeg }: Swing): string =>
  fingersDeg === 0 ? 'it does not go on' : `it swings ${fingersDeg.toFixed(0)} of the ${needDeg} degrees it wants`;

const written = ({ swing, hand, verdict, why }: Tried): ToolAt => ({
  verdict,
  tool: swing.tool,
  ...(swing.with === undefined ? {} : { with: swing.with }),
  freeDeg: Math.max(swing.freeDeg, verdict === 'yes' ? 0 : swing.fingersDeg),
  needDeg: swing.needDeg,
  toward: swing.toward,
  isHandThere: hand !== null,
  hand,
  grips: swing.hands,
  why,
  inTheWay: verdict === 'yes' ? [] : [...new Set(swing.met.map(({ id }) => id))],
});
