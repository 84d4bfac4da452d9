import type { Option } from './command.ts';

export const jsonOption: Option = { name: 'json', about: 'one JSON document on stdout, nothing else' };
export const colourOption: Option = { name: 'no-colour', about: 'no colour (also: NO_COLOR set, or no terminal)' };
export const inchesOption: Option = {
  name: 'inches',
  about: 'inches, not mm: cut lengths to 1/16, gaps and places to what is known, hose by the foot. JSON stays in mm',
};
