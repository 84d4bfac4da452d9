import type { Role } from './drawing.ts';

/** A colour for each role, as `#rrggbb`. */
export type Palette = Readonly<Record<Role, string>>;

const light: Palette = {
  ink: '#22262b',
  soft: '#6b6a63',
  rule: '#d9d2c2',
  paper: '#f5f1e8',
  card: '#fffdf8',
  blue: '#23508f',
  stop: '#a3341f',
  fix: '#8a6100',
  steel: '#aeb4b8',
  tape: '#efe0ae',
  hot: '#a3341f',
  oil: '#8a6100',
  water: '#23508f',
  fuel: '#7a3d80',
  brake: '#2f6b4f',
  air: '#5c6d78',
};

const dark: Palette = {
  ink: '#ece7dc',
  soft: '#aaa598',
  rule: '#444b50',
  paper: '#1d2124',
  card: '#262b2f',
  blue: '#8fb7ea',
  stop: '#f08a6d',
  fix: '#e5b64d',
  steel: '#727b82',
  tape: '#4a4428',
  hot: '#f08a6d',
  oil: '#e5b64d',
  water: '#8fb7ea',
  fuel: '#cf9ad4',
  brake: '#86c7a6',
  air: '#a9b8c2',
};

/** Light and dark for the screen; white for paper, which has its own colour. */
export const palettes = {
  light,
  dark,
  paper: { ...light, paper: '#ffffff', card: '#ffffff', rule: '#cfc9bb' },
} as const satisfies Readonly<Record<string, Palette>>;
