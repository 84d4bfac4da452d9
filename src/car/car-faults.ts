import { placeOf, shortened } from './fault.ts';
import type { Json } from './json-text.ts';
import type { Tell } from './checks/car-view.ts';
import { viewOf } from './checks/car-view.ts';
import { checkAccess } from './checks/access.ts';
import { checkCircuits } from './checks/circuits.ts';
import { checkHeat } from './checks/heat.ts';
import { checkLevers } from './checks/levers.ts';
import { checkLines } from './checks/lines.ts';
import { checkMovers } from './checks/movers.ts';
import { checkOrigins } from './checks/origins.ts';
import { checkPanels } from './checks/panels.ts';
import { checkParts } from './checks/ports.ts';
import { checkRules } from './checks/rules.ts';
import { checkShelf } from './checks/shelf.ts';
import type { PlacedFault } from './schema-faults.ts';
import { MOST_FAULTS, schemaFaults } from './schema-faults.ts';
import { withoutOwnKeys } from './x-keys.ts';

const STANDS_LENGTH = 200;
/** Which known name is nearest is worked out for the faults that are shown; in a large car each costs thousands of comparisons. */
const WORDED = 60;

/** Everything wrong with a filled car file: first what is malformed, then what the sound entries say of each other. */
export function carFaults(file: { [key: string]: Json }): PlacedFault[] {
  const bare = withoutOwnKeys(file) as { [key: string]: Json };
  const broken = schemaFaults(bare);
  // Past the limit the rest was not looked at, so nothing may be taken as sound.
  if (broken.length >= MOST_FAULTS) return broken;
  const view = viewOf(bare, broken);
  const out = [...broken];
  const tell: Tell = (path, stands, allowed) => {
    if (out.length >= MOST_FAULTS) return;
    const words =
      typeof allowed === 'string' ? allowed : out.length < WORDED ? allowed() : 'something that is in this car';
    out.push({
      path,
      place: placeOf(path),
      stands: stands.length > STANDS_LENGTH ? shortened(stands) : stands,
      allowed: words,
    });
  };
  checkParts(view, tell);
  checkMovers(view, tell);
  checkLines(view, tell);
  checkOrigins(view, tell);
  if (!broken.some(({ path }) => path[0] === 'panels' || path[0] === 'workshop')) checkAccess(view, tell);
  if (!broken.some(({ path }) => path[0] === 'catalogue' || path[0] === 'box')) checkShelf(view.car, tell);
  if (!broken.some(({ path }) => ['fluids', 'cases', 'circuits'].includes(String(path[0]))))
    checkCircuits(view.car, tell);
  if (!broken.some(({ path }) => path[0] === 'panels')) checkPanels(view.car, tell);
  if (!broken.some(({ path }) => path[0] === 'levers')) checkLevers(view, tell);
  if (!broken.some(({ path }) => ['rulePacks', 'runDays', 'parts'].includes(String(path[0]))))
    checkRules(view.car, tell);
  const isSound = (list: string) => !broken.some(({ path }) => path[0] === list);
  checkHeat(
    view,
    {
      cases: isSound('cases'),
      panels: isSound('panels'),
      bays: isSound('bays'),
      heatReadings: isSound('heatReadings'),
    },
    tell,
  );
  return out;
}
