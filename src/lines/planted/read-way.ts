import type { WrittenBody } from './body-skin.ts';
import type { CarShape, Point } from './solid-distance.ts';

/** A car file as far as the checks read it. */
export interface ReadCar {
  readonly parts: readonly ReadPart[];
  readonly keepOffMm?: Partial<Record<'hot' | 'hotShielded' | 'moving' | 'fixed' | 'line', number>> | undefined;
}

export interface ReadPart {
  readonly id: string;
  readonly class: 'hot' | 'moving' | 'fixed';
  readonly shielded?: boolean | undefined;
  readonly keepOffMm?: number | undefined;
  readonly shapes: readonly CarShape[];
  readonly ports: readonly { readonly id: string; readonly atMm: Point; readonly faces: Point }[];
}

/** A way as far as the checks read it: `ways --json`. */
export interface ReadWay {
  readonly feasible: boolean;
  readonly ends: readonly ReadEnd[];
  readonly pieces: readonly ReadPiece[];
  readonly bodies: readonly WrittenBody[];
  readonly gaps: readonly {
    readonly part: string;
    readonly gapMm: number;
    readonly keepOffMm: number;
    readonly near: boolean;
  }[];
  readonly fails: readonly unknown[];
}

export interface ReadEnd {
  readonly port: string;
  readonly makeUp: readonly string[];
  readonly angleDeg: number;
  readonly clockDeg: number | null;
  readonly clockFrom?: string | undefined;
  readonly adapterClockDeg?: number | undefined;
}

export interface ReadPiece {
  readonly cutLengthMm: number;
  readonly odMm: number;
  readonly minBendRadiusMm: number;
  readonly tightestBendMm: number;
  readonly endToEndDeg: number | null;
}

/** Hose inside an end [mm], by the catalogue id of the end. */
export type Inserts = (id: string) => number;

export function portAt(car: ReadCar, ref: string): { readonly atMm: Point; readonly faces: Point } {
  const [part, port] = ref.split('.');
  return car.parts.find((row) => row.id === part)!.ports.find((row) => row.id === port)!;
}
