import type { Shape } from '../drawing.ts';
import { row } from '../text-block.ts';
import { textWidth } from '../text-width.ts';
import type { Block } from './block.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** A rule for each name, with one for the day behind it. */
export function signBlock(frame: SheetFrame, who: readonly string[]): Block {
  const { inner, size } = frame;
  const pitch = size * 2.8;
  const shapes = who.flatMap((words, i): Shape[] => {
    const y = pitch * (i + 1);
    const left = textWidth(words, size) + size * 0.5;
    const day = inner * 0.66;
    const pen = { role: 'soft', width: 0.2 } as const;
    return [
      row([0, y], words, { size }),
      { kind: 'line', from: [left, y], to: [day - size, y], pen },
      row([day, y], 'day', { size }),
      { kind: 'line', from: [day + size * 2.2, y], to: [inner, y], pen },
    ];
  });
  return { shapes, height: pitch * who.length + size * 0.3, space: size };
}
