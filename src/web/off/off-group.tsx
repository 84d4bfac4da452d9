import { useThree } from '@react-three/fiber';
import { type ReactNode, useEffect } from 'react';
import { useSignal } from '../bench/signal.ts';
import { takenOff } from './taken-off.ts';

/** A thing of the car where the strip-down that is looked at has brought it; out of sight once it is off. */
export function OffGroup({ id, children }: { readonly id: string; readonly children: ReactNode }): ReactNode {
  const now = useSignal(takenOff).get(id);
  const invalidate = useThree((three) => three.invalidate);
  useEffect(() => invalidate(), [now, invalidate]);
  if (now === undefined) return children;
  if (now === 'off') return null;
  const [x, y, z] = now.aboutMm;
  return (
    <group position={[...now.shiftMm]}>
      <group position={[x, y, z]} quaternion={now.turn}>
        <group position={[-x, -y, -z]}>{children}</group>
      </group>
    </group>
  );
}
