/** An edit that does not fit the car it is applied to: what it names is not there. */
export class CarEditError extends Error {
  readonly at: readonly string[];
  constructor(at: readonly string[], reason: string) {
    super(`car: ${at.join('/') || 'car'}: ${reason}; allowed: an edit of what is in the car`);
    this.name = 'CarEditError';
    this.at = at;
  }
}
