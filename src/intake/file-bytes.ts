import { open, stat } from 'node:fs/promises';
import { IntakeFault } from './intake-fault.ts';
import { counted } from './limits.ts';

/** The whole of a plain file; its kind and size are checked before a byte is read. */
export async function fileBytes(path: string, mostBytes: number): Promise<Uint8Array> {
  // asked by name first: opening a named pipe would wait for a writer
  if (!(await attempted(stat(path))).isFile())
    throw new IntakeFault('file', 'not a plain file', 'a file that can be read');
  const handle = await attempted(open(path, 'r'));
  try {
    const { size } = await handle.stat();
    if (size > mostBytes) throw new IntakeFault('file', `${counted(size)} bytes`, `at most ${counted(mostBytes)}`);
    return await attempted(handle.readFile());
  } finally {
    await handle.close();
  }
}

async function attempted<T>(act: Promise<T>): Promise<T> {
  try {
    return await act;
  } catch (cause) {
    const code = (cause as NodeJS.ErrnoException).code;
    throw new IntakeFault(
      'file',
      code === 'ENOENT' ? 'not there' : `can't be read (${code ?? 'unknown'})`,
      'a file that can be read',
    );
  }
}
