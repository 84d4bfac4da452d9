import { type ReactNode, useEffect, useState } from 'react';
import { TextInput } from '@mantine/core';
import type { ShelvedCar } from '#shelf';
import { say, sayFault, word } from '../bench/bench.ts';
import { goTo } from '../bench/place.ts';
import { dayAndTime, whoIsIt } from '../bench/who.ts';
import { Key } from '../frame/key.tsx';
import { Said } from '../frame/said.tsx';
import { calls, type NewCar } from '../server/calls.ts';
import { counted } from '../snags/counted.ts';
import './start.css';

type Wish =
  | { readonly from: 'demo' }
  | { readonly from: 'empty'; readonly name: string }
  | { readonly from: 'file'; readonly text: string };

const opened = (id: string): void => goTo({ car: id, paper: { kind: 'lines' } });

async function begin(wish: Wish): Promise<void> {
  const who = await whoIsIt();
  if (who === null) return;
  try {
    const made = await calls.addCar({ ...wish, who } as NewCar);
    if (wish.from === 'empty') goTo({ car: made.id, paper: { kind: 'tape', id: 'join' } });
    else opened(made.id);
  } catch (fault) {
    sayFault(fault);
  }
}

/** A car file is JSON text; anything else is a copy that was taken of a car, with its history and scans. */
async function fromFile(file: File): Promise<void> {
  const isText = file.name.toLowerCase().endsWith('.json');
  if (isText) return begin({ from: 'file', text: await file.text() });
  const who = await whoIsIt();
  if (who === null) return;
  try {
    opened((await calls.importCar(await file.arrayBuffer(), who)).id);
  } catch (fault) {
    sayFault(fault);
  }
}

/** Which car: one that is kept, the demo car, an empty one, or a file. */
export function StartPaper(): ReactNode {
  const [cars, setCars] = useState<readonly ShelvedCar[] | null>(null);
  useEffect(() => {
    word.set(null);
    calls.cars().then(setCars, sayFault);
  }, []);
  return (
    <main className="start">
      <header>
        <h1>Fairlead</h1>
        <p className="soft">
          Lines, flow, heat, panels, orders and strip-downs of a one-off car, worked out on one model of it.
        </p>
      </header>
      <Said />
      <section className="paper" aria-labelledby="kept-cars">
        <h2 id="kept-cars">Cars on the shelf</h2>
        {cars === null ? <p className="soft">Looking</p> : <Cars cars={cars.filter((car) => !car.isAway)} />}
      </section>
      <NewOne />
    </main>
  );
}

function Cars({ cars }: { readonly cars: readonly ShelvedCar[] }): ReactNode {
  if (cars.length === 0) return <p>None yet. Begin below.</p>;
  return (
    <ul className="start-cars">
      {cars.map((car) => (
        <li key={car.id}>
          <button type="button" className="key start-car" onClick={() => opened(car.id)}>
            <strong>{car.name}</strong>
            <span className="soft small">
              {`${counted(car.parts, 'part')}, ${counted(car.lines, 'line')}; last changed ${dayAndTime(car.changedAtMs)}`}
            </span>
          </button>
        </li>
      ))}
    </ul>
  );
}

function NewOne(): ReactNode {
  const [name, setName] = useState('');
  return (
    <section className="paper" aria-labelledby="new-car">
      <h2 id="new-car">Begin another</h2>
      <div className="start-ways">
        <div>
          <h3>Empty, with a tape in hand</h3>
          <form
            className="start-empty"
            onSubmit={(event) => {
              event.preventDefault();
              if (name.trim() === '') say('Give the car a name first');
              else void begin({ from: 'empty', name: name.trim() });
            }}
          >
            <TextInput label="Name of the car" value={name} onChange={(event) => setName(event.currentTarget.value)} />
            <Key type="submit">Begin empty</Key>
          </form>
        </div>
        <div>
          <h3>From a file</h3>
          <p className="soft small">A car file (.json), or a copy taken of a car before</p>
          <label className="key start-file">
            Pick a file
            <input
              type="file"
              onChange={(event) => {
                const file = event.currentTarget.files?.[0];
                if (file !== undefined) void fromFile(file);
                event.currentTarget.value = '';
              }}
            />
          </label>
        </div>
        <div>
          <h3>The demo car</h3>
          <p className="soft small">An invented hill-climb coupe with all its parts and lines</p>
          <Key onClick={() => void begin({ from: 'demo' })}>Open the demo car</Key>
        </div>
      </div>
    </section>
  );
}
