import { describe, expect, it } from 'vitest';
import type { Car } from '#car';
import type { StandingCrew } from '#crew';
import { FlowDesk } from './flow-desk.ts';
import type { JobAtWork } from './jobs.ts';

const carWith = (oilC: number): Car =>
  ({
    fairlead: 1,
    parts: [],
    movers: [],
    lines: [],
    circuits: [{ id: 'oil', kind: 'dry-sump', lines: [] }],
    cases: [
      { id: 'cold', engineRpm: 1500, oilC },
      { id: 'hot', engineRpm: 8000, oilC: 110 },
    ],
  }) as unknown as Car;

/** A crew that notes what it is asked, and answers with the case's id. */
function crewOf(asked: string[]): StandingCrew {
  const work = (task: string, { caseId }: { caseId?: string }) => {
    asked.push(task === 'flow' ? `${task} ${caseId}` : task);
    const states = [{ case: { id: caseId } }];
    const answer =
      task === 'flow'
        ? { circuits: [{ circuit: 'oil', states, findings: [] }] }
        : {
            whole: { circuits: [{ circuit: 'oil', states: [], findings: [{ code: 'ratio', text: 'ratio' }] }] },
            views: { sweeps: [], tanks: [] },
          };
    return { answer: Promise.resolve(answer), stop: () => asked.push('stopped') };
  };
  return { work } as unknown as StandingCrew;
}

interface Heard {
  readonly at: JobAtWork;
  readonly told: number[];
  readonly early: number[];
}

function atWork(isWanted = true): Heard {
  const told: number[] = [];
  const early: number[] = [];
  const at: JobAtWork = {
    told: (done) => (told.push(done), isWanted),
    early: (answer) =>
      early.push((answer as { flow: { circuits: { states: unknown[] }[] } }).flow.circuits[0]!.states.length),
    onStop: () => {},
  };
  return { at, told, early };
}

const deskOf = (asked: string[]) =>
  new FlowDesk(crewOf(asked), (_, car) => Promise.resolve({ key: JSON.stringify(car), car, meshes: [] }));

describe('the flow of cars on the shelf', () => {
  it('works the open case out first, tells of each, and gives cases in the order of the car', async () => {
    const asked: string[] = [];
    const { at, told, early } = atWork();
    const answer = await deskOf(asked).ofCar('car', carWith(0), 'hot', at);
    expect(asked).toEqual(['flow hot', 'flowBeside', 'flow cold']);
    expect(told).toEqual([0, 2, 3]);
    expect(early).toEqual([1, 1, 2]);
    expect(answer!.flow.circuits[0]!.states.map(({ case: at }) => at.id)).toEqual(['cold', 'hot']);
    expect(answer!.flow.circuits[0]!.findings).toEqual([{ code: 'ratio', text: 'ratio' }]);
    expect(answer!.views).toEqual({ sweeps: [], tanks: [] });
  });

  it('asks nothing twice; after a change of one case only that one and what is drawn of all', async () => {
    const asked: string[] = [];
    const desk = deskOf(asked);
    await desk.ofCar('car', carWith(0), undefined, atWork().at);
    asked.length = 0;
    await desk.ofCar('car', carWith(0), 'hot', atWork().at);
    expect(asked).toEqual([]);
    await desk.ofCar('car', carWith(20), undefined, atWork().at);
    expect(asked).toEqual(['flow cold', 'flowBeside']);
  });

  it('ends where nobody waits any more', async () => {
    const asked: string[] = [];
    expect(await deskOf(asked).ofCar('car', carWith(0), undefined, atWork(false).at)).toBeNull();
    expect(asked).toEqual([]);
  });

  describe('asked about in passing', () => {
    const shared = (car: Car) => ({ key: JSON.stringify(car), car, meshes: [] });
    const comesIn = (desk: FlowDesk): Promise<string> => new Promise((told) => desk.listen(told));

    it('is begun and not waited for; it tells when it has come in, and is then known', async () => {
      const asked: string[] = [];
      const desk = deskOf(asked);
      const told = comesIn(desk);
      expect(desk.inPassing('fellside', shared(carWith(0)))).toEqual({ state: 'waiting', answer: null });
      expect(desk.inPassing('fellside', shared(carWith(0))).state).toBe('waiting');
      expect(await told).toBe('fellside');
      expect(asked).toEqual(['flow cold', 'flowBeside', 'flow hot']);
      const now = desk.inPassing('fellside', shared(carWith(0)));
      expect([now.state, now.answer?.circuits[0]?.states.length]).toEqual(['known', 2]);
    });

    it('gives what was there before a change while the changed car is worked out', async () => {
      const desk = deskOf([]);
      let told = comesIn(desk);
      desk.inPassing('fellside', shared(carWith(0)));
      await told;
      const before = desk.inPassing('fellside', shared(carWith(0))).answer;
      told = comesIn(desk);
      expect(desk.inPassing('fellside', shared(carWith(20)))).toEqual({ state: 'waiting', answer: before });
      await told;
      expect(desk.inPassing('fellside', shared(carWith(20))).state).toBe('known');
    });

    it('drops a car that has changed again before it was through', async () => {
      const asked: string[] = [];
      const desk = deskOf(asked);
      const told = comesIn(desk);
      desk.inPassing('fellside', shared(carWith(0)));
      desk.inPassing('fellside', shared(carWith(20)));
      await told;
      expect(asked.filter((task) => task === 'flow hot')).toHaveLength(1);
      expect(desk.inPassing('fellside', shared(carWith(20))).state).toBe('known');
    });

    it('shares what a page asks at the same time; a page that is left does not take it away', async () => {
      const asked: string[] = [];
      const desk = deskOf(asked);
      const told = comesIn(desk);
      desk.inPassing('fellside', shared(carWith(0)));
      const stops: (() => void)[] = [];
      const page = desk.ofCar('fellside', carWith(0), 'cold', { ...atWork().at, onStop: (stop) => stops.push(stop) });
      await Promise.resolve();
      for (const stop of stops) stop();
      await Promise.all([told, page]);
      expect(asked).toEqual(['flow cold', 'flowBeside', 'flow hot']);
    });

    it('has nothing to say of a car in which nothing flows', () => {
      const still = { ...carWith(0), circuits: [{ id: 'brake', kind: 'other', lines: [] }] } as unknown as Car;
      expect(deskOf([]).inPassing('fellside', shared(still))).toEqual({ state: 'none', answer: null });
    });
  });
});
