import type { ReadyCircuit } from '../circuit/circuit-state.ts';
import type { FuelVent } from '../circuit/fuel-answer.ts';
import type { FlowFinding } from '../finding.ts';
import { type Guide, guides } from '../limits.ts';
import { toldApart } from '../told-apart.ts';
import type { FuelState } from './fuel-state.ts';

type About = Partial<Pick<FlowFinding, 'line' | 'part' | 'value' | 'limit' | 'unit' | 'place' | 'cures'>>;
type Say = (
  level: FlowFinding['level'],
  code: string,
  text: string,
  source: FlowFinding['source'],
  about?: About,
) => FlowFinding;

const lMin = (m3s: number): number => m3s * 60_000;
const against = (value: number, { value: limit, unit }: Guide): About => ({ value, limit, unit });

/** What a case of the fuel breaks; cures that need solving again are worked out elsewhere. */
export function fuelFindings(ready: ReadyCircuit, state: FuelState): FlowFinding[] {
  const { at } = state.asked;
  const say: Say = (level, code, text, source, about = {}) => ({
    circuit: ready.drawn.circuit.id,
    case: at.id,
    code,
    level,
    text: `${at.name ?? at.id}: ${text}`,
    source,
    cures: [],
    inputs: inputsOf(state),
    ...about,
  });
  if (at.engineRpm === 0) return [];
  return [
    ...supplyFindings(ready, state, say),
    ...inletFindings(state, say),
    ...returnFindings(ready, state, say),
    ...ventInCase(state, say),
  ];
}

/** Fuel thrown into the vent while the car corners or brakes: whether the highest point of the vent keeps it in. */
function ventInCase({ answer: { vent } }: FuelState, say: Say): FlowFinding[] {
  if (vent === null || !vent.inCase.mouthCovered || vent.inCase.highestOverMm > 0) return [];
  const { highestOverMm, highestAtMm } = vent.inCase;
  return [
    say(
      'stop',
      'vent-in-corner',
      `at this g fuel runs out of the vent ${vent.line}: its mouth is under, and its highest point lies ${(-highestOverMm).toFixed(0)} mm under the fuel too`,
      'geometry',
      { line: vent.line, value: highestOverMm, unit: 'mm', place: highestAtMm },
    ),
  ];
}

const inputsOf = ({ asked, answer }: FuelState): NonNullable<FlowFinding['inputs']> => [
  { name: 'engine speed', value: `${asked.at.engineRpm} rpm` },
  { name: 'fuel', value: `${answer.temperatureC.toFixed(0)} °C` },
  { name: 'vapour pressure', value: `${(answer.vapourAbsPa / 1000).toFixed(1)} kPa` },
  { name: 'air outside', value: `${(answer.outsideAbsPa / 1000).toFixed(1)} kPa` },
];

