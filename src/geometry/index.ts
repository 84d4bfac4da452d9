// What shapes there are in space, how far apart, and which curves run between them: no word of cars.
export { type EndPose, fixedPose, tailPose } from './end-pose.ts';
export { type Heading, type PlanarWay, planarWay, planarWayPoints, planarWays, type Word } from './dubins.ts';
export { planarSeeds } from './planar-seeds.ts';
export { type Refined, refined, type RefineProblem, type SlackField } from './refine.ts';
