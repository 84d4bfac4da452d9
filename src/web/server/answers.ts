import type { RegisteredFormula, Standing as JudgedCar } from '#answers';
import type { Clash } from '#car';
import type { Planned } from '#lines';
import type { KeptCar } from '#shelf';
import type { Snag } from '#snags';
import type { Order } from '#stock';

/** Questions whose answers are worked out behind. */
export type Behind = 'flow' | 'cook' | 'off';

export interface HowFar {
  readonly state: 'none' | 'waiting' | 'known' | 'fault';
  /** Of the car before its last change. */
  readonly isOld: boolean;
  readonly text?: string;
}

/** The taken ways judged on the car as it stands: nothing is planned for it. */
export interface Standing extends JudgedCar {
  readonly revision: number;
  /** How far that among the snags is which takes longer, by its question; absent in answers to what a change would do, which leave it out. */
  readonly behind?: Readonly<Record<Behind, HowFar>>;
}

export interface PlanAnswer {
  readonly planned: Planned;
  readonly snags: readonly Snag[];
  readonly order: Order;
  /** When it was worked out, if that was not now. */
  readonly keptAt?: string;
}

export interface WhatIfAnswer {
  readonly before: Standing;
  readonly after: Standing;
}

export interface Job<Answer> {
  readonly job: string;
  readonly kind: string;
  readonly state: 'waiting' | 'working' | 'done' | 'stopped' | 'fault';
  readonly done: number;
  readonly total: number;
  /** What it is at, or what it did not find at first. */
  readonly part?: string;
  readonly text?: string;
  readonly answer?: Answer;
}

export type Kept =
  | { readonly kind: 'kept'; readonly now: KeptCar }
  | { readonly kind: 'clash'; readonly now: KeptCar; readonly clashes: readonly Clash[]; readonly by: string }
  | { readonly kind: 'faults'; readonly now: KeptCar; readonly faults: readonly string[] };

/** A formula as the register lists it: everything but the way to work it, and its source in words. */
export type ListedFormula = Omit<RegisteredFormula, 'evaluate'> & { readonly sourceWords: string };
