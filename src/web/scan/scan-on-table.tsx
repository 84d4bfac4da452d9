import { useThree } from '@react-three/fiber';
import { type ReactNode, useEffect, useMemo } from 'react';
import { useSignal } from '../bench/signal.ts';
import type { Colours } from '../car/colours.ts';
import type { Materials } from '../car/materials.ts';
import { meshGeometry, shapePlacing } from '../car/shape-geometry.ts';
import { Marked } from '../tape/port-marks.tsx';
import { isPointed } from './pointed-by.ts';
import { table } from './pointing.ts';

/** A scan before it is on the car, with the points that were taken on it. */
export function ScanOnTable({
  materials,
  colours,
}: {
  readonly materials: Materials;
  readonly colours: Colours;
}): ReactNode {
  const on = useSignal(table);
  const invalidate = useThree((three) => three.invalidate);
  const mesh = on?.mesh;
  const geometry = useMemo(() => (mesh === undefined ? null : meshGeometry(mesh)), [mesh]);
  useEffect(() => () => geometry?.dispose(), [geometry]);
  useEffect(() => invalidate(), [on, invalidate]);
  if (on === null || geometry === null) return null;
  const placed =
    on.placed === null ? null : shapePlacing({ turnDeg: [...on.placed.turnDeg], atMm: [...on.placed.atMm] });
  return (
    <group matrixAutoUpdate={false} {...(placed === null ? {} : { matrix: placed })} key={JSON.stringify(on.placed)}>
      <mesh
        geometry={geometry}
        material={on.placed === null ? materials.fixed : materials.chosen}
        onClick={(event) => void isPointed(event, null)}
      />
      {on.picks.map((pick) => (
        <Marked
          key={pick.label}
          atMm={pick.atMm}
          faces={null}
          label={pick.label}
          colour={colours.blue}
          paper={colours.card}
        />
      ))}
    </group>
  );
}
