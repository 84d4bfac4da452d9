import { useFrame, useThree } from '@react-three/fiber';
import { type ReactNode, useEffect, useMemo, useRef } from 'react';
import type { Car } from '#car';
import type { Vec } from '#geometry';
import {
  CanvasTexture,
  type Color,
  DoubleSide,
  type Group,
  MeshBasicMaterial,
  Quaternion,
  SpriteMaterial,
  SRGBColorSpace,
  Vector2,
  Vector3,
} from 'three';
import { useSignal } from '../bench/signal.ts';
import type { Colours } from '../car/colours.ts';
import { marks } from './drafts.ts';

/** Size of what marks a port: a ring with an arrow the way it faces [mm]. */
const RING_MM = 24;
const ARROW_MM = 130;
const POINT_MM = 9;
/** How far the axes of the datum are drawn [mm]. */
const DATUM_MM = 220;

/** Ports of parts that have no shape yet, what is being measured in, and the datum of a car without any solid. */
export function PortMarks({ car, colours }: { readonly car: Car; readonly colours: Colours }): ReactNode {
  const drafts = useSignal(marks);
  const invalidate = useThree((three) => three.invalidate);
  useEffect(() => invalidate(), [drafts, invalidate]);
  const bare = car.parts.filter((part) => part.shapes.length === 0);
  const hasSolid = bare.length < car.parts.length;
  return (
    <>
      {hasSolid ? null : <Datum colours={colours} />}
      {bare.flatMap((part) =>
        part.ports.map((port, i) => (
          <Marked
            key={`${part.id}.${port.id}`}
            atMm={port.atMm}
            faces={port.faces}
            label={i === 0 ? (part.name ?? part.id) : (port.name ?? port.id)}
            colour={colours.ink}
            paper={colours.card}
          />
        )),
      )}
      {drafts.map((mark) => (
        <Marked
          key={`${mark.label} ${mark.atMm.join(' ')}`}
          atMm={mark.atMm}
          faces={mark.faces}
          label={mark.label}
          colour={colours.blue}
          paper={colours.card}
        />
      ))}
    </>
  );
}

function Datum({ colours }: { readonly colours: Colours }): ReactNode {
  const material = useMemo(() => new MeshBasicMaterial({ color: colours.soft }), [colours]);
  const arms = [
    [[1, 0, 0], 'rearward'],
    [[0, 1, 0], 'right'],
    [[0, 0, 1], 'up'],
  ] as const satisfies readonly (readonly [Vec, string])[];
  return (
    <>
      {arms.map(([way, label]) => (
        <group key={label}>
          <Arrow from={[0, 0, 0]} way={way} longMm={DATUM_MM} material={material} />
          <Label
            atMm={[way[0] * DATUM_MM * 1.25, way[1] * DATUM_MM * 1.25, way[2] * DATUM_MM * 1.25]}
            text={label}
            colour={colours.soft}
            paper={colours.paper}
          />
        </group>
      ))}
    </>
  );
}

interface MarkedWish {
  readonly atMm: Vec;
  readonly faces: Vec | null;
  readonly label: string;
  readonly colour: Color;
  readonly paper: Color;
}

/** A ring and an arrow the way it faces, or a ball, with its name. */
export function Marked({ atMm, faces, label, colour, paper }: MarkedWish): ReactNode {
  const material = useMemo(() => new MeshBasicMaterial({ color: colour, side: DoubleSide }), [colour]);
  const turn = useMemo(() => turnTo(faces ?? [0, 0, 1]), [faces]);
  return (
    <>
      <Steady atMm={atMm}>
        {faces === null ? (
          <mesh material={material} raycast={untouched}>
            <sphereGeometry args={[POINT_MM, 20, 12]} />
          </mesh>
        ) : (
          <>
            <mesh quaternion={turn} material={material} raycast={untouched}>
              <torusGeometry args={[RING_MM, 5, 10, 32]} />
            </mesh>
            <Arrow from={[0, 0, 0]} way={faces} longMm={ARROW_MM} material={material} />
          </>
        )}
      </Steady>
      <Label atMm={atMm} isRaised text={label} colour={colour} paper={paper} />
    </>
  );
}

