import { useState } from 'react';

/**
 * How often the viewer was asked to step back and see all of it: once more with each thing that is measured in, and with each change of
 * what is looked at. What goes away moves nobody.
 */
export function useLook(things: number, what: string): number {
  const [seen, setSeen] = useState({ things, what, look: 0 });
  if (seen.things === things && seen.what === what) return seen.look;
  const look = things > seen.things || what !== seen.what ? seen.look + 1 : seen.look;
  setSeen({ things, what, look });
  return look;
}
