import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { faultLine } from './fault.ts';
import { readCar } from './read-car.ts';

const folder = new URL('./corpus/', import.meta.url);

/**
 * Broken car files, how many faults each has, and the first as the builder reads it. Hand: each file was broken in one way, and
 * each line was read against what was done to the file.
 */
const corpus: readonly (readonly [file: string, faults: number, first: string])[] = [
  ['a-list', 1, 'car file: stands [{"fairlead":1}]; allowed: an object {...} with "fairlead": 1'],
  ['a-number', 1, 'car file: stands 17; allowed: an object {...} with "fairlead": 1'],
  [
    'bay-box-flat',
    1,
    'bays[0]: stands minMm [0,-500,800], maxMm [900,500,800]; allowed: each of minMm less than that of maxMm',
  ],
  [
    'bay-opening-without-area',
    1,
    'bays[0].openings[0].areaCm2: stands nothing; allowed: a number above 0, at most 100000 cm2',
  ],
  [
    'heat-reading-of-nothing',
    1,
    'heatReadings[0]: stands {"id":"T1","case":"idle","readC":90,"means":"probe"}; allowed: exactly one of line, part, panel, bay',
  ],
  ['heat-reading-case', 1, 'heatReadings[0].case: stands "iddle"; allowed: a case of this car (nearest: idle)'],
  [
    'pressure-two-ways',
    1,
    'cases[0].pressures[0]: stands {"at":"gap","cp":-0.2,"pa":5,"how":"stated"}; allowed: exactly one of cp, pa, mmWater',
  ],
  [
    'pressure-nowhere',
    1,
    'cases[0].pressures[0].at: stands "gpa"; allowed: an opening of a bay, "panel.window" or a panel of this car (nearest: gap)',
  ],
  ['soak-after-nothing', 1, 'cases[1].after: stands "full"; allowed: a case of this car (nearest: idle)'],
  ['soak-running', 1, 'cases[1].after: stands "idle" at 900 rpm; allowed: after only in a case with engineRpm 0'],
  ['rule-duty-misspelt', 1, 'rulePacks[0].clauses[0].duties[0]: stands "fule"; allowed: a duty (nearest: fuel)'],
  [
    'rule-asks-nothing',
    1,
    'rulePacks[0].clauses[0]: stands neither least, most nor is; allowed: one of them, or measure by-eye',
  ],
  ['run-day-no-day', 1, 'runDays[0].on: stands "2026-13-01"; allowed: a day such as 2026-11-25'],
  ['box-id-twice', 1, 'box[1].id: stands "a" a second time (first at box[0]); allowed: each id once'],
  [
    'box-inside-out',
    1,
    'parts[1].shapes[0].box: stands minMm [700,-50,0], maxMm [600,50,100]; allowed: each of minMm at most that of maxMm',
  ],
  ['box-negative', 1, 'box[0].qty: stands -1; allowed: a number from 0 to 1000000'],
  [
    'box-without-size',
    1,
    'parts[1].shapes[0].box: stands minMm [500,-50,0], maxMm [500,-50,100]; allowed: a box with some size in at least two directions',
  ],
  [
    'catalogue-unknown-table',
    1,
    'catalogue.hose: stands the unknown key "hose"; allowed: the nearest known key is "hoses"; keys of your own begin with x-',
  ],
  ['class-missing', 1, 'parts[0].class: stands nothing; allowed: one of hot, moving, fixed'],
  ['class-misspelt', 1, 'parts[0].class: stands "fixd"; allowed: one of hot, moving, fixed (nearest: fixed)'],
  [
    'comment',
    1,
    'line 1, column 18: stands "//"; allowed: no comments: JSON has none; put remarks in note, or in a key that begins with x-',
  ],
  ['coordinate-text', 1, 'parts[0].ports[0].atMm[2]: stands "3"; allowed: a number of millimetres within +-100000'],
  [
    'cylinder-without-length',
    1,
    'parts[0].shapes[0].cylinder: stands both ends at [0,0,0]; allowed: two ends that are apart',
  ],
  ['dash-fraction', 1, 'lines[0].dash: stands 12.5; allowed: a whole number from 1 to 64'],
  ['dash-negative', 1, 'lines[0].dash: stands -12; allowed: a whole number from 1 to 64'],
  [
    'duty-misspelt',
    1,
    'lines[0].duty: stands "oil-suctoin"; allowed: one of oil-suction, oil-pressure, oil-scavenge, oil-return, oil-drain, oil-vent, water, water-bleed, fuel, fuel-return, fuel-vent, brake, clutch, air, charge-air (nearest: oil-suction)',
  ],
  ['empty', 1, 'line 1, column 1: stands an empty file; allowed: a car file, which begins with {'],
  [
    'end-unknown',
    1,
    'parts[0].ports[0].end.type: stands "orbb"; allowed: one of orb, orb-stud, flare37-male, flare37-female, flare45-male, flare45-female, inverted-flare, inverted-flare-nut, npt-male, npt-female, metric-orb, metric-orb-stud, metric-washer, metric-washer-stud, bspp, bspp-stud, face-seal, face-seal-swivel, flange2, flange2-foot, bead, barb, plain-tube, tube-socket, hose-bore (nearest: orb)',
  ],
  ['end-without-size', 1, 'parts[0].ports[0].end: stands {"type":"orb"}; allowed: the size of "orb" by dash or thread'],
  [
    'faces-zero',
    1,
    'parts[0].ports[0].faces: stands [0,0,0]; allowed: a direction with some length, such as [0, 0, 1]',
  ],
  ['far-away', 1, 'parts[0].ports[0].atMm[0]: stands 100001; allowed: a number of millimetres within +-100000 (100 m)'],
  ['from-is-to', 1, 'lines[0].to: stands "tank.out", where the line also begins; allowed: another port than from'],
  [
    'half-escape',
    1,
    'line 1, column 26: stands a text with an unknown escape: "\\u12"; allowed: the escapes \\" \\\\ \\/ \\b \\f \\n \\r \\t and \\u with four hex digits',
  ],
  ['hose-and-pieces', 1, 'lines[0].hose: stands hose beside pieces; allowed: hose for one hose piece, or pieces'],
  [
    'hose-bore-over-od',
    1,
    'catalogue.hoses[0]: stands boreMm 30, odMm 27; allowed: a bore less than the outside diameter',
  ],
  [
    'hose-id-twice',
    1,
    'catalogue.hoses[1].id: stands "h12" a second time (first at catalogue.hoses[0]); allowed: each id once',
  ],
  [
    'hose-without-radius',
    1,
    'catalogue.hoses[0].minBendRadiusMm: stands nothing; allowed: a number above 0, at most 5000 mm',
  ],
  ['id-twice', 3, 'parts[1].id: stands "tank" a second time (first at parts[0]); allowed: each id once'],
  [
    'id-with-dot',
    2,
    'parts[0].id: stands "tank.1"; allowed: an id: 1 to 64 letters, digits, - or _, beginning with a letter or digit',
  ],
  ['infinite', 1, 'parts[0].shapes[0].cylinder.radiusMm (line 21, column 19): stands 1e999; allowed: a finite number'],
  ['keep-off-negative', 1, 'keepOffMm.hot: stands -1; allowed: a number from 0 to 2000 mm'],
  [
    'keep-off-unknown-class',
    1,
    'keepOffMm.hott: stands the unknown key "hott"; allowed: the nearest known key is "hot"; keys of your own begin with x-',
  ],
  [
    'key-in-wrong-case',
    1,
    'lines[0].BoreMM: stands the unknown key "BoreMM"; allowed: the nearest known key is "boreMm"; keys of your own begin with x-',
  ],
  ['key-twice', 1, 'name (line 4, column 2): stands the key "name" a second time; allowed: each key once in an object'],
  [
    'leading-zero',
    1,
    'line 1, column 15: stands 01; allowed: a number such as -12.5 or 1e3, without leading zero, plus sign or unit',
  ],
  [
    'level-on-one-line',
    1,
    'origins[0].points: stands points that do not give the lean of the shell; allowed: three points well apart in plan, not on one line; or one point with pitchDeg and rollDeg',
  ],
  ['line-id-twice', 1, 'lines[1].id: stands "O1" a second time (first at lines[0]); allowed: each id once'],
  [
    'measured-along-points',
    1,
    'parts[0].ports[0].measured[0].from: stands "sill", of kind points, for alongMm; allowed: an origin of kind straightedge',
  ],
  [
    'measured-and-placed',
    1,
    'parts[0].ports[0].atMm: stands atMm beside measured; allowed: either measured, which gives both, or atMm and knownToMm',
  ],
  [
    'measured-from-nowhere',
    1,
    'parts[0].ports[0].measured[0].from: stands "sil"; allowed: an origin of this car (nearest: sill)',
  ],
  [
    'measured-too-little',
    1,
    'parts[0].ports[0].measured: stands readings that give 2 numbers; allowed: at least three, in three different directions',
  ],
  [
    'measured-twice-one-way',
    1,
    'parts[0].ports[0].measured: stands readings that leave the point loose along [0.0, 1.0, 0.0]; allowed: readings in three different directions; one more along that way',
  ],
  [
    'measured-two-places',
    1,
    'parts[0].ports[0].measured: stands readings that fit two places, [260, 79, 358] and [260, 79, -358]; allowed: one more reading that tells them apart; a rough zMm with "knownToMm": 100 will do',
  ],
  [
    'mesh-absolute',
    1,
    'parts[0].shapes[0].mesh.file: stands "/etc/passwd.stl"; allowed: a path such as scans/engine.stl, in or under the folder of the car file',
  ],
  [
    'mesh-address',
    1,
    'parts[0].shapes[0].mesh.file: stands "https://example.org/x.stl"; allowed: a path such as scans/engine.stl, in or under the folder of the car file',
  ],
  [
    'mesh-backslash',
    1,
    'parts[0].shapes[0].mesh.file: stands "scans\\\\x.stl"; allowed: a path such as scans/engine.stl, in or under the folder of the car file',
  ],
  [
    'mesh-drive',
    1,
    'parts[0].shapes[0].mesh.file: stands "C:/x.stl"; allowed: a path such as scans/engine.stl, in or under the folder of the car file',
  ],
  [
    'mesh-kind',
    1,
    'parts[0].shapes[0].mesh.file: stands "scans/engine.txt"; allowed: a file that ends in .stl, .ply, .obj, .glb, .step or .stp',
  ],
  [
    'mesh-parent',
    1,
    'parts[0].shapes[0].mesh.file: stands "scans/../../x.stl"; allowed: a path such as scans/engine.stl, in or under the folder of the car file',
  ],
  ['mesh-unit', 1, 'parts[0].shapes[0].mesh.unit: stands "furlong"; allowed: one of mm, cm, m, in (nearest: in)'],
  ['missing-colon', 1, 'line 1, column 14: stands "1"; allowed: a colon after the key'],
  ['missing-comma', 1, 'line 2, column 3: stands "\\""; allowed: a comma or } after a value'],
  ['mover-axis-zero', 1, 'movers[0].axis: stands [0,0,0]; allowed: a direction with some length, such as [0, 0, 1]'],
  ['mover-id-twice', 1, 'movers[1].id: stands "engine" a second time (first at movers[0]); allowed: each id once'],
  ['mover-limits-swapped', 1, 'movers[0].turnDeg: stands [1,-1]; allowed: the lower angle first'],
  ['mover-still', 1, 'movers[0]: stands no movement; allowed: turnDeg or slideMm'],
  ['mover-unknown', 1, 'parts[1].movesWith: stands "engin"; allowed: a mover of this car (nearest: engine)'],
  ['mover-without-axis', 1, 'movers[0].axis: stands nothing; allowed: the direction of the axis of the swing'],
  [
    'near-unknown-part',
    1,
    'parts[0].ports[0].near.parts[0]: stands "wall2"; allowed: a part of this car (nearest: wall)',
  ],
  ['newer-version', 1, 'fairlead: stands 99, written by a newer Fairlead; allowed: up to 1; the file is left as it is'],
  ['no-version', 1, 'fairlead: stands nothing; allowed: the version of the file format, 1'],
  ['not-a-number', 1, 'line 1, column 73: stands "NaN"; allowed: a finite number'],
  ['only-spaces', 1, 'line 3, column 1: stands an empty file; allowed: a car file, which begins with {'],
  [
    'origin-mirrored',
    1,
    'origins[0].points: stands readings that fit only as a mirror image (off by 182 mm as read, 0 mm mirrored); allowed: right-handed readings: one axis has the wrong sign, or two are exchanged',
  ],
  [
    'origin-on-one-line',
    1,
    'origins[0].points: stands known places that lie on one line, or at one point; allowed: three points of which one stands well to the side of the line through the others',
  ],
  ['origin-two-points', 1, 'origins[0].points: stands 2 points; allowed: at least three reference points'],
  [
    'origin-without-reading',
    1,
    'origins[0].points[0].readMm: stands nothing; allowed: the point as read from an origin of kind points',
  ],
  ['piece-empty', 1, 'lines[0].pieces[0]: stands neither hose nor tube; allowed: exactly one of hose, tube'],
  ['pipe-words', 1, 'parts[0].ports[0].end.pipe: stands "one eighth"; allowed: a pipe size such as 1/8 or 1 1/4'],
  [
    'port-id-twice',
    1,
    'parts[0].ports[1].id: stands "out" a second time (first at parts[0].ports[0]); allowed: each id once',
  ],
  ['port-used-twice', 1, 'lines[1].from: stands "tank.out", which line "O1" already uses; allowed: one line a port'],
  ['proto-key', 1, '__proto__ (line 1, column 18): stands "__proto__" as a key; allowed: any other key'],
  [
    'radius-negative',
    1,
    'parts[0].shapes[0].cylinder.radiusMm: stands -5; allowed: a number above 0, at most 100000 mm',
  ],
  ['radius-zero', 1, 'parts[0].shapes[0].cylinder.radiusMm: stands 0; allowed: a number above 0, at most 100000 mm'],
  ['ref-without-dot', 1, 'lines[0].from: stands "tank"; allowed: a port as "part.port"'],
  ['shape-empty', 1, 'parts[0].shapes[0]: stands no solid; allowed: exactly one of box, cylinder, tube, mesh'],
  [
    'shape-of-two-kinds',
    1,
    'parts[0].shapes[0]: stands box and cylinder together; allowed: exactly one of box, cylinder, tube, mesh',
  ],
  ['single-quotes', 1, `line 1, column 3: stands "'fairlead'"; allowed: texts and keys in double quotes`],
  [
    'state-unknown',
    1,
    'lines[0].state: stands "finished"; allowed: one of planned, bought, made, proved, fitted, leak-checked (nearest: fitted)',
  ],
  [
    'straightedge-plumb',
    1,
    'origins[0].down: stands [0,0,-1]; allowed: a direction across the straightedge, not along it',
  ],
  [
    'straightedge-too-short',
    1,
    'origins[0].points: stands two points 9.0 mm apart; allowed: two points at least 50 mm apart',
  ],
  ['taken-other-pieces', 1, 'lines[0].taken.pieces: stands hose, tube; allowed: hose, as the line has them'],
  [
    'taken-other-port',
    1,
    'lines[0].taken.ends: stands ends on tank.vent and pump.in; allowed: ends on tank.out and pump.in, as the line has them',
  ],
  ['taken-without-bodies', 1, 'lines[0].taken.bodies: stands nothing; allowed: a list [...] of at most 1000 entries'],
  ['thread-words', 1, 'parts[0].ports[0].end.thread: stands "fourteen"; allowed: a thread such as M14x1.5 or 7/8-14'],
  [
    'through-not-crossable',
    1,
    'lines[0].through[0].part: stands "tank", which is not crossable; allowed: a part with crossable, such as ["grommet"]',
  ],
  [
    'through-unknown',
    1,
    'lines[0].through[0].part: stands "wal"; allowed: a crossable part of this car (nearest: wall)',
  ],
  [
    'through-wrong-kind',
    1,
    'lines[0].through[0].kind: stands "bulkhead-fitting"; allowed: what "wall" lets through: grommet',
  ],
  [
    'too-deep',
    1,
    'line 1, column 92: stands brackets nested deeper than that; allowed: at most 64 brackets inside each other',
  ],
  ['trailing-comma-list', 1, 'line 3, column 17: stands a comma before ]; allowed: a comma only between two entries'],
  ['trailing-comma-object', 1, 'line 2, column 16: stands a comma before }; allowed: a comma only between two entries'],
  [
    'truncated-in-list',
    1,
    'line 63, column 4: stands the end of the file; allowed: the rest of the object opened at line 62, column 3 (is the file cut short?)',
  ],
  [
    'truncated-in-text',
    1,
    'line 6, column 10: stands a text that is never closed: "ta; allowed: a closing double quote (is the file cut short?)',
  ],
  ['tube-of-one-point', 1, 'parts[0].shapes[0].tube.pointsMm: stands 1 points; allowed: at least two points'],
  [
    'tube-stands-still',
    1,
    'parts[0].shapes[0].tube.pointsMm[1]: stands [0,0,0] again; allowed: a point apart from the one before it',
  ],
  [
    'tube-wall-too-thick',
    1,
    'lines[0].pieces[0].tube: stands wallMm 5 in odMm 10; allowed: a wall less than half the outside diameter',
  ],
  ['two-coordinates', 1, 'parts[0].ports[0].atMm: stands [1,2]; allowed: three numbers [x, y, z] in mm'],
  ['two-documents', 1, 'line 2, column 1: stands "{"; allowed: nothing after the closing bracket of the car'],
  [
    'unescaped-line-break',
    1,
    'line 1, column 30: stands a line break inside a text; allowed: the closing double quote first, or an escape such as \\n',
  ],
  [
    'unit-in-number',
    1,
    'line 1, column 73: stands 5mm; allowed: a number such as -12.5 or 1e3, without leading zero, plus sign or unit',
  ],
  [
    'unknown-escape',
    1,
    'line 1, column 26: stands a text with an unknown escape: "C:\\car"; allowed: the escapes \\" \\\\ \\/ \\b \\f \\n \\r \\t and \\u with four hex digits',
  ],
  [
    'unknown-key',
    1,
    'parts[0].clas: stands the unknown key "clas"; allowed: the nearest known key is "class"; keys of your own begin with x-',
  ],
  [
    'unknown-part',
    1,
    'lines[0].from: stands "tnak.out": there is no part "tnak"; allowed: a port of this car (nearest: tank.out)',
  ],
  [
    'unknown-port',
    1,
    'lines[0].to: stands "pump.on": part "pump" has no port "on"; allowed: a port of this car (nearest: pump.in)',
  ],
  [
    'unknown-top-key',
    1,
    'pannels: stands the unknown key "pannels"; allowed: the nearest known key is "panels"; keys of your own begin with x-',
  ],
  ['version-text', 1, 'fairlead: stands "1"; allowed: the version of the file format, 1'],
  [
    'wrong-bracket',
    1,
    'line 1, column 29: stands "}"; allowed: a value: {...}, [...], "text", a number, true, false or null',
  ],
  [
    'break-job-unknown',
    1,
    'workshop.breaks[0].jobs[0]: stands "O2"; allowed: a part, panel or line of this car (nearest: O1)',
  ],
  [
    'comes-after-itself',
    1,
    'parts[0].comesAfter[0]: stands "tank"; allowed: another part or panel than the part itself',
  ],
  [
    'fastener-head-misspelt',
    1,
    'parts[0].fasteners[0].head: stands "hexagn"; allowed: one of hexagon, nut, socket, clip, quarter-turn, rivet, v-band, hand (nearest: hexagon)',
  ],
  [
    'fastener-id-twice',
    1,
    'parts[0].fasteners[1].id: stands "a" a second time (first at parts[0].fasteners[0]); allowed: each id once',
  ],
  [
    'fastener-into-unknown',
    1,
    'parts[0].fasteners[0].into: stands "wal"; allowed: a part or panel of this car (nearest: wall)',
  ],
  ['lifts-misspelt', 1, 'parts[0].lifts: stands "crane"; allowed: one of hand, hoist (nearest: hand)'],
  ['pull-zero', 1, 'parts[0].pulls[0]: stands [0,0,0]; allowed: a direction with some length, such as [0, 0, 1]'],
  ['sits-on-ring', 1, 'parts[0].sitsOn: stands a ring: tank on pump on tank; allowed: an order with a beginning'],
  ['sits-on-unknown', 1, 'parts[0].sitsOn[0]: stands "pumpe"; allowed: a part or panel of this car (nearest: pump)'],
];

describe('a broken car file gives one clear line a fault', () => {
  it.each(corpus)('%s', (file, faults, first) => {
    const reading = readCar(readFileSync(new URL(`${file}.json`, folder), 'utf8'));
    expect(reading.ok ? [] : [reading.faults.length, faultLine(reading.faults[0]!)]).toEqual([faults, first]);
  });

  it('and every file of the corpus stands in the table', () => {
    const files = readdirSync(folder).map((name) => name.replace(/\.json$/, ''));
    expect([...files].sort()).toEqual(corpus.map(([file]) => file).sort());
    expect(files.length).toBeGreaterThanOrEqual(40);
  });
});
