import { type Car, findPort, type Line } from '#car';
import type { Way, WayEnd } from '#lines';
import { describeSource } from '#sources';
import { type Catalogue, describeEnd, type End, type Held, type Tightening, tightening } from '#standards';
import { formatNumber, inLbFromNm, lbFtFromNm } from '#units';

/**
 * How each joint of a way is tightened, one sentence for each kind of joint on it: flats or turns with the printed torque beside, and
 * which table says so. Where sources disagree the spread is named, never one figure out of it.
 */
export function tighteningWords(car: Car, line: Line, way: Way, catalogue: Catalogue, inches = false): string[] {
  const nuts = (end: WayEnd) => end.makeUp.map((id) => nutOf(id, line, way, catalogue));
  const joints = [...way.ends, ...way.joints].flatMap((end): Joint[] => {
    const found = nuts(end);
    const port = findPort(car, end.port)?.port;
    // A nut that goes straight onto the port is the port's joint.
    const own =
      port === undefined || (found[0] ?? null) !== null ? [] : [{ end: port.end as End, held: 'hose' as const }];
    return [...own, ...found.filter((nut) => nut !== null)];
  });
  const told = joints.map(({ end, held }) => ({ end, found: tightening(end, held) }));
  const sentences = grouped(
    told.flatMap(({ end, found }) => (found === undefined ? [] : [saidOf(end, found, inches)])),
  );
  const without = told.flatMap(({ end, found }) => (found === undefined ? [describeEnd(end)] : []));
  return [
    ...sentences,
    ...(without.length === 0
      ? []
      : [
          `${[...new Set(without)].join(', ')}: no figure is held here; take that of the maker of the fitting or clamp.`,
        ]),
  ];
}

interface Joint {
  readonly end: End;
  readonly held: Held;
}

/** The nut of a hose end or of a tube, and what it holds; null for any other part. */
export function nutOf(id: string, line: Line, way: Way, catalogue: Catalogue): Joint | null {
  for (const piece of way.pieces) {
    const hose = piece.hose === undefined ? undefined : catalogue.findHose(piece.hose);
    const end = hose === undefined ? undefined : catalogue.hoseEndsFor(hose).find((row) => row.id === id);
    if (end !== undefined) return { end: end.to, held: 'hose' };
  }
  const row = catalogue.adapters.find((adapter) => adapter.id === id);
  if (row === undefined || row.b.type !== 'tube-socket') return null;
  const material = line.pieces.find((piece) => piece.tube !== undefined)?.tube?.material ?? '';
  // Without a word of the metal the softer one's figures, which are the lower ones.
  return { end: row.a, held: /steel|stainless/iu.test(material) ? 'steel-tube' : 'aluminium-tube' };
}

/** Whether a hose of the way ends in a nut: one pushed onto a spigot has none to turn. */
export const hasHoseNut = (line: Line, way: Way, catalogue: Catalogue): boolean =>
  [...way.ends, ...way.joints].some((end) => end.makeUp.some((id) => nutOf(id, line, way, catalogue)?.held === 'hose'));

interface Said {
  readonly figures: string;
  /** How, and which table says so: the same for joints of one kind, whatever their size. */
  readonly how: string;
}

function saidOf(end: End, found: Tightening, inches: boolean): Said {
  const range = ([least, most]: readonly [number, number], decimals: number): string =>
    `${formatNumber(least, decimals)} to ${formatNumber(most, decimals)}`;
  const parts = [
    ...(found.flats === undefined ? [] : [`${range(found.flats, 2)} flats`]),
    ...(found.turns === undefined ? [] : [`${range(found.turns, 2)} turns`]),
    ...(found.torqueNm === undefined ? [] : [torqueWords(found.torqueNm, inches)]),
    ...(found.mostNm === undefined ? [] : [`at most ${torqueWords([found.mostNm], inches)}`]),
    ...(found.bandNm === undefined ? [] : [`sources say ${torqueWords(found.bandNm, inches)}`]),
  ];
  const sources = found.sources.map((id) => describeSource(id)).join('; ');
  return { figures: `${describeEnd(end)}: ${parts.join(', ')}`, how: `${found.text} (${sources}).` };
}

/** Below this a torque is told by the inch: a wrench for so little is marked in it [lbf ft]. */
const LEAST_FEET = 15;

/** "92 to 210 Nm"; "68 to 155 lbf ft", "100 to 120 lbf in" where inches are worked in. */
function torqueWords(nm: readonly number[], inches: boolean): string {
  const [of, unit] = !inches
    ? [(x: number) => x, 'Nm']
    : lbFtFromNm(nm[0]!) < LEAST_FEET
      ? [inLbFromNm, 'lbf in']
      : [lbFtFromNm, 'lbf ft'];
  return `${nm.map((x) => formatNumber(of(x))).join(' to ')} ${unit}`;
}

/** One sentence for all joints that are tightened in the same way, in the order in which they come. */
function grouped(all: readonly Said[]): string[] {
  return [...new Set(all.map(({ how }) => how))].map((how) => {
    const own = new Set(all.filter((one) => one.how === how).map(({ figures }) => figures));
    return `${[...own].join('; ')}; ${how}`;
  });
}
