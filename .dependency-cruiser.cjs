// The order of the rooms, left to right. It stands here and in ARCHITECTURE.md's map; test/boundaries.test.ts holds the two together.
const core =
  'units sources standards geometry car panels levers bay lines flow heat access stock rules snags book answers'.split(
    ' ',
  );
const edges = 'intake paper crew shelf server cli web'.split(' ');
const rooms = [...core, ...edges];

/** What a core room may take from npm: libraries that ask for neither Node nor DOM (highs finds its own compiled code under either). */
const pureLibraries = ['zod', 'highs', 'ml-matrix', 'ml-levenberg-marquardt', 'pure-rand'];

const oneOf = (names) => `(${names.join('|')})`;
const inRoom = (room) => `^src/${room}/`;
const testFile = '[.]test[.]tsx?$';

/** Nothing from a room to the right. */
const leftward = rooms.slice(0, -1).map((room, place) => ({
  name: `leftward-only-${room}`,
  comment: `${room} imports only rooms to its left`,
  severity: 'error',
  from: { path: inRoom(room) },
  to: { path: `^src/${oneOf(rooms.slice(place + 1))}/` },
}));

module.exports = {
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default', 'types'],
      extensions: ['.ts', '.tsx', '.mjs', '.js', '.cjs', '.json'],
    },
  },
  forbidden: [
    ...leftward,
    {
      name: 'front-door-only',
      comment: 'another room is entered by its index.ts: import from "#room"',
      severity: 'error',
      from: { path: '^src/([^/]+)/' },
      to: { path: '^src/[^/]+/', pathNot: ['^src/$1/', '^src/[^/]+/index[.]ts$'] },
    },
    {
      name: 'front-door-by-its-name',
      comment: 'another room is named "#room", not by a path with dots',
      severity: 'error',
      from: { path: '^src/([^/]+)/' },
      to: {
        path: '^src/[^/]+/index[.]ts$',
        pathNot: '^src/$1/',
        dependencyTypesNot: ['aliased', 'aliased-subpath-import'],
      },
    },
    {
      name: 'known-room',
      comment: `src/ holds only these rooms: ${rooms.join(' ')}`,
      severity: 'error',
      from: { path: '^src/', pathNot: `^src/${oneOf(rooms)}/` },
      to: {},
    },
    {
      name: 'known-room-alone',
      severity: 'error',
      from: { path: '^src/', pathNot: `^src/${oneOf(rooms)}/`, orphan: true },
      to: {},
    },
    {
      name: 'known-room-entered',
      severity: 'error',
      from: {},
      to: { path: '^src/', pathNot: `^src/${oneOf(rooms)}/` },
    },
    {
      name: 'no-cycle',
      comment: 'no module reaches itself',
      severity: 'error',
      from: { path: '^src/' },
      to: { circular: true },
    },
    {
      name: 'resolves',
      comment: 'every import leads somewhere',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true },
    },
    {
      name: 'core-without-node',
      comment: 'core rooms know no Node module',
      severity: 'error',
      from: { path: `^src/${oneOf(core)}/`, pathNot: testFile },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'core-libraries',
      comment: `core rooms take only these from npm: ${pureLibraries.join(' ')}`,
      severity: 'error',
      from: { path: `^src/${oneOf(core)}/`, pathNot: testFile },
      to: { path: 'node_modules/', pathNot: `node_modules/(@types/)?${oneOf(pureLibraries)}/` },
    },
    {
      name: 'screen-without-node',
      comment: 'the screen runs in a browser: of the rooms that know files, threads and sockets it takes types only',
      severity: 'error',
      from: { path: '^src/web/', pathNot: testFile },
      to: { path: `^src/${oneOf(edges.slice(0, -1))}/`, dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'tests-are-not-imported',
      comment: 'nothing that ships imports a test',
      severity: 'error',
      from: { path: '^src/', pathNot: testFile },
      to: { path: testFile },
    },
  ],
};
