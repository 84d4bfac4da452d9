import { describe, expect, it } from 'vitest';
import { applyEdit, type Car, carFrom, checkCar } from '#car';
import { emptyPort, placeOfDraft, portDraft, portOfDraft } from './port-draft.ts';
import { removal } from './removal.ts';

const car = ((): Car => {
  const reading = carFrom({
    fairlead: 1,
    parts: [
      {
        id: 'tank',
        class: 'fixed',
        knownToMm: 3,
        shapes: [{ box: { minMm: [1000, -300, 0], maxMm: [1200, -100, 400] } }],
        ports: [{ id: 'out', atMm: [1000, -200, 40], faces: [-1, 0, 0], end: { type: 'orb', dash: 12 } }],
      },
      { id: 'cooler', class: 'fixed', shapes: [] },
    ],
  });
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.car;
})();

describe('a port that was taped from another thing', () => {
  const typed = {
    ...emptyPort('forward'),
    end: { type: 'orb', size: '-12' } as const,
    place: {
      from: 'part tank',
      sides: ['minus', 'plus', 'middle'],
      far: ['250 mm', '30 mm', ''],
      known: '4 mm',
      goesAlong: true,
    } as const,
  };
  const withPort = (): Car =>
    applyEdit(car, { do: 'add-port', part: 'cooler', port: portOfDraft(car, 'in', typed as never, 'mm')! }).car;

  it('remembers from what, and comes back as it was typed from there', () => {
    const now = withPort();
    const port = now.parts[1]!.ports[0]!;
    // Hand: 250 ahead of the front at 1000; 30 right of the right side at -100; level with the middle of 0 to 400.
    expect([port.follows, port.atMm]).toEqual(['tank', [750, -70, 200]]);
    const again = portDraft(now, port, port.knownToMm!);
    expect([again.place.from, again.place.goesAlong]).toEqual(['part tank', true]);
    const place = placeOfDraft(now, again.place, 'mm')!;
    expect(place.atMm).toEqual(port.atMm);
    // 3 mm of the tank and 4 mm of the tape are 5 mm; opened again it is no worse.
    expect([port.knownToMm, place.knownToMm]).toEqual([5, 5]);
  });

  it('goes along when that is moved, and is let go with words when that is taken off', () => {
    const now = withPort();
    const moved = applyEdit(now, { do: 'move-part', part: 'tank', byMm: [10, 0, -5] }).car;
    expect(moved.parts[1]!.ports[0]!.atMm).toEqual([760, -70, 195]);
    const off = removal(now, { kind: 'part', id: 'tank' });
    expect(off.hangs).toContain('port cooler.in stays where it is');
    const left = off.edits.reduce((one, edit) => applyEdit(one, edit).car, now);
    expect([checkCar(left), left.parts[0]!.ports[0]!.follows]).toEqual([[], undefined]);
  });

  it('does not where the builder says that it stays', () => {
    const stays = { ...typed, place: { ...typed.place, goesAlong: false } };
    expect(portOfDraft(car, 'in', stays as never, 'mm')!.follows).toBeUndefined();
  });
});
