import { Canvas } from '@react-three/fiber';
import { type ReactNode, useMemo, useRef, useState } from 'react';
import type { KeptCar } from '#shelf';
import type { Box3 } from 'three';
import { kept } from '../bench/bench.ts';
import { place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { CameraRig } from './camera-rig.tsx';
import { table } from '../scan/pointing.ts';
import { painted } from '../cook/car-heat.ts';
import { HeatSolids } from '../cook/heat-solids.tsx';
import { CutSolids } from '../cut/cut-solids.tsx';
import { ScanOnTable } from '../scan/scan-on-table.tsx';
import { marks } from '../tape/drafts.ts';
import { PortMarks } from '../tape/port-marks.tsx';
import { boundsOf, scanBoxes } from './car-bounds.ts';
import { type Colours, useColours } from './colours.ts';
import { type Cut, useCut } from './cut.ts';
import { draws3d } from './draws-3d.ts';
import { LineTubes } from './line-tubes.tsx';
import { type Materials, useMaterials } from './materials.ts';
import { useLook } from './look.ts';
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
  const tags = useTags();
  const layer = useRef<HTMLDivElement>(null);
  const [ground, setGround] = useState<HTMLElement | null>(null);
  const drafts = useSignal(marks);
  const scan = useSignal(table);
  const boxes = useSignal(scanBoxes);
  const corners = useMemo(() => (now === null ? [] : cornersOf(now.car)), [now]);
  const bounds = useMemo(
    () =>
      now === null
        ? null
        : boundsOf(now.car.parts, [...drafts, ...corners], scan, (file) => boxes.get(`${now.id} ${file}`)),
    [now, drafts, corners, scan, boxes],
  );
  // A car that is nothing but scans is looked at anew as they come.
  const scansOnly = now?.car.parts.every((part) => part.shapes.every((shape) => shape.mesh !== undefined))
    ? boxes.size
    : 0;
  const look = useLook(
    drafts.length,
    `${scan?.file ?? ''} ${JSON.stringify(scan?.placed ?? null)} ${scansOnly} ${corners.length}`,
  );
  if (now === null || bounds === null) return null;
  return (
    <div className="car-view">
      <Stands />
      <div className="car-stage">
        {now.car.parts.length === 0 && corners.length === 0 && drafts.length === 0 && scan === null ? (
          <p className="desk-wait">An empty car. Its parts appear here.</p>
        ) : !draws3d() ? (
          <p className="desk-wait">This browser draws no 3D here; the lists beside it say the same in words.</p>
        ) : (
          <div className="car-picture" ref={setGround}>
            {ground === null ? null : (
              <Picture3D
                ground={ground}
                car={now}
                cut={cut}
                colours={colours}
                materials={materials}
                bounds={bounds}
                look={look}
              >
                <TagPlaces tags={tags} layer={layer} />
              </Picture3D>
            )}
          </div>
        )}
        <Tags tags={tags} layer={layer} />
      </div>
    </div>
  );
}

/** Where panels and levers are on a car that has no solid yet; beside solids they are in sight anyway. */
const cornersOf = ({ parts, panels = [], levers = [] }: KeptCar['car']) =>
  parts.some(({ shapes }) => shapes.length > 0)
    ? []
    : [
        ...panels.flatMap((panel) =>
          (panel.corners ?? panel.template?.matches ?? []).flatMap(({ atMm }) =>
            atMm === undefined ? [] : [{ atMm }],
          ),
        ),
        ...levers.map(({ pivotMm }) => ({ atMm: pivotMm })),
      ];

interface PictureWish {
  /**
   * What the pointer is watched on. An element and not a reference to one: leaving the car while the picture is still being set up would
   * find the reference empty.
   */
  readonly ground: HTMLElement;
  readonly car: KeptCar;
  readonly cut: Cut | null;
  readonly colours: Colours;
  readonly materials: Materials;
  readonly bounds: Box3;
  readonly look: number;
  readonly children: ReactNode;
}

function Picture3D({ ground, car, cut, colours, materials, bounds, look, children }: PictureWish): ReactNode {
  const scan = useSignal(table);
  // In its own axes it has no place among the parts yet.
  const isScanAlone = scan !== null && scan.placed === null;
  return (
    <Canvas
      frameloop="demand"
      flat
      eventSource={ground}
      camera={{ fov: 32, near: 5, far: 60_000, up: [0, 0, 1] }}
      onCreated={({ gl }) => {
        gl.localClippingEnabled = true;
      }}
    >
      <hemisphereLight args={['#ffffff', '#8d8a80', 2.3]} position={[0, 0, 1]} />
      <directionalLight position={[-0.55, -0.7, 1]} intensity={1.25} />
      <ScreenSize materials={materials} />
      {isScanAlone ? null : (
        <>
          <CarSolids car={car} materials={materials} colours={colours} />
          <PortMarks car={car.car} colours={colours} />
        </>
      )}
      <ScanOnTable materials={materials} colours={colours} />
      <CameraRig bounds={bounds} cut={cut} look={look} />
      {children}
    </Canvas>
  );
}

/** The car as it is built, or painted by how hot everything gets. */
function CarSolids({ car, materials, colours }: Pick<PictureWish, 'car' | 'materials' | 'colours'>): ReactNode {
  const heat = useSignal(painted);
  const { paper } = useSignal(place);
  if (paper.kind === 'cook' && heat !== null)
    return <HeatSolids at={heat} car={car.car} carId={car.id} materials={materials} colours={colours} />;
  return (
    <>
      <PartSolids car={car.car} carId={car.id} materials={materials} colours={colours} />
      <CutSolids car={car.car} materials={materials} colours={colours} />
      <LineTubes materials={materials} colours={colours} />
    </>
  );
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