const untouched = (): void => undefined;
/** From this far a mark has the size that it is drawn in; nearer it is smaller, so that it covers no more of the picture [mm]. */
const SIZE_FROM_MM = 3000;

function Steady({ atMm, children }: { readonly atMm: Vec; readonly children: ReactNode }): ReactNode {
  const group = useRef<Group>(null);
  const at = useMemo(() => new Vector3(), []);
  useFrame(({ camera }) => {
    if (group.current === null) return;
    group.current.getWorldPosition(at);
    group.current.scale.setScalar(Math.min(2, camera.position.distanceTo(at) / SIZE_FROM_MM));
  });
  return (
    <group ref={group} position={[...atMm]}>
      {children}
    </group>
  );
}

/** Turns what lies along Z to lie along a direction. */
const turnTo = (way: Vec): Quaternion =>
  new Quaternion().setFromUnitVectors(new Vector3(0, 0, 1), new Vector3(...way).normalize());

interface ArrowWish {
  readonly from: Vec;
  readonly way: Vec;
  readonly longMm: number;
  readonly material: MeshBasicMaterial;
}

function Arrow({ from, way, longMm, material }: ArrowWish): ReactNode {
  const turn = useMemo(
    () => new Quaternion().setFromUnitVectors(new Vector3(0, 1, 0), new Vector3(...way).normalize()),
    [way],
  );
  return (
    <group position={[...from]} quaternion={turn}>
      <mesh position={[0, longMm * 0.42, 0]} material={material} raycast={untouched}>
        <cylinderGeometry args={[4, 4, longMm * 0.84, 10]} />
      </mesh>
      <mesh position={[0, longMm * 0.9, 0]} material={material} raycast={untouched}>
        <coneGeometry args={[13, longMm * 0.24, 16]} />
      </mesh>
    </group>
  );
}

/** Height of the letters, as a share of the picture's height. */
const LETTER_SHARE = 0.034;

/** How far above its place a word stands, in its own heights. */
const RAISED = -1.1;

/** A word that always faces whoever looks, over everything. */
function Label({ atMm, text, colour, paper, isRaised = false }: LabelWish): ReactNode {
  const made = useMemo(() => labelMaterial(text, colour, paper), [text, colour, paper]);
  useEffect(
    () => () => {
      made.material.map?.dispose();
      made.material.dispose();
    },
    [made],
  );
  const middle = useMemo(() => new Vector2(0.5, isRaised ? RAISED : 0.5), [isRaised]);
  return (
    <sprite
      position={[...atMm]}
      center={middle}
      material={made.material}
      scale={[made.wide * LETTER_SHARE, LETTER_SHARE, 1]}
      renderOrder={9}
      raycast={untouched}
    />
  );
}

interface LabelWish {
  readonly atMm: Vec;
  readonly text: string;
  readonly colour: Color;
  readonly paper: Color;
  readonly isRaised?: boolean;
}

const LETTERS_PX = 44;

function labelMaterial(
  text: string,
  colour: Color,
  paper: Color,
): { readonly material: SpriteMaterial; readonly wide: number } {
  const canvas = document.createElement('canvas');
  const pen = canvas.getContext('2d')!;
  const font = `600 ${LETTERS_PX * 0.62}px 'Source Sans 3 Variable', sans-serif`;
  pen.font = font;
  canvas.width = Math.ceil(pen.measureText(text).width) + 20;
  canvas.height = LETTERS_PX;
  pen.font = font;
  pen.fillStyle = `#${paper.getHexString()}`;
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.fillStyle = `#${colour.getHexString()}`;
  pen.textBaseline = 'middle';
  pen.fillText(text, 10, canvas.height / 2 + 1);
  const map = new CanvasTexture(canvas);
  map.colorSpace = SRGBColorSpace;
  const material = new SpriteMaterial({ map, sizeAttenuation: false, depthTest: false, depthWrite: false });
  return { material, wide: canvas.width / canvas.height };
}
