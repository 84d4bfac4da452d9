import type { Store } from './store.ts';

/** Everything that lies in one store put into another, empty one, of whatever kind. */
export async function copiedStore(from: Store, to: Store): Promise<void> {
  for (const { id } of await from.documents()) {
    const document = (await from.document(id))!;
    const scans = await from.scans(id);
    for (const { hash } of scans) await to.putBlob(hash, (await from.blob(hash))!);
    const steps = await from.steps(id, 1, document.revision);
    await to.add({ document, steps, points: await from.points(id), scans });
  }
}
