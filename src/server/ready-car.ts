import type { Car } from '#car';
import type { Way } from '#lines';
import type { KeptCar } from '#shelf';
import type { Desk } from './desk.ts';

/** A car ready to be put on a shelf, the demo car or one from a file: with its scans, and with the ways that a plan took, where one was made. */
export class ReadyCar {
  private readonly car: Car;
  private readonly scans: ReadonlyMap<string, Uint8Array>;
  private readonly refused: ReadonlyMap<string, Way>;

  /**
   * @param scans - by the name that the car gives them
   * @param refused - least bad ways of the lines that the plan refused
   */
  constructor(car: Car, scans: ReadonlyMap<string, Uint8Array>, refused: ReadonlyMap<string, Way> = new Map()) {
    this.car = car;
    this.scans = scans;
    this.refused = refused;
  }

  async putOn(desk: Desk, who: string, wantedId?: string): Promise<KeptCar> {
    const kept = await desk.shelf.addCar(this.car, who, wantedId);
    for (const [file, bytes] of this.scans) await desk.shelf.addScan(kept.id, file, bytes);
    await desk.noteTried(kept.id, this.refused, []);
    return kept;
  }
}
