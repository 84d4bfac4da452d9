import type { ThreeEvent } from '@react-three/fiber';
import { type ReactNode, useEffect, useMemo } from 'react';
import type { Car, Part, Shape } from '#car';
import { Box3, type BufferGeometry, EdgesGeometry, LineBasicMaterial, type Material, Vector3 } from 'three';
import { open, place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { OffGroup } from '../off/off-group.tsx';
import { marked } from '../off/strip-look.ts';
import { isPointed } from '../scan/pointed-by.ts';
import type { Colours } from './colours.ts';
import type { Materials } from './materials.ts';
import { drawAlong, letGo, takeHold } from './part-drag.ts';
import { useScanGeometry } from './scan-geometry.ts';
import { shapeGeometry } from './shape-geometry.ts';
import { held } from './view.ts';

interface Wish {
  readonly car: Car;
  readonly carId: string;
  readonly materials: Materials;
  readonly colours: Colours;
  /** Another material than that of its class, such as one by its temperature. */
  readonly painted?: (part: Part) => Material | undefined;
}

/** All parts: hot ones striped, moving ones striped wider, sheet metal to be seen through. */
export function PartSolids({ car, carId, materials, colours, painted }: Wish): ReactNode {
  const { paper } = useSignal(place);
  const hand = useSignal(held);
  const stands = useSignal(marked);
  const edge = useMemo(
    () => new LineBasicMaterial({ color: colours.ink, transparent: true, opacity: 0.75 }),
    [colours],
  );
  edge.clippingPlanes = materials.fixed.clippingPlanes;
  return car.parts.map((part) => (
    <OffGroup key={part.id} id={part.id}>
      <group position={hand?.part === part.id ? [...hand.byMm] : [0, 0, 0]}>
        {part.shapes.map((shape, i) => (
          <Solid
            // A shape has no name of its own; its place in the list is what edits go by. Another scan in its place begins anew.
            key={`${carId} ${part.id} ${i} ${shape.mesh?.file ?? ''}`}
            part={part}
            shape={shape}
            carId={carId}
            materials={materials}
            paint={painted?.(part)}
            edge={edge}
            isChosen={paper.kind === 'part' && paper.id === part.id}
            isMarked={stands.has(part.id)}
            isHeld={hand?.part === part.id}
          />
        ))}
      </group>
    </OffGroup>
  ));
}

interface SolidWish {
  readonly part: Part;
  readonly shape: Shape;
  readonly carId: string;
  readonly materials: Materials;
  readonly paint: Material | undefined;
  readonly edge: LineBasicMaterial;
  readonly isChosen: boolean;
  /** It stands out, and is seen through what stands before it. */
  readonly isMarked: boolean;
  readonly isHeld: boolean;
}

/** Faces that meet at less than this are one face [deg]. */
const CREASE_DEG = 32;

function Solid({ part, shape, carId, materials, paint, edge, isChosen, isMarked, isHeld }: SolidWish): ReactNode {
  const mesh = useScanGeometry(carId, shape);
  const geometry = useMemo(() => shapeGeometry(shape, mesh), [shape, mesh]);
  const isSheet = geometry !== null && shape.mesh === undefined && isThin(geometry);
  const edges = useMemo(
    () => (geometry === null || shape.mesh !== undefined ? null : new EdgesGeometry(geometry, CREASE_DEG)),
    [geometry, shape],
  );
  useEffect(
    () => () => {
      geometry?.dispose();
      edges?.dispose();
    },
    [geometry, edges],
  );
  if (geometry === null) return null;
  const isOut = isChosen || isHeld || isMarked;
  const material = isOut ? materials.chosen : isSheet ? materials.sheet : (paint ?? materials[part.class]);
  const isRound = shape.cylinder !== undefined || shape.tube !== undefined || shape.mesh !== undefined;
  const choose = (event: ThreeEvent<MouseEvent>): void => {
    // What is seen through is also clicked through, as long as something lies behind it; and turning the car is no click.
    if (event.delta > MOST_CLICK_PX || (isSheet && event.intersections.length > 1)) return;
    if (isPointed(event, part.id)) return;
    event.stopPropagation();
    // What is painted by its temperature opens with its number.
    const { kind, id } = place.get().paper as { kind: string; id?: string };
    if (paint !== undefined && kind === 'cook') open({ kind, id: `${(id ?? 'all').split('..')[0]}..part..${part.id}` });
    else if (kind === 'off') open({ kind, id: `replace/${part.id}` });
    else open({ kind: 'part', id: part.id });
  };
  const drag = isHeld
    ? { onPointerDown: takeHold, onPointerMove: drawAlong, onPointerUp: letGo, onPointerCancel: letGo }
    : { onClick: choose };
  return (
    <>
      <mesh geometry={geometry} material={material} renderOrder={isSheet ? 2 : 0} {...drag} />
      {isRound && !isSheet ? (
        <mesh
          geometry={geometry}
          material={
            isOut ? materials.inkChosen : part.class === 'hot' && paint === undefined ? materials.inkHot : materials.ink
          }
          raycast={untouched}
        />
      ) : null}
      {edges === null ? null : <lineSegments geometry={edges} material={edge} raycast={untouched} />}
      {isMarked ? <mesh geometry={geometry} material={materials.through} raycast={untouched} renderOrder={5} /> : null}
    </>
  );
}

/** A pointer that moved more than this was turning the car [px]. */
const MOST_CLICK_PX = 5;
const untouched = (): void => undefined;

/** Thinner than this in one direction and larger than that in two others: sheet metal, which would hide what matters [mm]. */
const SHEET_THIN_MM = 30;
const SHEET_WIDE_MM = 400;

function isThin(geometry: BufferGeometry): boolean {
  geometry.computeBoundingBox();
  const size = (geometry.boundingBox ?? new Box3())
    .getSize(new Vector3())
    .toArray()
    .sort((a, b) => a - b);
  return size[0]! < SHEET_THIN_MM && size[1]! > SHEET_WIDE_MM;
}
