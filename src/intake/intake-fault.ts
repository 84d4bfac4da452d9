/**
 * Why a file could not be read, as one line: where, what stands there, what is allowed.
 * Thrown by the readers and caught at this room's front door, which hands the line on as a value.
 */
export class IntakeFault extends Error {
  constructor(where: string, found: string, allowed: string) {
    super(`${where}: ${found}; allowed: ${allowed}`);
    this.name = 'IntakeFault';
  }
}
