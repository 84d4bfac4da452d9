import { type Level, levelMark, levelRole } from '../level-mark.ts';
import { ABOVE } from '../text-width.ts';
import { type Block, textBlocks } from './block.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** A sentence behind the shape of its level. */
export function levelBlocks(level: Level, text: string, frame: SheetFrame, space = frame.size * 0.25): Block[] {
  const size = frame.small;
  const role = level === 'stop' ? levelRole.stop : 'ink';
  const blocks = textBlocks(text, frame.inner, { size, role }, { indent: size * 1.2, space });
  return blocks.map((one, i) =>
    i > 0 ? one : { ...one, shapes: [levelMark(level, [0, size * ABOVE], size), ...one.shapes] },
  );
}
