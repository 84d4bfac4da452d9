/**
 * Why no outline is given, as one line: what stands in the way, how much, what would help. Thrown inside this folder and
 * handed on as a value at its door.
 */
export class PhotoFault extends Error {
  constructor(what: string, helps: string) {
    super(`photo: ${what}; what helps: ${helps}`);
    this.name = 'PhotoFault';
  }
}
