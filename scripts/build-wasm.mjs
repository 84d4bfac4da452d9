// Compiles wasm/NAME.kernel.ts (AssemblyScript) into src/geometry/NAME-module.ts. Run after a change to one: node scripts/build-wasm.mjs
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import asc from 'assemblyscript/asc';

const root = fileURLToPath(new URL('..', import.meta.url));

/** Source under wasm/, module under src/geometry/, and what the module calls its text. */
const MODULES = [
  { source: 'closest', module: 'closest-module.ts', text: 'closestModule' },
  { source: 'rays', module: 'ray-module.ts', text: 'rayModule' },
];

/** The bytes of a module, the same every time for the same source and compiler. */
export async function moduleBytes(source) {
  let bytes;
  const options = '-O3 --runtime stub --noAssert --importMemory --sharedMemory --maximumMemory 65536'.split(' ');
  const features = ['--enable', 'simd', '--enable', 'threads'];
  const { error, stderr } = await asc.main(
    [`wasm/${source}.kernel.ts`, ...options, ...features, '--outFile', `${source}.wasm`, '--baseDir', root],
    {
      writeFile: (name, contents) => {
        if (name === `${source}.wasm`) bytes = contents;
      },
    },
  );
  if (error) throw new Error(`wasm/${source}.kernel.ts does not compile: ${stderr.toString()}`);
  return bytes;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const { source, module, text } of MODULES) {
    const code = Buffer.from(await moduleBytes(source)).toString('base64');
    const lines = code.match(/.{1,110}/g).map((line) => `  '${line}'`);
    const file = `// Made by scripts/build-wasm.mjs out of wasm/${source}.kernel.ts; a test compiles it again and compares.\nexport const ${text}: string = [\n${lines.join(',\n')},\n].join('');\n`;
    writeFileSync(`${root}src/geometry/${module}`, file);
  }
}
