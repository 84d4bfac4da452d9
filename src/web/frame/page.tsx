import { useHotkeys } from '@mantine/hooks';
import { lazy, type ReactNode, Suspense, useEffect } from 'react';
import { followEvents, kept, openCar, redo, undo } from '../bench/bench.ts';
import { place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { SnagStrip } from '../snags/snag-strip.tsx';
import { StartPaper } from '../start/start-paper.tsx';
import { WhoAsked } from '../start/who-asked.tsx';
import { BrokenPart } from './broken-part.tsx';
import { PaperSheet } from './paper-sheet.tsx';
import { Said } from './said.tsx';
import { TopBar } from './top-bar.tsx';

// The library that draws in three dimensions is half of all the code: words and numbers are there before it.
const CarView = lazy(() => import('../car/car-view.tsx').then((file) => ({ default: file.CarView })));

export function Page(): ReactNode {
  const { car } = useSignal(place);
  const open = useSignal(kept);
  useEffect(followEvents, []);
  useEffect(() => {
    if (car !== null) void openCar(car);
  }, [car]);
  useHotkeys([
    ['mod+Z', () => void undo()],
    ['mod+shift+Z', () => void redo()],
    ['mod+Y', () => void redo()],
  ]);
  useEffect(() => {
    document.title = open === null || car === null ? 'Fairlead' : `${open.car.name ?? open.id} · Fairlead`;
  }, [open, car]);
  return (
    <>
      {car === null ? <StartPaper /> : <Desk />}
      <WhoAsked />
    </>
  );
}

function Desk(): ReactNode {
  const open = useSignal(kept);
  const { paper } = useSignal(place);
  return (
    <div className="desk" data-paper={paper.kind}>
      <TopBar />
      <Said />
      <section className="desk-car" aria-label="The car">
        {open === null ? (
          <p className="desk-wait soft">Fetching the car</p>
        ) : (
          <BrokenPart what="the picture of the car">
            <Suspense fallback={<p className="desk-wait soft">Drawing the car</p>}>
              <CarView />
            </Suspense>
          </BrokenPart>
        )}
      </section>
      <PaperSheet />
      <SnagStrip />
    </div>
  );
}
