import { useEffect, useMemo } from 'react';
import { Plane, Vector3 } from 'three';
import { glance, kept, standing, wayShown } from '../bench/bench.ts';
import { useSignal } from '../bench/signal.ts';
import { centreline, pointAlong } from '../fit/way-length.ts';
import { gapsAt } from './gap-colours.ts';
import { nearCut, section } from './view.ts';

/** The plane of the cut, and from where it is looked at. */
export interface Cut {
  readonly plane: Plane;
  readonly at: Vector3;
  readonly towards: Vector3;
}

export function useCut(): Cut | null {
  const wanted = useSignal(section);
  const seen = useSignal(glance);
  const judged = useSignal(standing);
  const car = useSignal(kept)?.car ?? null;
  const found = useMemo(() => {
    if (wanted === null) return null;
    const way = seen?.line === wanted.line ? seen.way : wayShown(judged, wanted.line);
    const point = way === null ? null : pointAlong(centreline(way), wanted.alongMm);
    return way === null || point === null ? null : { way, ...point };
  }, [wanted, seen, judged]);
  useEffect(() => {
    nearCut.set(found === null || car === null ? [] : gapsAt(car, found.way, found.atMm));
  }, [found, car]);
  return useMemo(() => {
    if (found === null) return null;
    const [at, towards] = [new Vector3(...found.atMm), new Vector3(...found.towards)];
    return { plane: new Plane().setFromNormalAndCoplanarPoint(towards, at), at, towards };
  }, [found]);
}
