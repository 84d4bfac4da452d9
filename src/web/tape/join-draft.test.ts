import { describe, expect, it } from 'vitest';
import { applyEdit, type Car, checkCar } from '#car';
import { emptyEnd, emptyJoin, type EndDraftOf, type JoinDraft, joinEdits } from './join-draft.ts';
import { newId, newLineId } from './new-id.ts';

const empty: Car = { fairlead: 1, parts: [], movers: [], lines: [] };
const end = (part: string, far: readonly [string, string, string], size: string): EndDraftOf => {
  const bare = emptyEnd('forward');
  return { ...bare, part, port: { ...bare.port, place: { ...bare.port.place, far }, end: { type: 'orb', size } } };
};
const draft: JoinDraft = {
  ...emptyJoin,
  ends: [end('Oil tank', ['1690 mm', '23 5/8 in', '120 mm'], '16'), end('Pump', ['1 m 48', '-260 mm', '200 mm'], '16')],
  third: end('pump', ['1440 mm', '-210 mm', '260 mm'], '12'),
  duty: 'oil-suction',
};

function made(wish: JoinDraft, car = empty): Car {
  const joined = joinEdits(car, wish, 'mm');
  if (!joined.ok) throw new Error(joined.fault);
  return joined.edits.reduce((now, edit) => applyEdit(now, edit).car, car);
}

describe('ports and a line from the tape', () => {
  // hand: 23 5/8 in = 600.075 mm, to a tenth 600.1.
  it('three ports on two parts and a line, in one step, and the car is sound', () => {
    const car = made(draft);
    expect(checkCar(car)).toEqual([]);
    expect(car.parts.map(({ id, ports }) => [id, ...ports.map((port) => port.id)])).toEqual([
      ['oil-tank', 'out'],
      ['pump', 'in', 'port'],
    ]);
    expect(car.parts[0]!.ports[0]!.atMm).toEqual([1690, 600.1, 120]);
    expect(car.lines[0]).toMatchObject({
      id: 'O1',
      from: 'oil-tank.out',
      to: 'pump.in',
      dash: 16,
      duty: 'oil-suction',
    });
  });

  it('what it takes, one undo takes back', () => {
    const joined = joinEdits(empty, draft, 'mm');
    if (!joined.ok) throw new Error(joined.fault);
    const { car, inverse } = applyEdit(empty, joined.edits[0]!);
    expect(joined.edits).toHaveLength(1);
    expect(applyEdit(car, inverse).car).toEqual(empty);
  });

  it('a port of the car is joined again, and a new one goes on a part that is there', () => {
    const first = made(draft);
    const second = made(
      {
        ...draft,
        ends: [{ ...emptyEnd('forward'), use: 'pump.port' }, end('OIL TANK', ['0', '0', '1 m'], '12')],
        third: null,
        duty: 'oil-pressure',
      },
      first,
    );
    expect(checkCar(second)).toEqual([]);
    expect(second.parts.map(({ ports }) => ports.length)).toEqual([2, 2]);
    expect(second.lines[1]).toMatchObject({ id: 'O2', from: 'pump.port', to: 'oil-tank.in', dash: 12 });
  });

  it('what is missing is said, with the end it is missing at', () => {
    const fault = (wish: JoinDraft): string => {
      const joined = joinEdits(empty, wish, null);
      return joined.ok ? 'none' : joined.fault;
    };
    expect(fault(emptyJoin)).toMatch(/^From: the part/);
    expect(fault({ ...draft, ends: [draft.ends[0], end('Pump', ['12', '0', '0'], '16')] })).toMatch(
      /^To: something about the port/,
    );
    const metric = (part: string): EndDraftOf => {
      const bare = end(part, ['0', '0', '0'], '');
      return { ...bare, port: { ...bare.port, end: { type: 'metric-washer', size: 'M14x1.5' } } };
    };
    expect(fault({ ...draft, ends: [metric('a'), metric('b')], third: null })).toMatch(/^The line: a size is wanted/);
  });
});

describe('ids', () => {
  it('are made of names and never stand twice', () => {
    expect(newId('Oil tank, 12 L', [], 'part')).toBe('oil-tank-12-l');
    expect(newId('Ölkühler', ['ölkühler'], 'part')).toBe('ölkühler-2');
    expect(newId('!!', ['part'], 'part')).toBe('part-2');
    expect([newLineId('water', ['C1']), newLineId('charge-air', []), newLineId('brake', [])]).toEqual([
      'C2',
      'A1',
      'B1',
    ]);
  });
});
