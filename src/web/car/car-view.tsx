import { Canvas } from '@react-three/fiber';
import { type ReactNode, useMemo, useRef } from 'react';
import { kept } from '../bench/bench.ts';
import { place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { CameraRig } from './camera-rig.tsx';
import { boundsOf } from './car-bounds.ts';
import { useColours } from './colours.ts';
import { useCut } from './cut.ts';
import { LineTubes } from './line-tubes.tsx';
import { useMaterials } from './materials.ts';
import { PartSolids } from './part-solids.tsx';
import { ScreenSize } from './screen-size.tsx';
import { TagPlaces, Tags } from './tags.tsx';
import { useTags } from './tag-list.ts';
import { section, stand, type Stand } from './view.ts';
import './car.css';

const stands: readonly (readonly [Stand, string])[] = [
  ['walk round', 'Walk round'],
  ['side', 'Side'],
  ['top', 'Top'],
];

/** The car in three dimensions: the map. Everything on it is also a row of a list. */
export function CarView(): ReactNode {
  const now = useSignal(kept);
  const cut = useCut();
  const colours = useColours();
  const materials = useMaterials(colours, cut?.plane ?? null);
  const { tags, layer, shownTags } = useTagLayer();
  const bounds = useMemo(() => (now === null ? null : boundsOf(now.car.parts)), [now]);
  if (now === null || bounds === null) return null;
  return (
    <div className="car-view">
      <Stands />
      <div className="car-stage">
        {now.car.parts.length === 0 ? (
          <p className="desk-wait">An empty car. Its parts appear here.</p>
        ) : (
          <Canvas
            frameloop="demand"
            flat
            camera={{ fov: 32, near: 5, far: 60_000, up: [0, 0, 1] }}
            gl={{ antialias: true, localClippingEnabled: true } as object}
            onCreated={({ gl }) => {
              gl.localClippingEnabled = true;
            }}
            fallback={<p className="desk-wait">This browser draws no 3D here; the lists beside it say the same.</p>}
          >
            <hemisphereLight args={['#ffffff', '#8d8a80', 2.3]} position={[0, 0, 1]} />
            <directionalLight position={[-0.55, -0.7, 1]} intensity={1.25} />
            <ScreenSize materials={materials} />
            <PartSolids car={now.car} carId={now.id} materials={materials} colours={colours} />
            <LineTubes materials={materials} colours={colours} />
            <CameraRig bounds={bounds} cut={cut} />
            <TagPlaces tags={tags} layer={layer} />
          </Canvas>
        )}
        <Tags tags={shownTags} layer={layer} />
      </div>
    </div>
  );
}

function useTagLayer() {
  const tags = useTags();
  const layer = useRef<HTMLDivElement>(null);
  return { tags, layer, shownTags: tags };
}

function Stands(): ReactNode {
  const now = useSignal(stand);
  const { paper } = useSignal(place);
  return (
    <div className="keys stands" role="group" aria-label="Look at the car from" data-paper={paper.kind}>
      {stands.map(([key, words]) => (
        <Key
          key={key}
          aria-pressed={now.stand === key}
          onClick={() => {
            section.set(null);
            stand.set({ stand: key });
          }}
        >
          {words}
        </Key>
      ))}
      <span className="small soft stands-how">
        Drag turns, two fingers shift, wheel or pinch comes nearer; arrow keys, + and − when the car has focus
      </span>
    </div>
  );
}
