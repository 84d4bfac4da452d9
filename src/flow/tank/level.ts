import type { Vec } from '#geometry';
import { heightOfVolume, lookAlong, type Sighting, sightingOf, volumeBelow } from './mesh-level.kernel.ts';
import { mm3PerM3, type Tank } from './tank.ts';
import { needNumber, FlowError } from '../flow-error.ts';

/** What the car does, in g, as a driver would say it. Standing still is 0, 0, 1. */
export interface CarG {
  /** Above 0 speeding up, below 0 braking. */
  readonly longitudinalG: number;
  /** Above 0 turning to the right, below 0 to the left. */
  readonly lateralG: number;
  /** What the car stands on: 1 on the level, 0 in free fall, more in a dip. */
  readonly verticalG: number;
}

/** The free surface: points p with up . p = heightMm, in car axes. */
export interface FreeSurface {
  readonly kind: 'surface';
  /** Unit vector out of the oil. */
  readonly up: Vec;
  readonly heightMm: number;
  /** Of the surface inside the tank. */
  readonly areaM2: number;
  /** How hard the oil is pressed against it, in g. */
  readonly totalG: number;
}

/** No pull, no surface. */
export interface NoSurface {
  readonly kind: 'none';
  readonly why: string;
}

/** Below this pull a level means nothing [g]: a car shakes by more. */
const LEAST_PULL_G = 0.01;
const NO_SURFACE: NoSurface = {
  kind: 'none',
  why: 'no g acts on the oil: it has no surface, and lies anywhere in the tank',
};

/** The pull on the oil in car axes (X rearward, Y right, Z up) [g]: opposite to what the car does. */
export function pullOn({ longitudinalG, lateralG, verticalG }: CarG): Vec {
  needNumber('longitudinalG', longitudinalG, 'g');
  needNumber('lateralG', lateralG, 'g');
  needNumber('verticalG', verticalG, 'g');
  return [longitudinalG, -lateralG, -verticalG];
}

/**
 * The tank from which levels are read: look along a g once, then ask for as many fills as wanted.
 * The surface is one plane over the whole inside: pockets are taken as joined.
 */
export class Levels {
  readonly tank: Tank;
  private readonly sighting: Sighting;
  /** Unit vector out of the oil, as last looked along. */
  up: Vec = [0, 0, 1];
  private totalG = 1;
  private offsetMm = 0;

  constructor(tank: Tank) {
    this.tank = tank;
    this.sighting = sightingOf(tank.mesh);
  }

  /** False where there is no pull: then there is no surface to ask for. */
  look(g: CarG): boolean {
    const pull = pullOn(g);
    this.totalG = Math.hypot(...pull);
    if (this.totalG < LEAST_PULL_G) return false;
    this.lookAlong([-pull[0] / this.totalG, -pull[1] / this.totalG, -pull[2] / this.totalG]);
    return true;
  }

  /** As `look`, with the unit vector out of the oil given. */
  lookAlong(up: Vec): void {
    const { centre } = this.tank.mesh;
    this.up = up;
    lookAlong(this.sighting, ...up);
    this.offsetMm = up[0] * centre[0] + up[1] * centre[1] + up[2] * centre[2];
  }

  /** Height along `up` at which the volume below is `oilM3`. */
  heightMm(oilM3: number): number {
    checkFill(this.tank, oilM3);
    // To the last digit as a share of the whole, so that the full tank is full.
    const share = Math.min(1, oilM3 / this.tank.volumeM3);
    return this.offsetMm + heightOfVolume(this.sighting, share * this.tank.mesh.volumeMm3);
  }

  /** Volume below the plane at this height along `up`, and the area of the plane in the tank. */
  below(heightMm: number): { readonly volumeM3: number; readonly areaM2: number } {
    const { volumeMm3, areaMm2 } = volumeBelow(this.sighting, heightMm - this.offsetMm);
    return { volumeM3: clamped(volumeMm3 / mm3PerM3, this.tank.volumeM3), areaM2: areaMm2 / mm2PerM2 };
  }

  surface(oilM3: number): FreeSurface {
    const heightMm = this.heightMm(oilM3);
    return { kind: 'surface', up: this.up, heightMm, areaM2: this.below(heightMm).areaM2, totalG: this.totalG };
  }
}

const mm2PerM2 = 1e6;

/** Rounding may leave a hair below nothing or above the brim. */
const clamped = (value: number, most: number): number => Math.min(most, Math.max(0, value));

/** A fill above the brim by less than this share is rounding. */
const BRIM_SHARE = 1e-9;

/** @throws FlowError unless the fill is from 0 to what the tank holds */
export function checkFill(tank: Tank, oilM3: number): void {
  if (!(oilM3 >= 0 && oilM3 <= tank.volumeM3 * (1 + BRIM_SHARE)))
    throw new FlowError(`${tank.name} oilM3`, oilM3, `0 to the ${tank.volumeM3.toPrecision(4)} m3 that it holds`);
}

/** The free surface of a fill at a g, or why there is none. */
export function oilSurface(tank: Tank, g: CarG, oilM3: number): FreeSurface | NoSurface {
  checkFill(tank, oilM3);
  const levels = new Levels(tank);
  return levels.look(g) ? levels.surface(oilM3) : NO_SURFACE;
}

/** Volume below a plane of any normal: points with up . p <= heightMm. Exact for the mesh. */
export function volumeUnderPlane(tank: Tank, up: Vec, heightMm: number): { volumeM3: number; areaM2: number } {
  const size = Math.hypot(...up);
  if (!(size > 0 && Number.isFinite(size))) throw new FlowError('plane up', up.join(', '), 'a direction');
  const levels = new Levels(tank);
  levels.lookAlong([up[0] / size, up[1] / size, up[2] / size]);
  return levels.below(heightMm / size);
}