function supplyFindings(ready: ReadyCircuit, { answer, asked }: FuelState, say: Say): FlowFinding[] {
  const out: FlowFinding[] = [];
  const { burnM3S, liftM3S, pressureM3S, returnM3S, railPa, potS } = answer;
  if (burnM3S === null || burnM3S === 0) return out;
  const pot = ready.drawn.vessels.find(({ vessel }) => vessel.kind === 'surge-pot');
  if (pot !== undefined) {
    const over = liftM3S / burnM3S;
    const guide = guides.liftOverBurn;
    if (over < guide.value)
      out.push(
        say(
          over < 1 ? 'stop' : 'fix',
          'lift-short',
          `the lift brings ${lMin(liftM3S).toFixed(1)} L/min and the engine burns ${lMin(burnM3S).toFixed(1)} L/min at full load, ${toldApart(over, guide.value, 2)} times; ${guide.value} is usual${over < 1 ? `: the pot is empty after ${(potS === null ? 0 : potS / (1 - over)).toFixed(0)} s` : ''}`,
          guide.source,
          {
            part: pot.part.id,
            ...against(over, guide),
          },
        ),
      );
    if (potS !== null && potS < Math.max(guides.fuelPotS.value, asked.at.lastsS ?? 0))
      out.push(
        say(
          'fix',
          'pot-short',
          `with the lift in air the pot lasts ${toldApart(potS, Math.max(guides.fuelPotS.value, asked.at.lastsS ?? 0), 0)} s at full load; ${Math.max(guides.fuelPotS.value, asked.at.lastsS ?? 0)} s are wanted`,
          guides.fuelPotS.source,
          {
            part: pot.part.id,
            value: potS,
            limit: Math.max(guides.fuelPotS.value, asked.at.lastsS ?? 0),
            unit: 's',
          },
        ),
      );
  }
  const over = pressureM3S / burnM3S;
  const guide = guides.pressureOverBurn;
  if (over < guide.value || returnM3S <= 0)
    out.push(
      say(
        over < 1 ? 'stop' : 'fix',
        'rail-short',
        `the pressure pump brings ${lMin(pressureM3S).toFixed(1)} L/min, the engine burns ${lMin(burnM3S).toFixed(1)} L/min: ${lMin(Math.max(0, returnM3S)).toFixed(1)} L/min are left for the regulator${railPa === null ? '' : `, the rail stands at ${(railPa / 1e5).toFixed(2)} bar`}`,
        guide.source,
        against(over, guide),
      ),
    );
  return out;
}

function inletFindings({ answer }: FuelState, say: Say): FlowFinding[] {
  const guide = guides.fuelOverVapour;
  const dry = answer.pumps.flatMap(({ words, dry: mouth }) =>
    mouth === undefined
      ? []
      : [
          say(
            'stop',
            'fuel-draws-air',
            `${words} draws air: the mouth of ${mouth.line}, ${mouth.spot}, stands ${mouth.overMm.toFixed(0)} mm over the fuel`,
            'geometry',
            { line: mouth.line, value: mouth.overMm, unit: 'mm' },
          ),
        ],
  );
  return [...dry, ...vapourFindings(answer, guide, say)];
}

function vapourFindings(answer: FuelState['answer'], guide: Guide, say: Say): FlowFinding[] {
  return answer.pumps
    .filter(({ overVapourKpa, dry }) => dry === undefined && overVapourKpa < guide.value)
    .map(({ words, overVapourKpa, inletPa }) =>
      say(
        overVapourKpa <= 0 ? 'stop' : 'fix',
        'vapour-lock',
        `${words} has ${toldApart(overVapourKpa, guide.value, 0)} kPa over the fuel's vapour at its inlet (${(inletPa / 1000).toFixed(1)} kPa to the outside, fuel at ${answer.temperatureC.toFixed(0)} °C); ${guide.value} kPa is wanted`,
        guide.source,
        against(overVapourKpa, guide),
      ),
    );
}

function returnFindings(ready: ReadyCircuit, { answer }: FuelState, say: Say): FlowFinding[] {
  const guide = guides.returnLoss;
  const kpa = answer.returnLossPa / 1000;
  if (kpa <= guide.value) return [];
  const regulator = ready.drawn.passages.find(({ relief }) => relief !== undefined);
  const line = ready.drawn.runs.find(({ from }) => from === regulator?.to)?.line;
  return [
    say(
      'fix',
      'return-loss',
      `the return ${line ?? ''} loses ${toldApart(kpa, guide.value, 0)} kPa and puts as much on the rail; ${guide.value} kPa is plenty`,
      guide.source,
      { ...against(kpa, guide), ...(line === undefined ? {} : { line }) },
    ),
  ];
}

