// Plans the demo car and writes it with its ways to test/screen/fellside-taken.json.gz: what the browser tests open instead of planning a
// minute each. The ways are judged anew whenever it is opened, so that an old file shows what has changed since.
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { carWithTaken } from '#answers';
import { readCar } from '#car';
import { carInput, crewPlan } from '#crew';
import { loadCarMeshes } from '#intake';

const demo = fileURLToPath(new URL('../demo/fellside.json', import.meta.url));
const reading = readCar(readFileSync(demo, 'utf8'));
if (!reading.ok) throw new Error('the demo car is no car');
const { meshes } = await loadCarMeshes(reading.car, dirname(demo));
const { planned } = await crewPlan(carInput(reading.car, meshes), () => true);
const taken = carWithTaken(reading.car, planned, (file) => file);
const out = fileURLToPath(new URL('../test/screen/fellside-taken.json.gz', import.meta.url));
writeFileSync(out, gzipSync(JSON.stringify(taken), { level: 9 }));
process.stdout.write(`${planned.lines.filter((row) => row.taken !== null).length} ways taken; ${out}\n`);
