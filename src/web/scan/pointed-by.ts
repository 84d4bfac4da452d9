import type { ThreeEvent } from '@react-three/fiber';
import type { BufferGeometry, Mesh } from 'three';
import type { TriangleMesh, Vec } from '#geometry';
import { type Pointed, pointing } from './pointing.ts';

/** A pointer that moved more than this was turning the car [px]. */
const MOST_CLICK_PX = 5;

/** The surface as triangles, in the axes that it is drawn in. */
function trianglesOf(geometry: BufferGeometry): TriangleMesh {
  const positions = geometry.attributes['position']!.array as Float32Array;
  const { index } = geometry;
  const count = positions.length / 3;
  return {
    positions,
    indices: index === null ? Uint32Array.from({ length: count }, (_, i) => i) : Uint32Array.from(index.array),
  };
}

/** True where somebody waits for a place: the click is theirs. */
export function isPointed(event: ThreeEvent<MouseEvent>, part: string | null): boolean {
  const told = pointing.get();
  if (told === null) return false;
  if (event.delta > MOST_CLICK_PX || event.faceIndex === undefined || event.faceIndex === null) return true;
  event.stopPropagation();
  const object = event.object as Mesh;
  const at = object.worldToLocal(event.point.clone());
  const normal = event.face?.normal ?? at;
  const away = event.ray.direction;
  const pointed: Pointed = {
    part,
    atMm: at.toArray() as unknown as Vec,
    normal: normal.toArray() as unknown as Vec,
    towards: [-away.x, -away.y, -away.z],
    mesh: trianglesOf(object.geometry),
    triangle: event.faceIndex,
  };
  told(pointed);
  return true;
}
