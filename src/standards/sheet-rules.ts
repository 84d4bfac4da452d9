import type { SourceId } from '#sources';

/** A rule of the sheet-metal trade as a number; every one a default that the builder may set aside with a reason. */
export interface SheetRuleRow {
  readonly id: string;
  readonly value: number;
  readonly unit: 'mm' | 'd' | 't' | 'deg' | 'K' | 'C';
  readonly text: string;
  readonly source: SourceId;
}

export const sheetRules = [
  { id: 'rivet-pitch-least', value: 3, unit: 'd', text: 'rivets no nearer than', source: 'navy-14018-rivets' },
  {
    id: 'rivet-pitch-usual-least',
    value: 4,
    unit: 'd',
    text: 'usual pitch of rivets from',
    source: 'navy-14018-rivets',
  },
  { id: 'rivet-pitch-usual-most', value: 8, unit: 'd', text: 'usual pitch of rivets to', source: 'navy-14018-rivets' },
  {
    id: 'edge-least',
    value: 2,
    unit: 'd',
    text: 'centre of a fixing to the edge at least',
    source: 'navy-14018-rivets',
  },
  { id: 'rivet-diameter', value: 3, unit: 't', text: 'rivet about so many thicknesses', source: 'navy-14018-rivets' },
  { id: 'rivet-length', value: 1.5, unit: 'd', text: 'rivet longer than its grip by', source: 'navy-14018-rivets' },
  {
    id: 'rivet-structural-least',
    value: 2.38,
    unit: 'mm',
    text: 'least rivet that carries load, 3/32 in',
    source: 'navy-14018-rivets',
  },
  {
    id: 'relief-thin',
    value: 3.18,
    unit: 'mm',
    text: 'relief hole up to 1.63 mm, 1/8 in',
    source: 'faa-airframe-sheet',
  },
  { id: 'relief-thick', value: 4.76, unit: 'mm', text: 'relief hole above, 3/16 in', source: 'faa-airframe-sheet' },
  { id: 'relief-thin-to', value: 1.63, unit: 'mm', text: 'thin up to, 0.064 in', source: 'faa-airframe-sheet' },
  {
    id: 'relief-behind',
    value: 0.8,
    unit: 'mm',
    text: 'relief hole reaches behind the tangent lines by, 1/32 in',
    source: 'faa-airframe-sheet',
  },
  {
    id: 'relief-radii',
    value: 2,
    unit: 'd',
    text: 'relief hole so many inside radii; the handbook prints both 1 and 2, the larger counts',
    source: 'faa-airframe-sheet',
  },
  {
    id: 'hole-to-bend',
    value: 2,
    unit: 't',
    text: 'rim of a hole to a bend: so much and R',
    source: 'common-practice',
  },
  { id: 'ligament-thicknesses', value: 2, unit: 't', text: 'least web between two holes', source: 'common-practice' },
  { id: 'ligament-least', value: 6, unit: 'mm', text: 'and not less than', source: 'common-practice' },
  { id: 'corner-radius-thicknesses', value: 3, unit: 't', text: 'inside corner of an opening', source: 'from-memory' },
  { id: 'corner-radius-least', value: 6, unit: 'mm', text: 'and not less than', source: 'from-memory' },
  {
    id: 'flange-beyond-bend',
    value: 2,
    unit: 't',
    text: 'flat of a flange beyond its bend at least, so that a brake holds it',
    source: 'common-practice',
  },
  {
    id: 'brake-nose',
    value: 40,
    unit: 'mm',
    text: 'how deep the nose of a small box-and-pan brake is behind the bend',
    source: 'common-practice',
  },
  {
    id: 'brake-high',
    value: 75,
    unit: 'mm',
    text: 'how high its fingers are, up to the beam',
    source: 'common-practice',
  },
  { id: 'brake-beam', value: 100, unit: 'mm', text: 'how deep the beam over them is', source: 'common-practice' },
  { id: 'brake-bed', value: 60, unit: 'mm', text: 'how deep its bed is behind the bend', source: 'common-practice' },
  { id: 'brake-finger', value: 25, unit: 'mm', text: 'its narrowest finger', source: 'common-practice' },
  { id: 'flat-span', value: 250, unit: 'mm', text: 'flat span of 1.2 mm alloy that drums', source: 'from-memory' },
  { id: 'flat-span-thickness', value: 208, unit: 't', text: 'the same as so many thicknesses', source: 'from-memory' },
  { id: 'twist-lies-flat', value: 1.5, unit: 'mm', text: 'twist that the fixings pull out', source: 'common-practice' },
  {
    id: 'relief-neck',
    value: 50,
    unit: 'mm',
    text: 'metal left at the end of a slit that takes up twist, to be bent by hand',
    source: 'common-practice',
  },
  { id: 'warmed-by', value: 60, unit: 'K', text: 'a panel of the bay gets warmer by', source: 'common-practice' },
  { id: 'hot-warmed-by', value: 150, unit: 'K', text: 'a panel marked hot gets warmer by', source: 'common-practice' },
  {
    id: 'hot-through-panel',
    value: 12,
    unit: 'mm',
    text: 'air round a hot pipe that goes through a panel, when all has moved and grown',
    source: 'common-practice',
  },
  { id: 'hot-pipe', value: 150, unit: 'C', text: 'a pipe counts as hot from', source: 'common-practice' },
  { id: 'stand-off-ring', value: 15, unit: 'mm', text: 'width of a stand-off ring', source: 'common-practice' },
  {
    id: 'grommet-wall',
    value: 3,
    unit: 'mm',
    text: 'wall of a grommet of which nothing is known',
    source: 'generic-dimensions',
  },
  {
    id: 'grommet-slant',
    value: 15,
    unit: 'deg',
    text: 'slant at which a grommet still closes round a line',
    source: 'common-practice',
  },
  {
    id: 'plain-slant',
    value: 60,
    unit: 'deg',
    text: 'slant from which a plain hole is a slot: twice as long as wide',
    source: 'common-practice',
  },
  {
    id: 'exit-beyond',
    value: 0.5,
    unit: 'd',
    text: 'how far the mouth of a hot pipe stands out of the panel that it leaves through, so that it does not blow back into its opening',
    source: 'common-practice',
  },
  {
    id: 'exit-clear',
    value: 5,
    unit: 'd',
    text: 'nothing stands before the mouth of a hot pipe within: so far the middle of a free round jet is as fast and hot as it left',
    source: 'from-memory',
  },
] as const satisfies readonly SheetRuleRow[];

export type SheetRuleId = (typeof sheetRules)[number]['id'];

/** The rule of this id. */
export function sheetRule(id: SheetRuleId): SheetRuleRow {
  const row = sheetRules.find((rule) => rule.id === id);
  if (row === undefined) throw new RangeError(`standards: no sheet rule "${String(id)}"`);
  return row;
}
