import { useThree } from '@react-three/fiber';
import { useEffect, useRef } from 'react';
import { Box3, MathUtils, type PerspectiveCamera, Spherical, Vector3 } from 'three';
import { OrbitControls } from 'three/addons/controls/OrbitControls.js';
import { kept, snagOf, standing, wayShown } from '../bench/bench.ts';
import { place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { heatPlace } from '../cook/heat-place.ts';
import { centreline } from '../fit/way-length.ts';
import { panelLayouts } from '#panels';
import { panelGeometry } from '../cut/cut-solids.tsx';
import { seenFrom, stripLook } from '../off/strip-look.ts';
import { boundsOf, scanBoxes } from './car-bounds.ts';
import type { Cut } from './cut.ts';
import { isHolding, stand, type Stand } from './view.ts';

const towardsViewer: Readonly<Record<Stand, Vector3>> = {
  'walk round': new Vector3(-0.78, -1, 0.62).normalize(),
  side: new Vector3(0, -1, 0.001).normalize(),
  top: new Vector3(0.001, 0, 1).normalize(),
};

interface Wish {
  readonly bounds: Box3;
  readonly cut: Cut | null;
  /** Another number: all of it is to be seen. */
  readonly look: number;
}

/** Who looks at the car from where: by mouse, touch and keyboard, from the named stands, at what was chosen, or square onto a cut. */
export function CameraRig({ bounds, cut, look }: Wish): null {
  const camera = useThree((three) => three.camera) as PerspectiveCamera;
  const canvas = useThree((three) => three.gl.domElement);
  const invalidate = useThree((three) => three.invalidate);
  const size = useThree((three) => three.size);
  const controls = useRef<OrbitControls>(null);
  const from = useSignal(stand);

  useEffect(() => {
    camera.up.set(0, 0, 1);
    const made = new OrbitControls(camera, canvas);
    made.addEventListener('change', () => invalidate());
    made.minDistance = 60;
    made.maxDistance = 20_000;
    controls.current = made;
    canvas.tabIndex = 0;
    canvas.setAttribute('role', 'img');
    canvas.setAttribute(
      'aria-label',
      'The car in three dimensions. Arrow keys turn it, plus and minus come nearer. The lists beside it say the same in words.',
    );
    const press = (event: KeyboardEvent): void => {
      if (turnedByKey(made, camera, event.key)) event.preventDefault();
    };
    canvas.addEventListener('keydown', press);
    const stopWatching = isHolding.watch(() => {
      made.enabled = !isHolding.get();
    });
    return () => {
      canvas.removeEventListener('keydown', press);
      stopWatching();
      made.dispose();
    };
  }, [camera, canvas, invalidate]);

  const shape = size.width / Math.max(1, size.height);
  useEffect(() => {
    frame(camera, controls.current, cornersOf(bounds), towardsViewer[from.stand], shape);
    invalidate();
    // Only a new stand or another car moves the viewer back; a change of the car's size by a millimetre does not.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [from, camera, shape > 1.1, look]);

  useChosen(camera, controls, invalidate, shape);
  useStripLook(camera, controls, invalidate, shape);
  useCutView(camera, controls, invalidate, cut);
  return null;
}

/** Looks at points so that all of them are seen, a little from the edges. */
function frame(
  camera: PerspectiveCamera,
  controls: OrbitControls | null,
  points: readonly Vector3[],
  viewer: Vector3,
  shape: number,
): void {
  const at = new Box3().setFromPoints([...points]).getCenter(new Vector3());
  const right = new Vector3(0, 0, 1).cross(viewer).normalize();
  const up = viewer.clone().cross(right);
  const tall = Math.tan(MathUtils.degToRad(camera.fov / 2)) * FILL;
  const away = Math.max(
    ...points.map((point) => {
      const p = point.clone().sub(at);
      return p.dot(viewer) + Math.max(Math.abs(p.dot(up)) / tall, Math.abs(p.dot(right)) / (tall * shape));
    }),
  );
  camera.position.copy(at).addScaledVector(viewer, away);
  camera.up.set(0, 0, 1);
  if (controls === null) return;
  controls.target.copy(at);
  controls.update();
}

/** Corners of a cube round a place. */
const cubeRound = (at: Vector3, halfMm: number): readonly Vector3[] =>
  cornersOf(new Box3(at.clone().subScalar(halfMm), at.clone().addScalar(halfMm)));

function cornersOf({ min, max }: Box3): readonly Vector3[] {
  return [min.x, max.x].flatMap((x) => [min.y, max.y].flatMap((y) => [min.z, max.z].map((z) => new Vector3(x, y, z))));
}

/** Share of the picture's height and width that is filled. */
const FILL = 0.93;
const KEY_TURN = Math.PI / 24;
const KEY_NEARER = 0.88;

function turnedByKey(controls: OrbitControls, camera: PerspectiveCamera, key: string): boolean {
  const away = camera.position.clone().sub(controls.target);
  // The library's ball has its pole on Y; ours on Z.
  const ball = new Spherical().setFromVector3(new Vector3(away.x, away.z, -away.y));
  if (key === 'ArrowLeft') ball.theta -= KEY_TURN;
  else if (key === 'ArrowRight') ball.theta += KEY_TURN;
  else if (key === 'ArrowUp') ball.phi = Math.max(0.02, ball.phi - KEY_TURN);
  else if (key === 'ArrowDown') ball.phi = Math.min(Math.PI - 0.02, ball.phi + KEY_TURN);
  else if (key === '+' || key === '=') ball.radius *= KEY_NEARER;
  else if (key === '-') ball.radius /= KEY_NEARER;
  else return false;
  const turned = new Vector3().setFromSpherical(ball);
  camera.position.copy(controls.target).add(new Vector3(turned.x, -turned.z, turned.y));
  controls.update();
  return true;
}

/** Round a snag this much is looked at [mm]. */
const ROUND_SNAG_MM = 220;
/** What is kept free round a part and a line [mm]. */
const ROUND_PART_MM = 320;
const ROUND_LINE_MM = 170;

/** What is opened beside the car comes into view; the side from which one looks stays. */
function useChosen(
  camera: PerspectiveCamera,
  controls: React.RefObject<OrbitControls | null>,
  invalidate: () => void,
  shape: number,
): void {
  const { paper } = useSignal(place);
  const judged = useSignal(standing);
  // Where a line lies is known once it is judged; where a part stands is known at once, and a hand may be on it by then.
  const isJudged = paper.kind === 'part' || judged !== null;
  const chosen = 'id' in paper ? `${paper.kind} ${paper.id}` : '';
  useEffect(() => {
    if (controls.current === null || !('id' in paper)) return;
    const found = chosenPoints(paper.kind, paper.id);
    if (found.length === 0) return;
    const viewer = camera.position.clone().sub(controls.current.target).normalize();
    frame(camera, controls.current, found, viewer, shape);
    invalidate();
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [chosen, isJudged]);
}

/** What comes off comes into view, from a side on which it is seen to come out. */
function useStripLook(
  camera: PerspectiveCamera,
  controls: React.RefObject<OrbitControls | null>,
  invalidate: () => void,
  shape: number,
): void {
  const look = useSignal(stripLook);
  useEffect(() => {
    if (controls.current === null || look === null) return;
    const found = [look.target, ...look.comesOff].flatMap((id) => thingPoints(id, id === look.target));
    if (found.length === 0) return;
    const viewer = camera.position.clone().sub(controls.current.target).normalize();
    const side = look.out === null ? viewer : new Vector3(...seenFrom([viewer.x, viewer.y, viewer.z], look.out));
    frame(camera, controls.current, found, side, shape);
    invalidate();
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [look, shape > 1.1]);
}

/** Corners round a part, panel or line; a line that only has to make room would draw the viewer away from what matters. */
function thingPoints(id: string, isTarget: boolean): readonly Vector3[] {
  const car = kept.get()?.car;
  if (car === undefined) return [];
  if (car.parts.some((part) => part.id === id)) return chosenPoints('part', id);
  if (car.lines.some((line) => line.id === id)) return isTarget ? chosenPoints('line', id) : [];
  return panelLayouts(car)
    .filter(({ panel }) => panel.id === id)
    .flatMap((layout) => {
      const geometry = panelGeometry(layout);
      geometry?.computeBoundingBox();
      return geometry?.boundingBox ? cornersOf(geometry.boundingBox.expandByScalar(ROUND_LINE_MM)) : [];
    });
}

function chosenPoints(kind: string, id: string): readonly Vector3[] {
  if (kind === 'snag') {
    const at = snagOf(standing.get(), id)?.atMm;
    return at === undefined ? [] : cubeRound(new Vector3(...at), ROUND_SNAG_MM);
  }
  if (kind === 'part') {
    const car = kept.get()?.car;
    const part = car?.parts.find((candidate) => candidate.id === id);
    return car === undefined || part === undefined
      ? []
      : cornersOf(
          boundsOf([part], [], null, (file) => scanBoxes.get().get(`${kept.get()?.id} ${file}`)).expandByScalar(
            ROUND_PART_MM,
          ),
        );
  }
  if (kind === 'cook') return heatPoints(id);
  if (kind !== 'line') return [];
  const way = wayShown(standing.get(), id);
  return way === null ? [] : centreline(way).flatMap((p) => cubeRound(new Vector3(...p), ROUND_LINE_MM));
}

/** The line that is opened; else the bays, in which it gets hot. */
function heatPoints(address: string): readonly Vector3[] {
  const { about } = heatPlace(address);
  const way = about.kind === 'line' ? wayShown(standing.get(), about.id) : null;
  if (way !== null) return centreline(way).flatMap((p) => cubeRound(new Vector3(...p), ROUND_LINE_MM));
  return (kept.get()?.car.bays ?? []).flatMap(({ minMm, maxMm }) =>
    cornersOf(new Box3(new Vector3(...minMm), new Vector3(...maxMm))),
  );
}

/** From how far a cut is looked at [mm]. */
const CUT_FROM_MM = 430;

function useCutView(
  camera: PerspectiveCamera,
  controls: React.RefObject<OrbitControls | null>,
  invalidate: () => void,
  cut: Cut | null,
): void {
  useEffect(() => {
    if (cut === null || controls.current === null) {
      invalidate();
      return;
    }
    const { at, towards } = cut;
    const isUpright = Math.abs(towards.z) > 0.999;
    controls.current.target.copy(at);
    camera.position.copy(at).addScaledVector(towards, -CUT_FROM_MM);
    if (isUpright) camera.position.x -= 1;
    controls.current.update();
    invalidate();
  }, [cut, camera, controls, invalidate]);
}
