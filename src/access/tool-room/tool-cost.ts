import type { Bay } from '#bay';
import type { Line } from '#car';
import { type Body } from '#geometry';
import { bodiesOfWay, type ExtraCost, type Way } from '#lines';
import type { Catalogue } from '#standards';
import { nutsOfWay } from './nuts-of-way.ts';
import { Look, thingsOf } from './things.ts';
import { toolAt } from './tool-at.ts';
import { thingsFor, TOOL_REACH_MM } from './tool-room.ts';
import { toolsOf } from './workshop.ts';

/** A joint that no tool goes on is worth a detour of a hand, a tight one of a finger [mm of line]. Common practice, no source. */
const COST_MM = { no: 80, tight: 20, yes: 0 } as const;

/** A hand is taken to come everywhere: whether it does hangs on the bay, seldom on which of the ways is taken. */
const EVERYWHERE = { reaches: () => true };

/**
 * What spanner room costs a way of one line among the others, covers off: so much for each of its nuts that takes no tool, or only
 * just. Made once for a line, asked for each of its ways.
 *
 * @param others - bodies of every other line that stands
 */
export function toolCost(
  bay: Bay,
  shelf: Catalogue,
  line: Pick<Line, 'id' | 'from' | 'to'>,
  others: ReadonlyMap<string, readonly Body[]>,
): (way: Way) => ExtraCost {
  const tools = toolsOf(bay.car.workshop);
  const covers = new Set((bay.car.panels ?? []).filter(({ removable }) => removable === true).map(({ id }) => id));
  const around = thingsOf(bay, others).filter(({ id }) => !covers.has(id));
  const none: ReadonlySet<string> = new Set();
  return (way) => {
    const things = [...around, ...thingsOf({ ...bay, parts: [] }, new Map([[line.id, bodiesOfWay(way)]]))];
    const open = nutsOfWay(line, way, shelf).flatMap((nut) => {
      const { verdict } = toolAt(
        nut,
        Look.about(thingsFor(nut, things, none), nut.at, TOOL_REACH_MM),
        tools,
        EVERYWHERE,
      );
      return verdict === 'yes' ? [] : [{ nut, verdict }];
    });
    const costMm = open.reduce((sum, { verdict }) => sum + COST_MM[verdict], 0);
    const said = (of: 'no' | 'tight'): string =>
      open
        .filter(({ verdict }) => verdict === of)
        .map(({ nut }) => `${nut.role} at ${nut.port}`)
        .join(', ');
    const words = [
      ...(said('no') === '' ? [] : [`no tool on ${said('no')}`]),
      ...(said('tight') === '' ? [] : [`tight for a tool: ${said('tight')}`]),
    ].join('; ');
    return { costMm, words: words === '' ? '' : `${words} (${costMm} mm of line)` };
  };
}
