import type { Car, Circuit, Line, Part, Passage, Port, Pump, Vessel } from '#car';
import { findPort, linesById, partsById } from '#car';
import type { Way } from '#lines';
import { nearestName } from '#sources';
import type { Catalogue } from '#standards';
import type { FlowFinding } from '../finding.ts';
import { Joints } from './joints.ts';
import { lineRun, type LineRun } from './line-run.ts';

/** A vessel of the circuit with the ports that open into it. */
export interface DrawnVessel {
  readonly vessel: Vessel;
  readonly part: Part;
  readonly ports: readonly Port[];
}

/**
 * A circuit drawn up from the car: what of it holds together. What does not is named in `findings` and left out, so
 * that the rest can still be worked with; `whole` says whether nothing had to be left out.
 */
export interface DrawnCircuit {
  readonly circuit: Circuit;
  readonly runs: readonly LineRun[];
  readonly lines: ReadonlyMap<string, Line>;
  readonly passages: readonly Passage[];
  readonly pumps: readonly Pump[];
  readonly vessels: readonly DrawnVessel[];
  readonly joints: Joints;
  /** Ports of vessels that do not open into them: a pump or passage lies between. */
  readonly piped: ReadonlySet<string>;
  readonly findings: readonly FlowFinding[];
  readonly whole: boolean;
}

/** A way for each line that has one: taken, or the least bad. */
export type WaysByLine = ReadonlyMap<string, Way>;

/** Draws a circuit up from the lines and parts of the car. */
export function drawnCircuit(car: Car, shelf: Catalogue, circuit: Circuit, ways: WaysByLine): DrawnCircuit {
  const findings: FlowFinding[] = [];
  const refuse = (text: string, about: { line?: string; part?: string } = {}, advice?: readonly string[]) => {
    findings.push({
      circuit: circuit.id,
      code: 'circuit',
      level: 'stop',
      text,
      source: 'the circuit as drawn up',
      cures: [],
      ...(advice === undefined ? {} : { advice }),
      ...about,
    });
  };
  const { lines, runs } = runsOf(car, shelf, circuit, ways, refuse);
  const spotFault = spotFaultOf(car);
  const sound = <
    T extends {
      readonly from: string;
      readonly to: string;
      readonly id?: string | undefined;
      readonly name?: string | undefined;
    },
  >(
    rows: readonly T[] | undefined,
    what: string,
  ): T[] =>
    (rows ?? []).filter((row) => {
      const fault = spotFault(row.from) ?? spotFault(row.to) ?? (row.from === row.to ? 'begins where it ends' : null);
      if (fault !== null) refuse(`${what} ${nameOf(row)}: ${fault}`);
      return fault === null;
    });
  const passages = sound(circuit.passages, 'passage').filter((row) => {
    const fault = passageFault(row);
    if (fault !== null) refuse(`passage ${nameOf(row)}: ${fault}`, { part: partOf(row.from) });
    return fault === null;
  });
  const pumps = sound(circuit.pumps, 'pump').filter((row) => {
    const fault =
      row.curveLMinKpa === undefined ? null : (pointsFault(row.curveLMinKpa) ?? pumpCurveFault(row.curveLMinKpa));
    if (fault !== null) refuse(`pump ${nameOf(row)}: ${fault}`, { part: partOf(row.from) });
    return fault === null;
  });
  const vessels = vesselsOf(car, circuit, refuse);
  const piped = pipedPorts([...passages, ...pumps], vessels);
  const joints = joined(passages, vessels, piped, refuse);
  if (circuit.kind !== 'other')
    openEnds(runs, passages, pumps, vessels, joints, piped).forEach((spot) =>
      refuse(`${spot}: what flows in there has no way on`, { part: partOf(spot) }, [
        'lead it on, or name its part as a vessel',
      ]),
    );
  return { circuit, runs, lines, passages, pumps, vessels, joints, piped, findings, whole: findings.length === 0 };
}

/** The lines that the circuit names, as something that fluid runs through. */
function runsOf(
  car: Car,
  shelf: Catalogue,
  circuit: Circuit,
  ways: WaysByLine,
  refuse: Refuse,
): { readonly lines: ReadonlyMap<string, Line>; readonly runs: readonly LineRun[] } {
  const byId = linesById(car);
  const lines = new Map<string, Line>();
  const runs: LineRun[] = [];
  for (const id of circuit.lines) {
    const line = byId.get(id);
    if (line === undefined) {
      refuse(`circuit ${circuit.id} names line ${id}, which is not on the car${nearestWords(id, byId.keys())}`);
      continue;
    }
    lines.set(id, line);
    const run = lineRun(car, shelf, line, ways.get(id) ?? null);
    if (run === null)
      refuse(`${id} has no bore: neither hose, tube, dash nor boreMm`, { line: id }, ['give it a hose or a bore']);
    else runs.push(run);
  }
  return { lines, runs };
}

