import { bossHexMm, nutHexMm } from './hexes.ts';
import type { BungRow, PlugRow, Row } from './rows.ts';
import { bossORingNumber } from './seals.ts';
import { findDash, metricWasherPorts, taperPipes } from './threads.ts';

const dashes = [3, 4, 6, 8, 10, 12, 16, 20] as const;
const usual: Pick<Row, 'source' | 'measure'> = { source: 'generic-dimensions', measure: true };

const bossPlug = (dash: number): PlugRow => ({
  ...usual,
  id: `plug-boss-${dash}`,
  name: `-${dash} O-ring boss plug`,
  closes: { type: 'orb', dash },
  hexMm: bossHexMm(dash),
  proudMm: 10,
  seals: [{ id: `o-ring-${bossORingNumber(dash)}`, qty: 1 }],
});
const flareCap = (dash: number): PlugRow => ({
  ...usual,
  id: `cap-flare-${dash}`,
  name: `-${dash} 37-degree cap`,
  closes: { type: 'flare37-male', dash },
  hexMm: nutHexMm(dash),
  proudMm: 6,
  seals: [],
});
const flarePlug = (dash: number): PlugRow => ({
  ...usual,
  id: `plug-flare-${dash}`,
  name: `-${dash} 37-degree plug`,
  closes: { type: 'flare37-female', dash },
  hexMm: nutHexMm(dash),
  proudMm: 8,
  seals: [],
});
const taperPlug = (pipe: string, odIn: number): PlugRow => ({
  ...usual,
  id: `plug-taper-${pipe.replace('/', '-')}`,
  name: `${pipe} taper pipe plug`,
  closes: { type: 'npt-female', pipe },
  hexMm: Number((odIn * 25.4 + 1).toFixed(1)),
  proudMm: 8,
  seals: [{ id: 'thread-sealant', qty: 1 }],
});
const washerPlug = (thread: string, majorMm: number): PlugRow => ({
  ...usual,
  id: `plug-washer-${thread.toLowerCase()}`,
  name: `${thread} plug with sealing washer`,
  closes: { type: 'metric-washer', thread },
  hexMm: majorMm + 3,
  proudMm: 8,
  seals: [{ id: `washer-${thread.toLowerCase()}`, qty: 1 }],
});

/** What closes an open port or hose end while work is done, or for good. */
export const builtInPlugs: readonly PlugRow[] = [
  ...dashes.map(bossPlug),
  ...dashes.map(flareCap),
  ...dashes.map(flarePlug),
  ...taperPipes.map((p) => taperPlug(p.pipe, p.odIn)),
  ...metricWasherPorts.map((p) => washerPlug(p.thread, p.majorMm)),
];

const metals = ['aluminium', 'steel'] as const;

/** Weld-in bosses: the port they make; the body is about 1.45 times the thread [mm]. */
export const builtInBungs: readonly BungRow[] = dashes.flatMap((dash) => {
  const majorMm = findDash(dash)?.majorMm ?? dash;
  const bodyOdMm = Number((majorMm * 1.45).toFixed(1));
  return metals.map((material) => ({
    ...usual,
    id: `bung-boss-${dash}-${material}`,
    name: `-${dash} O-ring boss weld bung, ${material}`,
    port: { type: 'orb', dash } as const,
    bodyOdMm,
    heightMm: Number((12 + majorMm * 0.4).toFixed(1)),
    holeMm: bodyOdMm,
    material,
  }));
});
