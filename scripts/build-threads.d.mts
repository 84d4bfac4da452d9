export function oneFileOf(entry: string, into: string, name: string): Promise<void>;
export function buildThreads(): Promise<boolean>;
