type Given = Readonly<Record<string, number>>;

/** `workFormula` has checked that every input is there; a missing one would give NaN, which it refuses. */
export const of = (given: Given, name: string): number => given[name] ?? Number.NaN;