/** What a builder calls a passage or pump. */
export const nameOf = (row: {
  readonly id?: string | undefined;
  readonly name?: string | undefined;
  readonly from: string;
  readonly to: string;
}): string => row.name ?? row.id ?? `${row.from} to ${row.to}`;

export const partOf = (spot: string): string => spot.split('.')[0] ?? spot;

function nearestWords(word: string, known: Iterable<string>): string {
  const nearest = nearestName(word, [...known]);
  return nearest === undefined ? '' : ` (nearest: ${nearest})`;
}

function spotFaultOf(car: Car): (spot: string) => string | null {
  const parts = partsById(car);
  return (spot) => {
    const part = parts.get(partOf(spot));
    if (part === undefined)
      return `there is no part ${partOf(spot)} on the car${nearestWords(partOf(spot), parts.keys())}`;
    if (!spot.includes('.') || findPort(car, spot) !== undefined) return null;
    return `part ${part.id} has no port ${spot.slice(part.id.length + 1)}${nearestWords(
      spot,
      part.ports.map(({ id }) => `${part.id}.${id}`),
    )}`;
  };
}

function passageFault(row: Passage): string | null {
  if (row.curveLMinKpa !== undefined) {
    if (row.atC === undefined && row.curveLMinKpa.length < 2) return pointsFault(row.curveLMinKpa);
    return pointsFault(row.curveLMinKpa) ?? lossCurveFault(row.curveLMinKpa);
  }
  if (row.boreMm !== undefined && row.lengthMm === undefined) return `boreMm ${row.boreMm} without lengthMm`;
  if (row.relief !== undefined && row.relief.fullFlowBar <= row.relief.cracksBar)
    return `relief fullFlowBar ${row.relief.fullFlowBar}: above cracksBar ${row.relief.cracksBar} is wanted`;
  if (row.thermostat !== undefined && row.thermostat.fullC <= row.thermostat.opensC)
    return `thermostat fullC ${row.thermostat.fullC}: above opensC ${row.thermostat.opensC} is wanted`;
  return null;
}

function pointsFault(points: readonly (readonly [number, number])[]): string | null {
  if (points.length < 2)
    return `its curve has ${points.length} point${points.length === 1 ? '' : 's'}; two or more are wanted`;
  const flows = points.map(([flow]) => flow);
  if (new Set(flows).size < flows.length) return 'two points of its curve have the same flow';
  return null;
}

type Curve = readonly (readonly [number, number])[];

const inTurn = (points: Curve): Curve => points.toSorted(([a], [b]) => a - b);

/** A loss rises with the flow; at no flow there is none. */
function lossCurveFault(points: Curve): string | null {
  const rows = inTurn(points);
  if (rows.some(([flow, kpa]) => flow > 0 && kpa <= 0))
    return 'a point of its curve loses nothing: a loss above 0 kPa is wanted';
  for (let i = 1; i < rows.length; i++) {
    const [[q0, p0], [q1, p1]] = [rows[i - 1]!, rows[i]!];
    if (p1 <= p0) return `its curve falls from ${p0} kPa at ${q0} L/min to ${p1} at ${q1}: a loss rises with the flow`;
  }
  return null;
}

/** A pump's pressure falls with its flow; with a hump it could stand at two flows. */
function pumpCurveFault(points: Curve): string | null {
  const rows = inTurn(points);
  for (let i = 1; i < rows.length; i++) {
    const [[q0, p0], [q1, p1]] = [rows[i - 1]!, rows[i]!];
    if (p1 > p0)
      return `its curve rises from ${p0} kPa at ${q0} L/min to ${p1} at ${q1}: a pump's curve falls, with a hump it has two flows at one pressure`;
  }
  return null;
}

type Refuse = (text: string, about?: { line?: string; part?: string }, advice?: readonly string[]) => void;

