import type { Panel } from '#car';
import { sheetRule } from '#standards';
import { mm, type PanelFinding, placeOf } from '../finding.ts';
import type { PanelSheet } from '../panel-sheet.ts';
import type { PanelSurface } from './panel-surface.ts';
import { SPLIT_LAP_MM } from './split-pieces.ts';
import type { CreaseChoice } from './surface-shape.ts';
import { reliefWords, springWords } from './twist-words.ts';

/** Share of a right angle that the stated outside may lean from the sheet before it says nothing [cosine]. */
const LEAST_SQUARE = 0.2;

/** What is wrong with the surface as measured: twisted, or its outside face left open. */
export function surfaceFindings(panel: Panel, surface: PanelSurface, sheet: PanelSheet): readonly PanelFinding[] {
  return [...outsideFindings(panel, surface), ...twistFindings(panel, surface, sheet)];
}

function outsideFindings(panel: Panel, { ring }: PanelSurface): PanelFinding[] {
  if (ring.guessed)
    return [
      {
        code: 'panel-outside-open',
        level: 'note',
        panel: panel.id,
        text: `${panel.id}: which face is outside is not stated; taken as the one that sees its corners counter-clockwise`,
        source: 'builder',
        cures: [`state "outside" for ${panel.id}: the way its outside face looks`],
      },
    ];
  if (ring.squareness >= LEAST_SQUARE) return [];
  return [
    {
      code: 'panel-outside-askew',
      level: 'stop',
      panel: panel.id,
      text: `${panel.id}: its stated outside looks along the sheet, so left and right of the drawing cannot be told`,
      value: Number(ring.squareness.toFixed(2)),
      limit: LEAST_SQUARE,
      unit: '-',
      source: 'geometry',
      cures: [
        `state the way out of the sheet: about ${ring.outside.map((c) => c.toFixed(2)).join(', ')} or its opposite`,
      ],
    },
  ];
}

function twistFindings(panel: Panel, surface: PanelSurface, sheet: PanelSheet): PanelFinding[] {
  const { shape } = surface;
  const limit = sheetRule('twist-lies-flat');
  if (panel.corners === undefined || surface.creases.length > 0 || shape.outMm <= limit.value) return [];
  const worst = surface.corners.find(({ id }) => id === shape.outAt)!;
  const lift = shape.liftMm === undefined ? '' : `; on a flat bench its fourth corner stands up ${mm(shape.liftMm)}`;
  const isSure = shape.outMm > worst.knownToMm;
  return [
    {
      code: 'panel-twisted',
      level: isSure ? 'stop' : 'fix',
      panel: panel.id,
      at: worst.id,
      text: `${panel.id}: its corners do not lie in one plane: ${worst.id} is ${mm(shape.outMm)} off${lift}${isSure ? '' : `; they are known to ${mm(worst.knownToMm)}, so measure again`}`,
      value: Number(shape.outMm.toFixed(1)),
      limit: limit.value,
      unit: 'mm',
      source: limit.source,
      place: placeOf(worst.at),
      cures: [
        ...shape.creases.flatMap((choice) => [
          ...creaseWords(choice),
          ...(choice === shape.creases[0] ? [reliefWords(choice, sheet)] : []),
        ]),
        ...springWords(panel, surface, sheet),
      ],
    },
  ];
}

/** The same sheet bent along a diagonal, or parted along it. */
const creaseWords = ({ from, to, turnDeg, lengthMm }: CreaseChoice): string[] => [
  `crease it from ${from} to ${to}: ${turnDeg.toFixed(1)} degrees along ${mm(lengthMm)}`,
  `split it from ${from} to ${to} with a lap of ${mm(SPLIT_LAP_MM)}: the lap stands ${mm(SPLIT_LAP_MM * Math.sin((turnDeg * Math.PI) / 180))} open at its free edge until the fixings close it`,
];
