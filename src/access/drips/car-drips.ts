import type { Line } from '#car';
import type { Vec } from '#geometry';
import { builtInPlugs, findDash } from '#standards';
import type { AccessWorld } from '../access-world.ts';
import { boreLitres } from './held.ts';
import { type Drip, dripFrom, dripFromMouth, levelsOf, type VesselLevel } from './opened-joint.ts';

/** One end of a line opened: what runs, and what is put on. */
export interface EndDrip {
  readonly end: string;
  readonly line: string;
  readonly port: string;
  readonly heightMm: number;
  /** Of what fluid; null: it carries air. */
  readonly fluid: string | null;
  readonly fromLineL: number;
  /** All that its line holds: more than that never runs from both its ends together. */
  readonly lineHoldsL: number;
  /** From vessels on either side, and which. */
  readonly fromVesselL: number;
  readonly vessel: string | null;
  readonly litres: number;
  /** Caps and plugs: one for the open end of the line, one for what stays on the part. */
  readonly caps: readonly string[];
  /** In words where no cap or plug of a size is on the list, such as for a hose on a bead. */
  readonly closeWith: string | null;
}

/** What runs and what closes it, by end of line as `line@from`. */
export function carDrips(world: AccessWorld): ReadonlyMap<string, EndDrip> {
  const levels = vesselLevels(world);
  return new Map(
    world.car.lines.flatMap((line) =>
      (['from', 'to'] as const).map((which) => {
        const drip = endDrip(world, levels, line, which);
        return [drip.end, drip] as const;
      }),
    ),
  );
}

const DRY: ReadonlySet<string> = new Set(['air', 'charge-air', 'oil-vent', 'fuel-vent']);

function vesselLevels({ car, bay }: AccessWorld): ReadonlyMap<string, VesselLevel> {
  return new Map(
    (car.circuits ?? []).flatMap((circuit) =>
      (circuit.vessels ?? []).flatMap((vessel) => {
        const solids = bay.partById.get(vessel.part)?.solids ?? [];
        const fillL = vessel.fillL ?? 0;
        return solids.length === 0 || fillL === 0
          ? []
          : [[vessel.part, levelsOf(solids, vessel.volumeL ?? null, fillL)] as const];
      }),
    ),
  );
}

function endDrip(
  world: AccessWorld,
  levels: ReadonlyMap<string, VesselLevel>,
  line: Line,
  which: 'from' | 'to',
): EndDrip {
  const port = world.bay.ports.get(line[which]);
  const at: Vec = port?.at ?? [0, 0, 0];
  const [own = '', other = ''] = [line[which], line[which === 'from' ? 'to' : 'from']].map((ref) => ref.split('.')[0]!);
  const isWet = !DRY.has(line.duty);
  const drawn = (world.ways.get(line.id)?.bodies ?? []).flatMap(({ pathMm }) => pathMm);
  const path = which === 'from' ? drawn : drawn.toReversed();
  const none: Drip = { lineL: 0, farVesselL: 0 };
  const boreMm = boreOf(world, line);
  const drip = isWet ? dripFrom({ path, boreMm }, levels.get(other) ?? null) : none;
  const mouth = levels.get(own);
  const fromOwn = isWet && mouth !== undefined ? dripFromMouth(mouth, at[2]) : 0;
  const isOwn = fromOwn >= drip.farVesselL;
  // A vessel at both ends empties by the one that lies lower; the greater is told.
  const fromVesselL = Math.max(fromOwn, drip.farVesselL);
  return {
    end: `${line.id}@${which}`,
    line: line.id,
    port: line[which],
    heightMm: at[2],
    fluid: isWet ? fluidOf(world, line) : null,
    fromLineL: drip.lineL,
    lineHoldsL: isWet ? boreLitres(boreMm, longMm(path)) : 0,
    fromVesselL,
    vessel: fromVesselL === 0 ? null : isOwn ? own : other,
    litres: drip.lineL + fromVesselL,
    ...closing(line, port?.end.type, port?.end.thread),
  };
}

const longMm = (path: readonly Vec[]): number =>
  path
    .slice(1)
    .reduce((sum, at, i) => sum + Math.hypot(at[0] - path[i]![0], at[1] - path[i]![1], at[2] - path[i]![2]), 0);

function boreOf({ shelf }: AccessWorld, line: Line): number {
  if (line.boreMm !== undefined) return line.boreMm;
  const hose = shelf.hoses.find(({ id }) => id === (line.hose ?? line.pieces.find((piece) => piece.hose)?.hose));
  if (hose !== undefined) return hose.boreMm;
  const tube = line.pieces.find((piece) => piece.tube)?.tube;
  return tube === undefined ? (findDash(line.dash ?? 6)?.dash ?? 6) * 1.5 : tube.odMm - 2 * tube.wallMm;
}

const fluidOf = ({ car }: AccessWorld, line: Line): string => {
  const id = car.circuits?.find(({ lines }) => lines.includes(line.id))?.fluid;
  return car.fluids?.find((fluid) => fluid.id === id)?.name ?? id ?? line.duty;
};

/** What closes both sides of an opened joint. */
function closing(line: Line, end: string | undefined, thread: string | undefined): Pick<EndDrip, 'caps' | 'closeWith'> {
  if (DRY.has(line.duty)) return { caps: [], closeWith: null };
  if (end === 'bead' || end === 'plain-tube')
    return { caps: [], closeWith: 'a bung in the hose and a cap over the spigot' };
  const wanted =
    end === 'metric-washer' && thread !== undefined
      ? [`plug-washer-${thread.toLowerCase()}`]
      : end === 'inverted-flare' || line.dash === undefined
        ? []
        : [`cap-flare-${line.dash}`];
  const caps = [...wanted, ...(line.dash === undefined ? [] : [`plug-flare-${line.dash}`])];
  const known = caps.filter((id) => builtInPlugs.some((row) => row.id === id));
  return {
    caps: known,
    closeWith: known.length === caps.length && caps.length > 0 ? null : 'a clean plug of its thread',
  };
}
