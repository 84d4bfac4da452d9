import { type ThreeEvent, useThree } from '@react-three/fiber';
import { type ReactNode, useEffect, useMemo } from 'react';
import {
  BufferAttribute,
  BufferGeometry,
  EdgesGeometry,
  LineBasicMaterial,
  MathUtils,
  Quaternion,
  Vector3,
} from 'three';
import { mergeGeometries } from 'three/addons/utils/BufferGeometryUtils.js';
import type { Car, Lever } from '#car';
import { leverParts } from '#levers';
import { type PanelLayout, panelLayouts, panelSolid } from '#panels';
import { open, place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import type { Colours } from '../car/colours.ts';
import type { Materials } from '../car/materials.ts';
import { shapeGeometry } from '../car/shape-geometry.ts';
import { OffGroup } from '../off/off-group.tsx';
import { marked } from '../off/strip-look.ts';
import { useCarCut } from './car-cut.ts';
import { inHand } from './in-hand.ts';

interface Wish {
  readonly car: Car;
  readonly materials: Materials;
  readonly colours: Colours;
}

/** Panels folded up where they stand, seen through; levers with both ends of their swing where one is open. */
export function CutSolids({ car, materials, colours }: Wish): ReactNode {
  const { cut, isOld } = useCarCut();
  const held = useSignal(inHand);
  // By themselves at once, in the hand too; with what goes through them when the server has it.
  const kept = useMemo(() => (cut === null || isOld ? panelLayouts(car) : cut.panels), [cut, isOld, car]);
  const layouts = useMemo(
    () => (held === null ? kept : [...kept.filter(({ panel }) => panel.id !== held.panel), ...held.layouts]),
    [kept, held],
  );
  const { paper } = useSignal(place);
  const stands = useSignal(marked);
  const invalidate = useThree((three) => three.invalidate);
  useEffect(() => invalidate(), [layouts, paper, invalidate]);
  const edge = useMemo(() => new LineBasicMaterial({ color: colours.ink, transparent: true, opacity: 0.6 }), [colours]);
  edge.clippingPlanes = materials.fixed.clippingPlanes;
  const about = paper.kind === 'cut' ? paper.id.split('/') : [];
  const isOf = (kinds: readonly string[], id: string): boolean => kinds.includes(about[0] ?? '') && about[1] === id;
  return (
    <>
      {layouts.map((layout) => (
        <OffGroup key={`${layout.panel.id} ${layout.piece?.number ?? 0}`} id={layout.panel.id}>
          <PanelSolid
            layout={layout}
            materials={materials}
            edge={edge}
            isChosen={isOf(PANEL_PAPERS, layout.panel.id) || stands.has(layout.panel.id)}
          />
        </OffGroup>
      ))}
      <Levers car={car} materials={materials} isChosen={(id) => isOf(['lever', 'set'], id)} />
    </>
  );
}

/** Papers about one panel. */
const PANEL_PAPERS = ['panel', 'corners', 'template', 'edge', 'curve', 'window', 'hole', 'crease', 'load'];

/** A pointer that moved more than this was turning the car [px]. */
const MOST_CLICK_PX = 5;
/** Faces that meet at less than this are one face [deg]. */
const CREASE_DEG = 20;

/** All pieces as one, flat faces shaded flat. */
export function panelGeometry(layout: PanelLayout): BufferGeometry | null {
  const pieces = panelSolid(layout).map(({ positions, indices }) => {
    const made = new BufferGeometry();
    made.setAttribute('position', new BufferAttribute(Float32Array.from(positions), 3));
    made.setIndex(new BufferAttribute(Uint32Array.from(indices), 1));
    return made.toNonIndexed();
  });
  if (pieces.length === 0) return null;
  const made = mergeGeometries(pieces);
  made.computeVertexNormals();
  return made;
}

interface PanelWish {
  readonly layout: PanelLayout;
  readonly materials: Materials;
  readonly edge: LineBasicMaterial;
  readonly isChosen: boolean;
}

function PanelSolid({ layout, materials, edge, isChosen }: PanelWish): ReactNode {
  const geometry = useMemo(() => panelGeometry(layout), [layout]);
  const edges = useMemo(() => (geometry === null ? null : new EdgesGeometry(geometry, CREASE_DEG)), [geometry]);
  useEffect(
    () => () => {
      geometry?.dispose();
      edges?.dispose();
    },
    [geometry, edges],
  );
  if (geometry === null || edges === null) return null;
  const choose = (event: ThreeEvent<MouseEvent>): void => {
    // What is seen through is also clicked through, as long as something lies behind it.
    if (event.delta > MOST_CLICK_PX || event.intersections.length > 1) return;
    event.stopPropagation();
    open(
      place.get().paper.kind === 'off'
        ? { kind: 'off', id: `replace/${layout.panel.id}` }
        : { kind: 'cut', id: `panel/${layout.panel.id}` },
    );
  };
  return (
    <>
      <mesh geometry={geometry} material={isChosen ? materials.led : materials.sheet} onClick={choose} />
      <lineSegments geometry={edges} material={edge} raycast={untouched} />
    </>
  );
}

const untouched = (): void => undefined;

interface LeversWish {
  readonly car: Car;
  readonly materials: Materials;
  readonly isChosen: (id: string) => boolean;
}

function Levers({ car, materials, isChosen }: LeversWish): ReactNode {
  const { parts, cableParts } = useMemo(() => leverParts(car), [car]);
  const made = useMemo(
    () =>
      [...parts, ...cableParts].map((part) => ({
        part,
        geometry: mergeGeometries(part.shapes.flatMap((shape) => shapeGeometry(shape, null) ?? [])),
      })),
    [parts, cableParts],
  );
  useEffect(
    () => () => {
      for (const { geometry } of made) geometry.dispose();
    },
    [made],
  );
  return made.map(({ part, geometry }) => {
    const lever = car.levers?.find(({ id }) => id === part.id);
    const owner = lever?.id ?? car.levers?.find(({ id }) => part.id.startsWith(`${id}-`))?.id ?? '';
    const choose = (event: ThreeEvent<MouseEvent>): void => {
      if (event.delta > MOST_CLICK_PX) return;
      event.stopPropagation();
      open({ kind: 'cut', id: `lever/${owner}` });
    };
    const isOn = isChosen(owner);
    return (
      <group key={part.id}>
        <mesh
          geometry={geometry}
          material={isOn ? materials.chosen : lever === undefined ? materials.hose : materials.moving}
          onClick={choose}
        />
        <mesh geometry={geometry} material={isOn ? materials.inkChosen : materials.ink} raycast={untouched} />
        {isOn && lever !== undefined
          ? lever.turnDeg
              .filter((deg) => deg !== 0)
              .map((deg) => (
                <Swung key={deg} lever={lever} deg={deg}>
                  <mesh geometry={geometry} material={materials.led} raycast={untouched} />
                </Swung>
              ))
          : null}
      </group>
    );
  });
}

/** Turned about the lever's own axis. */
function Swung({
  lever,
  deg,
  children,
}: {
  readonly lever: Lever;
  readonly deg: number;
  readonly children: ReactNode;
}): ReactNode {
  const [x, y, z] = lever.pivotMm;
  const turn = useMemo(
    () => new Quaternion().setFromAxisAngle(new Vector3(...lever.axis).normalize(), MathUtils.degToRad(deg)),
    [lever, deg],
  );
  return (
    <group position={[x, y, z]} quaternion={turn}>
      <group position={[-x, -y, -z]}>{children}</group>
    </group>
  );
}