/** What holds at full load in every case, told once: lift, pot, pressure pump. */
export function supplyNotes(ready: ReadyCircuit, { answer }: FuelState): FlowFinding[] {
  const circuit = ready.drawn.circuit.id;
  const { burnM3S, liftM3S, pressureM3S, returnM3S, railPa, potS } = answer;
  if (burnM3S === null || burnM3S === 0)
    return [
      {
        circuit,
        code: 'no-burn',
        level: 'note',
        text: 'what the engine burns is not stated (burnLPerH), or no passage is a regulator: lift, pot and vent are held against nothing',
        source: 'builder',
        cures: [],
        advice: ['state burnLPerH at full load: lift, pot, pump and vent are held against it'],
      },
    ];
  const pot = potS === null ? '' : `, the pot lasts ${potS.toFixed(0)} s with the lift in air`;
  const rail =
    railPa === null
      ? ''
      : `, ${lMin(returnM3S).toFixed(1)} L/min go back with the rail at ${(railPa / 1e5).toFixed(2)} bar`;
  return [
    {
      circuit,
      code: 'fuel-supply',
      level: 'note',
      text: `full load burns ${lMin(burnM3S).toFixed(1)} L/min: the lift brings ${(liftM3S / burnM3S).toFixed(2)} times that${pot}; the pressure pump ${(pressureM3S / burnM3S).toFixed(2)} times${rail}`,
      source: 'continuity',
      value: liftM3S / burnM3S,
      cures: [],
    },
  ];
}

/** The vent, which hangs on no case: what runs out when the car lies wrong, what it holds back. */
export function ventFindings(ready: ReadyCircuit, { answer }: FuelState): FlowFinding[] {
  const circuit = ready.drawn.circuit.id;
  const { vent } = answer;
  if (vent === null)
    return ready.drawn.vessels.some(({ vessel }) => vessel.kind === 'cell')
      ? [
          {
            circuit,
            code: 'no-fuel-vent',
            level: 'stop',
            text: 'the cell has no vent: no air comes in for what is burnt',
            source: 'common-practice',
            cures: [],
          },
        ]
      : [];
  return [...runsOutFindings(circuit, vent), ...ventNotes(circuit, vent)];
}

function runsOutFindings(circuit: string, vent: FuelVent): FlowFinding[] {
  const { line } = vent;
  const out: FlowFinding[] = [];
  const runsOut = vent.attitudes.filter(({ mouthCovered, highestOverMm }) => mouthCovered && highestOverMm <= 0);
  const worst = runsOut.toSorted((a, b) => a.highestOverMm - b.highestOverMm)[0];
  if (worst !== undefined)
    out.push({
      circuit,
      code: 'vent-under-fuel',
      level: 'stop',
      line,
      text: `fuel runs out of the vent ${line} with the car ${runsOut.map(({ words }) => words).join(', ')}: all of it lies under the fuel, ${(-worst.highestOverMm).toFixed(0)} mm at ${worst.words}`,
      source: 'geometry',
      value: worst.highestOverMm,
      unit: 'mm',
      place: worst.highestAtMm,
      cures: [],
    });
  return out;
}

function ventNotes(circuit: string, vent: FuelVent): FlowFinding[] {
  const { line } = vent;
  const out: FlowFinding[] = [];
  const covered = vent.attitudes.filter(({ mouthCovered, highestOverMm }) => mouthCovered && highestOverMm > 0);
  out.push({
    circuit,
    code: 'roll-over-valve',
    level: 'note',
    line,
    text: `the vent ${line} takes fuel in ${covered.length === 0 ? 'no way the car was laid' : `with the car ${covered.map(({ words, highestOverMm }) => `${words} (its loop ${highestOverMm.toFixed(0)} mm over the fuel)`).join(', ')}`}; a ball valve shuts only near upside down, and a filler or a crushed line lets out what a vent holds`,
    source: 'builders-reports',
    cures: [],
  });
  const kpa = vent.depressionPa / 1000;
  if (kpa > guides.ventDepression.value)
    out.push({
      circuit,
      code: 'vent-small',
      level: 'fix',
      line,
      text: `the vent ${line} holds the cell ${toldApart(kpa, guides.ventDepression.value, 1)} kPa below the air outside at full burn; ${guides.ventDepression.value} kPa is plenty`,
      source: guides.ventDepression.source,
      value: kpa,
      limit: guides.ventDepression.value,
      unit: 'kPa',
      cures: [],
    });
  return out;
}
