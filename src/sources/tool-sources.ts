import type { Source } from './source.ts';

/** Works that the room a tool and a hand take comes from: a part of the one bibliography. */
export const toolSources = [
  {
    id: 'iso-3318',
    title: 'ISO 3318, Open-ended, box and combination wrenches: greatest widths of heads',
    edition: '5th',
    year: 2016,
    known: 'from-memory',
  },
  {
    id: 'iso-2725-1',
    title: 'ISO 2725-1, Square drive sockets: outside diameters and lengths of hand sockets',
    known: 'from-memory',
  },
  {
    id: 'iso-2936',
    title: 'ISO 2936, Hexagon socket screw keys',
    edition: '6th',
    year: 2014,
    place: 'table 1',
    known: 'from-memory',
  },
  {
    id: 'navy-hand-tools',
    title: 'United States Navy, Aviation maintenance ratings: hand tools',
    place: 'wrenches: 15-degree open ends are turned over; a 12-point box swings 30 degrees',
    known: 'read',
  },
  {
    id: 'mil-std-1472',
    title: 'MIL-STD-1472, Human engineering: openings for hand and arm',
    known: 'from-memory',
  },
] as const satisfies readonly Source[];
