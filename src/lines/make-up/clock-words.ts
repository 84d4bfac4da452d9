import type { Vec } from '#geometry';
import { type ClockFrame, clockDirection, wholeTurn } from './clock-frame.ts';

const hours = [
  'twelve',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
] as const;

/** A clock angle as an hour hand would show it, to the nearest half hour: "eleven o'clock", "half past nine". */
export function clockTime(deg: number): string {
  const halves = Math.round(wholeTurn(deg) / 15) % 24;
  const hour = hours[Math.floor(halves / 2)] ?? hours[0];
  return halves % 2 === 0 ? `${hour} o'clock` : `half past ${hour}`;
}

/** A part of the direction below this does not get a word: 22.5 degrees off the plane. */
const wordFrom = Math.sin(Math.PI / 8);

/** A unit direction in the car's words, the strongest first: "left, down". */
export function directionWords(direction: Vec): string {
  const parts = [
    { size: Math.abs(direction[0]), word: direction[0] < 0 ? 'forward' : 'rearward' },
    { size: Math.abs(direction[1]), word: direction[1] < 0 ? 'left' : 'right' },
    { size: Math.abs(direction[2]), word: direction[2] < 0 ? 'down' : 'up' },
  ];
  return parts
    .filter((p) => p.size >= wordFrom)
    .map((p) => ({ ...p, size: Math.round(p.size * 1000) }))
    .sort((a, b) => b.size - a.size)
    .map((p) => p.word)
    .join(', ');
}

/** Where a tail turned to this clock leans, in the car's own words and as a clock: "tail points left, down (half past nine)". */
export function clockWords(deg: number, frame: ClockFrame): string {
  const towards = directionWords(clockDirection(frame, (deg * Math.PI) / 180));
  return `tail points ${towards} (${clockTime(deg)})`;
}
