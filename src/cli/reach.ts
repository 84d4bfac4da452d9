import { type NutRoom, toolFindings, type ToolNut, type ToolRoom, toolWords } from '#access';
import { toolRoomOf } from '#answers';
import { linesWorld } from '#lines';
import { accessSnag } from '#snags';
import { nearestName } from '#sources';
import { carOnFile, type CarOnFile } from './car-on-file.ts';
import { columns } from './columns.ts';
import type { Asked, Command } from './command.ts';
import { CommandFault } from './command-fault.ts';
import { exitCode } from './exit-code.ts';
import { lengthsIn, spannerSize } from '#units';
import { progress } from './progress.ts';
import { quoted } from './quoted.ts';
import { snagCount, snagRows } from './snag-rows.ts';
import { styleFor } from './style.ts';
import type { Terminal } from './terminal.ts';
import { colourOption, inchesOption, jsonOption } from './usual-options.ts';
import { wrapped } from './wrapped.ts';

export const reach: Command = {
  name: 'reach',
  about: 'does a tool go on, and a hand get there: every nut, screw and fixing with everything else in place',
  operands: [
    { name: 'CAR', about: 'the car file' },
    { name: 'WHAT', about: 'a line, part or panel; absent: all of them', isOptional: true },
  ],
  options: [jsonOption, inchesOption, colourOption],
  more: [
    'Lines count as they were taken; one without a way has no nuts yet. Panels are told by those of their fixings that are not plainly reached.',
    'Swing is free over needed; a cover that lifts off is taken to be off where it is named.',
  ],
  async run(asked, terminal) {
    const [file = '', what] = asked.operands;
    const onFile = await carOnFile(file);
    if (what !== undefined) checkWhat(onFile, what, file);
    const told = progress('nuts', terminal, true);
    const room = toolRoomOf(linesWorld(onFile.car, onFile.input.meshes), [], {
      ...(what === undefined ? {} : { only: (nut: ToolNut) => [nut.line, nut.part, nut.panel].includes(what) }),
      watch: (done, total) => {
        told.at(done, total);
        return true;
      },
    });
    told.end();
    terminal.out(
      asked.has('json') ? `${JSON.stringify({ nuts: room.nuts.map(written) })}\n` : text(onFile, room, asked, terminal),
    );
    return exitCode.done;
  },
};

function checkWhat({ car }: CarOnFile, what: string, file: string): void {
  const known = [...car.lines, ...car.parts, ...(car.panels ?? [])].map(({ id }) => id);
  if (known.includes(what)) return;
  const nearest = nearestName(what, known);
  throw new CommandFault([
    `${quoted(what)} is no line, part or panel of ${quoted(file).slice(1, -1)}${nearest === undefined ? '' : ` (nearest: ${nearest})`}`,
  ]);
}

/** One nut for whoever reads it outside: numbers with their unit. */
const written = ({ nut, verdict, tool, with: bar, freeDeg, needDeg, why, ...row }: NutRoom) => ({
  id: nut.id,
  role: nut.role,
  ...(nut.line === undefined ? {} : { line: nut.line }),
  ...(nut.port === undefined ? {} : { port: nut.port }),
  ...(nut.part === undefined ? {} : { part: nut.part }),
  ...(nut.fastener === undefined ? {} : { fastener: nut.fastener }),
  ...(nut.panel === undefined ? {} : { panel: nut.panel }),
  atMm: nut.at,
  acrossFlatsMm: nut.acrossFlatsMm,
  verdict,
  tool,
  ...(bar === undefined ? {} : { with: bar }),
  freeDeg: Math.round(freeDeg),
  needDeg,
  isHandThere: row.isHandThere,
  isInSight: row.isInSight,
  isMeasured: row.isMeasured,
  inTheWay: row.inTheWay,
  coversOff: row.coversOff,
  why,
});

/** Which of the tools and the hand are the builder's own, which are recalled. */
function measuredWords(nuts: readonly NutRoom[], isHandMeasured: boolean): string {
  const open = nuts.filter(({ isMeasured }) => !isMeasured).length;
  if (open === 0) return 'Tools and hand as they were measured.';
  const own = nuts.length - open;
  const which =
    own > 0
      ? `On ${open} of ${nuts.length} the tool is of a usual size`
      : isHandMeasured
        ? 'The hand was measured; tools are of usual sizes'
        : 'Tools and hand are usual sizes';
  return `${which}, recalled: enter those in your hand under "workshop" in the car file.`;
}

function text({ car }: CarOnFile, room: ToolRoom, asked: Asked, terminal: Terminal): string {
  const style = styleFor(asked, terminal);
  const lengths = lengthsIn(asked.has('inches'));
  const shown = room.nuts.filter(({ nut, verdict }) => nut.role !== 'panel fixing' || verdict !== 'yes');
  if (room.nuts.length === 0)
    return 'Nothing to put a tool on: no line has a way yet (`fairlead plan CAR --out FILE` keeps them), and no part its fasteners.\n';
  const table = columns([
    ['', 'hex', 'reach', 'swing', 'tool', 'seen', 'covers off'],
    ...shown.map((row) => [
      row.nut.id,
      row.nut.acrossFlatsMm > 0 ? spannerSize(row.nut.acrossFlatsMm) : '',
      row.verdict,
      row.needDeg > 0 ? `${row.freeDeg.toFixed(0)}/${row.needDeg}°` : '',
      lengths.text(toolWords(row)),
      row.isInSight ? 'yes' : 'no',
      row.coversOff.join(' '),
    ]),
  ]);
  const snags = toolFindings(room).map(accessSnag);
  const open = car.lines.filter(({ taken }) => taken === null || taken === undefined);
  const feet = [
    ...(open.length === 0 ? [] : [`No way taken yet: ${open.map(({ id }) => id).join(', ')}.`]),
    measuredWords(room.nuts, car.workshop?.hand?.measured === true),
  ].flatMap((words) => wrapped(words, Math.max(60, terminal.columns), ''));
  return `${[
    ...table,
    '',
    ...snags.flatMap((snag) => snagRows(snag, style, lengths, terminal.columns)),
    '',
    `${snagCount(snags)}.`,
    ...feet.map(style.soft),
  ].join('\n')}\n`;
}
