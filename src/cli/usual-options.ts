import type { Option } from './command.ts';

export const jsonOption: Option = { name: 'json', about: 'one JSON document on stdout, nothing else' };
export const colourOption: Option = { name: 'no-colour', about: 'no colour (also: NO_COLOR set, or no terminal)' };
export const inchesOption: Option = { name: 'inches', about: 'lengths in inches too, to the nearest 1/16' };
