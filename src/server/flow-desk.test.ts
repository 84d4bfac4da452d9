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
});
