import type { Catalogue } from '#standards';
import type { ReadyCircuit } from '../circuit/circuit-state.ts';
import type { FlowFinding } from '../finding.ts';
import type { DrySumpState } from './dry-sump-state.ts';

/** A finding whose cures are asked for, with the state that it was found in. */
export interface DrySumpAsk {
  readonly finding: FlowFinding;
  readonly state: DrySumpState;
  readonly ready: ReadyCircuit;
  readonly shelf: Catalogue;
}
