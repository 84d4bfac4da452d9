// Compiles wasm/closest.kernel.ts (AssemblyScript) into src/geometry/closest-module.ts. Run after a change to it: node scripts/build-wasm.mjs
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import asc from 'assemblyscript/asc';

const root = fileURLToPath(new URL('..', import.meta.url));

/** The bytes of the module, the same every time for the same source and compiler. */
export async function closestModuleBytes() {
  let bytes;
  const options = '-O3 --runtime stub --noAssert --importMemory --sharedMemory --maximumMemory 65536'.split(' ');
  const features = ['--enable', 'simd', '--enable', 'threads'];
  const { error, stderr } = await asc.main(
    ['wasm/closest.kernel.ts', ...options, ...features, '--outFile', 'closest.wasm', '--baseDir', root],
    {
      writeFile: (name, contents) => {
        if (name === 'closest.wasm') bytes = contents;
      },
    },
  );
  if (error) throw new Error(`wasm/closest.kernel.ts does not compile: ${stderr.toString()}`);
  return bytes;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const text = Buffer.from(await closestModuleBytes()).toString('base64');
  const lines = text.match(/.{1,110}/g).map((line) => `  '${line}'`);
  const code = `// Made by scripts/build-wasm.mjs out of wasm/closest.kernel.ts; a test compiles it again and compares.\nexport const closestModule: string = [\n${lines.join(',\n')},\n].join('');\n`;
  writeFileSync(`${root}src/geometry/closest-module.ts`, code);
}
