import type { Finding } from '#sources';
import type { FluidState } from './fluid-state.ts';
import type { ViscosityPoint } from './walther.ts';

/** Engine oil: by its grade, or better by measured points, of which one may be replaced by the viscosity index. */
export interface OilSpec {
  readonly kind: 'oil';
  /** SAE J300, as "10W-60" or "40"; points win over it. */
  readonly grade?: string;
  /** Kinematic viscosities from the can or the data sheet. */
  readonly points?: readonly ViscosityPoint[];
  /** With one point, at 100 C: gives that at 40 C. */
  readonly viscosityIndex?: number;
  readonly densityAt15KgM3?: number;
}

/** Water with ethylene glycol, by mass; `glycolMassFraction` turns a mix by volume into it. */
export interface GlycolSpec {
  readonly kind: 'glycol';
  readonly massFraction: number;
}

/** Plain water. */
export interface WaterSpec {
  readonly kind: 'water';
}

/** Petrol, ethanol or a blend of them; what the builder states wins. */
export interface FuelSpec {
  readonly kind: 'fuel';
  /** By volume [-]. */
  readonly ethanolFraction: number;
  readonly densityAt15KgM3?: number;
  /** Kinematic, at 20 C [mm2/s]. */
  readonly viscosityCSt?: number;
  /** Reid vapour pressure, at 37.8 C [kPa]. */
  readonly reidKpa?: number;
}

/** Dry air. */
export interface AirSpec {
  readonly kind: 'air';
}

/** A fluid as the builder knows it. */
export type FluidSpec = OilSpec | GlycolSpec | WaterSpec | FuelSpec | AirSpec;

/** A state, and where the fluid is known as a band only, its thinnest and its thickest. */
export interface KnownState {
  readonly state: FluidState;
  readonly spread?: { readonly least: FluidState; readonly most: FluidState };
  /** What the figures rest on and where they are stretched, each with its source. */
  readonly remarks: readonly Finding[];
}

/** What a fluid is, or what is wrong with the question: one line a fault, what stands there, what is allowed. */
export type FluidAnswer =
  | ({ readonly ok: true } & KnownState)
  | { readonly ok: false; readonly faults: readonly string[] };

/** Something worth knowing about an answer. */
export const remark = (code: string, text: string, source: Finding['source']): Finding => ({
  code,
  level: 'note',
  text,
  source,
});
