// What does the crew read at the bench: pictures as plain values, the same ones on screen and on paper.
export { clockFace } from './clock-face.ts';
export type { ClockedEnd, ClockWish } from './clock-face.ts';
export type { Anchor, Drawing, Hatch, Look, Pen, Role, Shape, Spot, Weight } from './drawing.ts';
export { gapRuler, gaugeWords, standing } from './gap-ruler.ts';
export type { Gauge, Sheet, Standing } from './gap-ruler.ts';
export { labelBoxes } from './label-boxes.ts';
export type { LabelBox } from './label-boxes.ts';
export { makeUpStrip } from './make-up-strip.ts';
export type { StripWish } from './strip-wish.ts';
export { palettes } from './palettes.ts';
export type { Palette } from './palettes.ts';
export { textWidth } from './text-width.ts';
