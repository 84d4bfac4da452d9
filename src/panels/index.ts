// What do I cut? Flat patterns, windows, mirrors, templates.
export {
  type CutOut,
  type DrilledHole,
  type FlatPattern,
  type FoldLine,
  type Operation,
  OPERATIONS,
  type SlottedHole,
} from './flat-pattern.ts';
