/** Where the one file that a worker thread runs lies; its name tells one state of the source, and one checkout, from another. */
export function threadFile(): string;
/** The same; null where it was not made since the source changed. */
export function threadCode(): string | null;
