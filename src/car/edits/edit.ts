import type { Vec } from '#geometry';
import type {
  AcceptedSnag,
  BaySpace,
  BoxRow,
  Car,
  Case,
  Catalogue,
  Circuit,
  Fluid,
  HeatReading,
  KeepOff,
  Lever,
  Line,
  LineState,
  Mover,
  Origin,
  Panel,
  Part,
  Port,
  RulePack,
  RunDay,
  SheetStock,
  TakenWay,
  Workshop,
} from '../schema/car.ts';
import type { Change } from './change.ts';

/** One field of a thing set to a value, or taken away where no value is given. */
type SetField<Do extends string, Name extends string, Thing, Fixed extends keyof Thing> = {
  [Field in Exclude<keyof Thing, Fixed>]: { readonly do: Do } & Readonly<Record<Name, string>> & {
      readonly field: Field;
      readonly value?: Thing[Field];
    };
}[Exclude<keyof Thing, Fixed>];

/**
 * Everything a builder may do to a car. Plain JSON, so that it can be stored and sent. Ports are named "part.port". An absent
 * `index` puts an entry last.
 */
export type Edit =
  | { readonly do: 'set-name'; readonly name?: string }
  | SetField<'set-part', 'part', Part, 'id' | 'ports'>
  | SetField<'set-port', 'port', Port, 'id'>
  | SetField<'set-line', 'line', Line, 'id'>
  | SetField<'set-mover', 'mover', Mover, 'id'>
  | SetField<'set-origin', 'origin', Origin, 'id'>
  | SetField<'set-case', 'case', Case, 'id'>
  | SetField<'set-circuit', 'circuit', Circuit, 'id'>
  | SetField<'set-panel', 'panel', Panel, 'id'>
  | SetField<'set-lever', 'lever', Lever, 'id'>
  | SetField<'set-bay', 'bay', BaySpace, 'id'>
  | SetField<'set-heat-reading', 'reading', HeatReading, 'id'>
  | { readonly do: 'set-keep-off'; readonly class: keyof KeepOff; readonly keepOffMm?: number }
  | { readonly do: 'add-part'; readonly part: Part; readonly index?: number }
  | { readonly do: 'remove-part'; readonly part: string }
  | { readonly do: 'add-port'; readonly part: string; readonly port: Port; readonly index?: number }
  | { readonly do: 'remove-port'; readonly port: string }
  | { readonly do: 'add-line'; readonly line: Line; readonly index?: number }
  | { readonly do: 'remove-line'; readonly line: string }
  | { readonly do: 'add-mover'; readonly mover: Mover; readonly index?: number }
  | { readonly do: 'remove-mover'; readonly mover: string }
  | { readonly do: 'add-origin'; readonly origin: Origin; readonly index?: number }
  | { readonly do: 'remove-origin'; readonly origin: string }
  | { readonly do: 'add-case'; readonly case: Case; readonly index?: number }
  | { readonly do: 'remove-case'; readonly case: string }
  | { readonly do: 'add-circuit'; readonly circuit: Circuit; readonly index?: number }
  | { readonly do: 'remove-circuit'; readonly circuit: string }
  | { readonly do: 'set-fluids'; readonly rows?: readonly Fluid[] }
  | { readonly do: 'add-panel'; readonly panel: Panel; readonly index?: number }
  | { readonly do: 'remove-panel'; readonly panel: string }
  | { readonly do: 'add-lever'; readonly lever: Lever; readonly index?: number }
  | { readonly do: 'remove-lever'; readonly lever: string }
  | { readonly do: 'add-bay'; readonly bay: BaySpace; readonly index?: number }
  | { readonly do: 'remove-bay'; readonly bay: string }
  | { readonly do: 'add-heat-reading'; readonly reading: HeatReading; readonly index?: number }
  | { readonly do: 'remove-heat-reading'; readonly reading: string }
  | { readonly do: 'set-sheets'; readonly rows?: readonly SheetStock[] }
  | { readonly do: 'set-workshop'; readonly value?: Workshop }
  /** Turned about car X, then Y, then Z through a point (the car's origin if absent), then shifted. */
  | {
      readonly do: 'move-part';
      readonly part: string;
      readonly byMm: Vec;
      readonly turnDeg?: Vec;
      readonly aboutMm?: Vec;
    }
  /** The lines of two ports change places. A way taken on them no longer holds and is dropped; the state stays. */
  | { readonly do: 'swap-ports'; readonly a: string; readonly b: string }
  | { readonly do: 'set-state'; readonly line: string; readonly state: LineState }
  | { readonly do: 'take-way'; readonly line: string; readonly way?: TakenWay }
  | { readonly do: 'set-box'; readonly rows?: readonly BoxRow[] }
  | { readonly do: 'set-accepted'; readonly rows?: readonly AcceptedSnag[] }
  | { readonly do: 'set-rule-packs'; readonly rows?: readonly RulePack[] }
  | { readonly do: 'set-run-days'; readonly rows?: readonly RunDay[] }
  | { readonly do: 'set-catalogue'; readonly table: keyof Catalogue; readonly rows?: readonly object[] }
  | { readonly do: 'several'; readonly edits: readonly Edit[] }
  /** What an inverse is made of. */
  | { readonly do: 'restore'; readonly changes: readonly Change[] };

/** A car after an edit, and the edit that takes it back. */
export interface Edited {
  readonly car: Car;
  readonly inverse: Edit;
  /** What was touched, as paths such as `parts/#tank/name`. */
  readonly touched: readonly string[];
}
