import type { Lever } from '#car';
import type { LeverFinding } from './lever-finding.ts';

export type About = Partial<
  Pick<LeverFinding, 'link' | 'part' | 'value' | 'limit' | 'unit' | 'place' | 'cures' | 'inputs'>
>;

export type Say = (
  level: LeverFinding['level'],
  code: string,
  text: string,
  source: LeverFinding['source'],
  about?: About,
) => LeverFinding;

/** A finding about one lever; its name stands before the sentence. */
export const sayOf =
  (lever: Pick<Lever, 'id' | 'name'>): Say =>
  (level, code, text, source, about = {}) => ({
    lever: lever.id,
    code,
    level,
    text: `${lever.name ?? lever.id}: ${text}`,
    source,
    cures: [],
    ...about,
  });
