import { useSnagLanguage } from '../snags/snag-words.tsx';

const CUT = { question: 'cut' } as const;

/** How sentences about panels and levers are said: in the units that the builder works in, as among the snags. */
export const useCutWords = (): ((sentence: string) => string) => useSnagLanguage(CUT).text;

/** What the two ways to say lengths, areas and masses are called. */
export const cutUnits = ['mm, cm², kg', 'inches, sq in, lb'] as const;