function vesselsOf(car: Car, circuit: Circuit, refuse: Refuse): DrawnVessel[] {
  const parts = partsById(car);
  return (circuit.vessels ?? []).flatMap((vessel): DrawnVessel[] => {
    const part = parts.get(vessel.part);
    if (part === undefined) {
      refuse(`vessel ${vessel.part} is not a part of the car${nearestWords(vessel.part, parts.keys())}`);
      return [];
    }
    const over = vessel.volumeL !== undefined && vessel.fillL !== undefined && vessel.fillL > vessel.volumeL;
    if (over)
      refuse(`${part.name ?? part.id} is filled with ${vessel.fillL} L and holds ${vessel.volumeL} L`, {
        part: part.id,
      });
    return [{ vessel, part, ports: part.ports }];
  });
}

/** Open passages make one joint of two spots; two vessels cannot be one, since their levels would have to agree. */
function joined(
  passages: readonly Passage[],
  vessels: readonly DrawnVessel[],
  piped: ReadonlySet<string>,
  refuse: Refuse,
): Joints {
  const joints = new Joints();
  const isVessel = new Set(vessels.map(({ vessel }) => vessel.part));
  const vesselAt = new Map<string, string>();
  for (const id of isVessel) vesselAt.set(id, id);
  // A port of a vessel opens into it, unless something is piped to it inside.
  const vesselOf = (spot: string): string | undefined =>
    vesselAt.get(joints.of(spot)) ?? (isVessel.has(partOf(spot)) && !piped.has(spot) ? partOf(spot) : undefined);
  for (const row of passages) {
    if (row.open !== true) continue;
    const [a, b] = [vesselOf(row.from), vesselOf(row.to)];
    if (a !== undefined && b !== undefined && a !== b) {
      refuse(
        `passage ${nameOf(row)} joins ${a} and ${b} without loss: two free surfaces cannot be at odds in one space`,
        { part: a },
      );
      continue;
    }
    joints.join(row.from, row.to);
    const kept = a ?? b;
    if (kept !== undefined) vesselAt.set(joints.of(row.from), kept);
  }
  return joints;
}

/** A pump or passage between a vessel's inside and one of its ports keeps that port apart from the inside. */
function pipedPorts(
  rows: readonly { readonly from: string; readonly to: string; readonly open?: boolean | undefined }[],
  vessels: readonly DrawnVessel[],
): ReadonlySet<string> {
  const parts = new Set(vessels.map(({ vessel }) => vessel.part));
  const piped = new Set<string>();
  for (const { from, to, open } of rows) {
    if (open === true) continue;
    if (parts.has(from) && partOf(to) === from) piped.add(to);
    if (parts.has(to) && partOf(from) === to) piped.add(from);
  }
  return piped;
}

/** Which vessel a spot opens into, if any. */
export function vesselFinder(drawn: VesselsAndJoints): (spot: string) => string | undefined {
  const had = finders.get(drawn);
  if (had !== undefined) return had;
  const made = vesselFinderOf(drawn);
  finders.set(drawn, made);
  return made;
}

type VesselsAndJoints = Pick<DrawnCircuit, 'vessels' | 'joints' | 'piped'>;

/** Asked for with every network of a circuit. */
const finders = new WeakMap<VesselsAndJoints, (spot: string) => string | undefined>();

function vesselFinderOf(drawn: VesselsAndJoints): (spot: string) => string | undefined {
  const byJoint = new Map(drawn.vessels.map(({ vessel }) => [drawn.joints.of(vessel.part), vessel.part]));
  const parts = new Set(drawn.vessels.map(({ vessel }) => vessel.part));
  const known = new Map<string, string | undefined>();
  return (spot) => {
    if (known.has(spot)) return known.get(spot);
    const part = partOf(spot);
    const found = drawn.piped.has(spot) ? undefined : parts.has(part) ? part : byJoint.get(drawn.joints.of(spot));
    known.set(spot, found);
    return found;
  };
}

/** Joints that only one line, passage or pump reaches, outside vessels. */
function openEnds(
  runs: readonly LineRun[],
  passages: readonly Passage[],
  pumps: readonly Pump[],
  vessels: readonly DrawnVessel[],
  joints: Joints,
  piped: ReadonlySet<string>,
): string[] {
  const vesselOf = vesselFinder({ vessels, joints, piped });
  const reached = new Map<string, { count: number; spot: string }>();
  for (const row of [...runs, ...passages.filter(({ open }) => open !== true), ...pumps]) {
    for (const spot of [row.from, row.to]) {
      const joint = joints.of(spot);
      const seen = reached.get(joint);
      reached.set(joint, { count: (seen?.count ?? 0) + 1, spot });
    }
  }
  return [...reached.values()]
    .filter(({ count, spot }) => count === 1 && vesselOf(spot) === undefined)
    .map(({ spot }) => spot);
}
