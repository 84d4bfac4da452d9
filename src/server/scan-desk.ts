import { type SharedCar, type StandingCrew } from '#crew';
import type { TriangleMesh } from '#geometry';
import { type MeshNotes, type MeshUnit, meshKindOf } from '#intake';
import { KeptPictures, packed } from './kept-pictures.ts';
import { RequestFault } from './request-fault.ts';

/** Scans kept as triangles, whatever cars they belong to. */
const MOST_KEPT = 24;

export interface ReadScan {
  readonly mesh: TriangleMesh;
  readonly notes: MeshNotes;
}

/** Mesh and CAD files as triangles: read once on a thread, kept by what is in them. */
export class ScanDesk {
  private readonly crew: StandingCrew;
  private readonly read = new Map<string, Promise<ReadScan>>();
  private readonly drawn = new Map<string, Promise<readonly Uint8Array[]>>();
  private readonly onDisk: KeptPictures;

  /** @param pictures - folder of the levels of pictures that are kept from run to run; null: none */
  constructor(crew: StandingCrew, pictures: string | null) {
    this.crew = crew;
    this.onDisk = new KeptPictures(pictures);
  }

  /** @param hash - of the bytes; the same bytes in the same unit are read once */
  scan(file: string, unit: MeshUnit, hash: string, bytes: () => Promise<Uint8Array>): Promise<ReadScan> {
    return this.kept(this.read, `${hash} ${unit}`, async () => {
      const kind = meshKindOf(file);
      if (kind === undefined)
        throw new RequestFault(415, `${file}: allowed is a name that ends in .stl, .ply, .obj, .glb, .step or .stp`);
      const reading = await this.crew.work('readMesh', { bytes: await bytes(), kind, unit }).answer;
      if (!reading.ok) throw new RequestFault(422, `${file}: ${reading.fault}`);
      return reading;
    });
  }

  /**
   * The mesh at each level of a picture, packed, the lightest first: worked out once for what is in the scan, and kept beside the shelf.
   *
   * @param hash - of the bytes
   * @param meshOf - asked for only where the levels are still to be worked out
   */
  pictures(hash: string, unit: MeshUnit, meshOf: () => Promise<TriangleMesh>): Promise<readonly Uint8Array[]> {
    const key = `${hash} ${unit}`;
    const make = async (): Promise<readonly Uint8Array[]> => {
      const mesh = await meshOf();
      const levels = await this.crew.work('pictureLevels', { mesh }).answer;
      return levels.map((level) => packed(level, mesh.indices.length / 3));
    };
    return this.kept(this.drawn, key, () => this.onDisk.levels(key, make));
  }

  private kept<T>(known: Map<string, Promise<T>>, key: string, make: () => Promise<T>): Promise<T> {
    const had = known.get(key);
    if (had !== undefined) return had;
    const made = make();
    known.set(key, made);
    // What could not be read is tried again when it is asked for again.
    made.catch(() => known.delete(key));
    for (const oldest of known.keys()) {
      if (known.size <= MOST_KEPT) break;
      known.delete(oldest);
    }
    return made;
  }
}

/** The meshes of a car as threads take them. */
export type SharedMeshes = SharedCar['meshes'];
