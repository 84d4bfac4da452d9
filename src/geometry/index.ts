// What shapes there are in space, how far apart, and which curves run between them: no word of cars.
export { type EndPose, fixedPose, tailPose } from './end-pose.ts';
export { type Heading, type PlanarWay, planarWay, planarWayPoints, planarWays, type Word } from './dubins.ts';
export { planarSeeds } from './planar-seeds.ts';
export { type NearField, type Refined, refined, type RefineProblem, type SlackField } from './refine.ts';
export { box } from './box.ts';
export { capsule } from './capsule.ts';
export { cylinder } from './cylinder.ts';
export { type HoleAxis, holeAxis } from './hole-axis.ts';
export { GeometryError } from './geometry-error.ts';
export type { Hit, HittableSolid } from './hit.ts';
export { type MeshSolid, meshSolid, solidOfMesh, solidOfPrepared } from './mesh-solid.ts';
export { type MeshOptions, type PreparedMesh, preparedMesh } from './prepared-mesh.ts';
export {
  composed,
  inverseOf,
  motionAbout,
  movedDirection,
  movedPoint,
  placing,
  rotationFromDeg,
  shifted,
  still,
} from './motion.ts';
export { type RayItem, rayScene } from './ray-scene.ts';
export type { RayScene } from './ray-scene-layout.ts';
export { FROM_INSIDE, FROM_OUTSIDE, firstRayHit, RAY_HIT_WORDS, SHEET_BACK } from './ray-hit.kernel.ts';
export type { RigidMotion, Solid, SolidForm } from './solid.ts';
export { type CheckedMesh, triangleMesh, type TriangleMesh } from './triangle-mesh.ts';
export type { Body } from './body.ts';
export { bodyBodyGap, bodyField, pathsGap } from './body-body.ts';
export { type BodyGap, bodyGap, boundsApart } from './body-gap.ts';
export { bodyShape, type BodyShape } from './body-shape.ts';
export { LineObstacles, type NearLine } from './line-obstacles.ts';
export { type Bounds, distanceToBounds, grown, joined } from './bounds.ts';
export {
  type CellGrid,
  type CorridorWave,
  cellCentre,
  cellOf,
  corridorCosts,
  corridorFrom,
  corridorWave,
  isCorridor,
  isReached,
} from './corridor.kernel.ts';
export {
  add,
  addScaled,
  cross,
  distance,
  dot,
  lerp,
  norm,
  perpendicular,
  scale,
  sub,
  turned,
  unit,
  type Vec,
} from './vec.ts';
export { type RodHold, type RodProblem, type RodShape, rodShape } from './rod.ts';
export { rodShapes, type RodShapesOptions } from './rod-shapes.ts';
export { polylineLength, resampled } from './spread.ts';
export { arcPath, arcStep, subdivided } from './arc-path.ts';
export { denseCurve } from './dense-curve.ts';
export { carriedAlong, directionsAlong, endToEndDeg } from './path-frame.ts';
export { tightestBend } from './tightest-bend.ts';
export { type FreeCells, freeCells } from './free-cells.ts';
export { type FieldMemory, type GridSlackField, type SlackFieldOptions, slackField } from './slack-field.ts';
export type { SlackItem } from './slack-brick.kernel.ts';
export {
  type Outline,
  outlineArea,
  type OutlineCorner,
  outlineLength,
  outlinePoints,
  type Point2,
  reversedOutline,
  roundOutline,
  type SideArc,
  sideArc,
  straightOutline,
} from './outline/outline.ts';
export { movedOutline, mirroredOutline, scaledOutline } from './outline/moved-outline.ts';
export {
  type Box2,
  depthInOutline,
  distanceToOutline,
  isInOutline,
  outlineGap,
  readyOutline,
  type ReadyOutline,
  segmentGap,
} from './outline/near-outline.ts';
export { offsetOutline } from './outline/offset-outline.ts';
export { commonOutlines } from './outline/outlines-in-common.ts';
export { cornerReach, type RoundedOutline, roundedPolygon } from './outline/rounded-outline.ts';
export { outlineSides, type Side, sideCrossings, sideGap, sideHeading, sideLength, sidePoint } from './outline/side.ts';
export {
  CAMERA_TERM,
  CAMERA_TERMS,
  onPlane,
  type PictureSize,
  type PlaneCamera,
  planeCamera,
  seenAt,
} from './photo/plane-camera.kernel.ts';
export { firstCamera } from './photo/first-camera.ts';
export { cholesky, type Fit, leastSquares, solved } from './photo/least-squares.kernel.ts';
export { type FittedOutline, fittedOutline, type FitOutlineWish } from './outline/fit-outline.ts';
