import { useMemo } from 'react';
import { Plane, Vector3 } from 'three';
import { glance, standing, wayOf } from '../bench/bench.ts';
import { useSignal } from '../bench/signal.ts';
import { centreline, pointAlong } from '../fit/way-length.ts';
import { section } from './view.ts';

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
  return useMemo(() => {
    if (wanted === null) return null;
    const way = seen?.line === wanted.line ? seen.way : wayOf(judged, wanted.line);
    const found = way === null ? null : pointAlong(centreline(way), wanted.alongMm);
    if (found === null) return null;
    const [at, towards] = [new Vector3(...found.atMm), new Vector3(...found.towards)];
    return { plane: new Plane().setFromNormalAndCoplanarPoint(towards, at), at, towards };
  }, [wanted, seen, judged]);
}
