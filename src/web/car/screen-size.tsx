import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import type { Materials } from './materials.ts';

/** Outlines are so many pixels wide: they have to know how many there are. */
export function ScreenSize({ materials }: { readonly materials: Materials }): null {
  const size = useThree((three) => three.size);
  const invalidate = useThree((three) => three.invalidate);
  useEffect(() => {
    for (const material of [materials.ink, materials.inkHot, materials.inkChosen])
      material.uniforms['screenPx']!.value.set(size.width, size.height);
    invalidate();
  }, [materials, size, invalidate]);
  return null;
}
