import type { Path } from './fault.ts';
import { placeOf, shortened } from './fault.ts';
import type { Json } from './json-text.ts';
import { viewOf } from './checks/car-view.ts';
import { checkLines } from './checks/lines.ts';
import { checkMovers } from './checks/movers.ts';
import { checkOrigins } from './checks/origins.ts';
import { checkParts } from './checks/ports.ts';
import { checkShelf } from './checks/shelf.ts';
import type { PlacedFault } from './schema-faults.ts';
import { schemaFaults } from './schema-faults.ts';
import { withoutOwnKeys } from './x-keys.ts';

const STANDS_LENGTH = 200;

/** Everything wrong with a filled car file: first what is malformed, then what the sound entries say of each other. */
export function carFaults(file: { [key: string]: Json }): PlacedFault[] {
  const bare = withoutOwnKeys(file) as { [key: string]: Json };
  const broken = schemaFaults(bare);
  const view = viewOf(bare, broken);
  const out = [...broken];
  const tell = (path: Path, stands: string, allowed: string) => {
    out.push({ path, place: placeOf(path), stands: stands.length > STANDS_LENGTH ? shortened(stands) : stands, allowed });
  };
  checkParts(view, tell);
  checkMovers(view, tell);
  checkLines(view, tell);
  checkOrigins(view, tell);
  if (!broken.some(({ path }) => path[0] === 'catalogue' || path[0] === 'box')) checkShelf(view.car, tell);
  return out;
}
