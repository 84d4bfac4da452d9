import { type ReactNode, useEffect, useMemo } from 'react';
import type { ThreeEvent } from '@react-three/fiber';
import type { Car } from '#car';
import type { Way } from '#lines';
import { glance, kept, snagOf, standing } from '../bench/bench.ts';
import { open, place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { gapsTightestFirst } from '../fit/tightest.ts';
import type { Colours } from './colours.ts';
import { OffGroup } from '../off/off-group.tsx';
import { marked } from '../off/strip-look.ts';
import { takenOff } from '../off/taken-off.ts';
import { gapColours } from './gap-colours.ts';
import type { Materials } from './materials.ts';
import { type Sweep, sweptGeometry } from './swept.ts';
import { following, ghost, picked, section } from './view.ts';

interface Wish {
  readonly materials: Materials;
  readonly colours: Colours;
}

/** Every line with a way, as its bodies lie; the one that is open is coloured by how much room it has. */
export function LineTubes({ materials, colours }: Wish): ReactNode {
  const judged = useSignal(standing);
  const seen = useSignal(glance);
  const { paper } = useSignal(place);
  const car = useSignal(kept)?.car ?? null;
  const led = useSignal(following);
  const ofCircuit = useSignal(picked);
  const off = useSignal(takenOff);
  const stands = useSignal(marked);
  if (judged === null || car === null) return null;
  const chosen =
    paper.kind === 'flow'
      ? (ofCircuit ?? undefined)
      : paper.kind === 'line'
        ? paper.id
        : paper.kind === 'snag'
          ? snagOf(judged, paper.id)?.line
          : undefined;
  const bent = new Map(led.map((row) => [row.line, row.bodies]));
  return judged.lines.map((row) => {
    if (off.get(row.line) === 'off') return null;
    const ledBodies = bent.get(row.line);
    if (ledBodies !== undefined) return <LedLine key={row.line} bodies={ledBodies} materials={materials} />;
    const way = seen?.line === row.line ? seen.way : (row.way ?? (chosen === row.line ? row.tried : null));
    if (way === null || way.bodies.length === 0) return null;
    return chosen === row.line ? (
      <ChosenLine key={row.line} car={car} way={way} materials={materials} colours={colours} />
    ) : (
      <OffGroup key={row.line} id={row.line}>
        <PlainLine
          line={row.line}
          way={way}
          materials={materials}
          isFaint={chosen !== undefined}
          isMarked={stands.has(row.line)}
        />
      </OffGroup>
    );
  });
}

interface PlainWish {
  readonly line: string;
  readonly way: Way;
  readonly materials: Materials;
  readonly isFaint: boolean;
  /** It stands out, and is seen through what stands before it. */
  readonly isMarked: boolean;
}

/** A line that is not the one looked at; faint while another is. */
function PlainLine({ line, way, materials, isFaint, isMarked }: PlainWish): ReactNode {
  const geometry = useMemo(() => sweptGeometry(way.bodies), [way]);
  useEffect(() => () => geometry.dispose(), [geometry]);
  const choose = (event: ThreeEvent<MouseEvent>): void => {
    if (event.delta > 5) return;
    event.stopPropagation();
    if (place.get().paper.kind === 'flow') picked.set(line);
    else if (place.get().paper.kind === 'off') open({ kind: 'off', id: `replace/${line}` });
    else open({ kind: 'line', id: line });
  };
  return (
    <>
      <mesh
        geometry={geometry}
        material={isMarked ? materials.chosen : isFaint ? materials.faint : materials.hose}
        onClick={choose}
      />
      {isFaint ? null : (
        <mesh geometry={geometry} material={isMarked ? materials.inkChosen : materials.ink} raycast={untouched} />
      )}
      {isMarked ? <mesh geometry={geometry} material={materials.through} raycast={untouched} renderOrder={5} /> : null}
    </>
  );
}

/** A line that follows the part in the hand, bent over: a picture until it is worked out again. */
function LedLine({
  bodies,
  materials,
}: {
  readonly bodies: readonly Sweep[];
  readonly materials: Materials;
}): ReactNode {
  const geometry = useMemo(() => sweptGeometry(bodies), [bodies]);
  useEffect(() => () => geometry.dispose(), [geometry]);
  return <mesh geometry={geometry} material={materials.led} raycast={untouched} renderOrder={3} />;
}

const untouched = (): void => undefined;

interface ChosenWish {
  readonly car: Car;
  readonly way: Way;
  readonly materials: Materials;
  readonly colours: Colours;
}

function ChosenLine({ car, way, materials, colours }: ChosenWish): ReactNode {
  const isGhost = useSignal(ghost);
  const isCut = useSignal(section) !== null;
  const geometry = useMemo(() => sweptGeometry(way.bodies, 0, gapColours(car, way, colours)), [car, way, colours]);
  const fat = useMemo(() => {
    if (!isGhost) return null;
    const spread = Math.max(0, ...gapsTightestFirst(way).map((gap) => gap.gapMm - gap.worstMm));
    return sweptGeometry(way.bodies, spread);
  }, [isGhost, way]);
  useEffect(() => () => geometry.dispose(), [geometry]);
  useEffect(() => () => fat?.dispose(), [fat]);
  return (
    <>
      <mesh geometry={geometry} material={materials.byGap} />
      <mesh geometry={geometry} material={materials.inkChosen} raycast={untouched} />
      {fat === null ? null : <mesh geometry={fat} material={materials.ghost} raycast={untouched} renderOrder={4} />}
      {/* Seen faintly through what stands before it, so that a chosen line is never lost. */}
      {isCut ? null : <mesh geometry={geometry} material={materials.behind} raycast={untouched} renderOrder={5} />}
    </>
  );
}
