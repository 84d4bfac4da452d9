// The package's own entry for types names a file that it does not ship.
declare module 'clipper2-wasm' {
  import type { MainModule } from 'clipper2-wasm/dist/clipper2z';
  export default function clipper(): Promise<MainModule>;
}
