import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useMemo, useState } from 'react';
import type { Shape } from '#car';
import { Box3, type BufferGeometry, MathUtils, type PerspectiveCamera } from 'three';
import { sayFault } from '../bench/bench.ts';
import { pictureLevel } from '../scan/picture-level.ts';
import { pointing } from '../scan/pointing.ts';
import { PICTURE_LEVELS, type ScanPicture, scanPicture } from '../scan/scan-picture.ts';
import { calls } from '../server/calls.ts';
import { scanBoxes, shapeBox } from './car-bounds.ts';
import { meshGeometry } from './shape-geometry.ts';
import { drawnScans } from './view.ts';

/** A level of a scan, ready to be drawn in the axes of its file. */
interface Level extends ScanPicture {
  readonly geometry: BufferGeometry;
}

const fetched = new Map<string, Promise<Level>>();

/** A level of a file is fetched once for all shapes made of it; how large a scan is is known when its first comes. */
function fetchedLevel(carId: string, file: string, level: number): Promise<Level> {
  const key = `${carId} ${file}`;
  const known = fetched.get(`${key} ${level}`);
  if (known !== undefined) return known;
  const coming = calls.mesh(carId, file, level).then((bytes): Level => {
    const picture = scanPicture(bytes);
    const geometry = meshGeometry(picture.mesh);
    geometry.computeBoundingBox();
    if (!scanBoxes.get().has(key)) scanBoxes.set(new Map(scanBoxes.get()).set(key, geometry.boundingBox ?? new Box3()));
    return { ...picture, geometry };
  });
  fetched.set(`${key} ${level}`, coming);
  coming.catch(() => fetched.delete(`${key} ${level}`));
  return coming;
}

/** What a pixel covers where a shape is nearest to the viewer [mm]; nothing once the viewer is in it. */
function mmPerPx(camera: PerspectiveCamera, heightPx: number, box: Box3): number {
  const away = box.distanceToPoint(camera.position);
  return (2 * away * Math.tan(MathUtils.degToRad(camera.fov / 2))) / Math.max(1, heightPx);
}

/**
 * The scan of a shape, as finely as can be seen from where the viewer stands: the lightest level first, a finer one when the viewer has come
 * so near that it would look another, and the light one again from afar. Null for a shape that is no scan and until it has come.
 */
export function useScanGeometry(carId: string, shape: Shape): BufferGeometry | null {
  const file = shape.mesh?.file;
  const [levels, setLevels] = useState<readonly (Level | undefined)[]>(NONE);
  const [wanted, setWanted] = useState(0);
  const invalidate = useThree((three) => three.invalidate);
  const box = useMemo(
    () => (levels === NONE ? null : shapeBox(shape, (name) => scanBoxes.get().get(`${carId} ${name}`))),
    [carId, shape, levels],
  );
  useFrame(({ camera, size }) => {
    if (box === null) return;
    const near = mmPerPx(camera as PerspectiveCamera, size.height, box);
    setWanted(
      // Whoever points at a hole wants all there is of it.
      pictureLevel(
        levels.map((level) => level?.errorMm),
        pointing.get() === null ? near : 0,
      ),
    );
  });
  useEffect(() => {
    if (file === undefined) return;
    let isWanted = true;
    fetchedLevel(carId, file, wanted).then(
      (level) => {
        if (!isWanted) return;
        setLevels((had) => had.with(wanted, level));
        invalidate();
      },
      (fault: unknown) => isWanted && sayFault(fault),
    );
    return () => {
      isWanted = false;
    };
  }, [carId, file, wanted, invalidate]);
  const shown = levels[wanted] ?? levels.findLast((level) => level !== undefined) ?? null;
  useEffect(() => {
    if (shown === null || file === undefined) return;
    const { ofTriangles, errorMm, mesh } = shown;
    const drawn = { ofTriangles, errorMm, triangles: mesh.indices.length / 3 };
    drawnScans.set(new Map(drawnScans.get()).set(`${carId} ${file}`, drawn));
  }, [carId, file, shown]);
  return shown?.geometry ?? null;
}

const NONE: readonly undefined[] = Array.from({ length: PICTURE_LEVELS }, () => undefined);
