import { copiedStore } from './copied-store.ts';
import { openSqliteStore } from './sqlite-store.ts';
import type { DocumentHead, DocumentRow, PointRow, ScanLink, StepRow, Store, WholeDocument } from './store.ts';

interface Kept {
  document: DocumentRow;
  readonly steps: StepRow[];
  readonly points: Map<number, string>;
  readonly scans: ScanLink[];
}

/** A store that ends with the program: for tests, and for looking at a car without keeping it. */
export class MemoryStore implements Store {
  private readonly all = new Map<string, Kept>();
  private readonly blobs = new Map<string, Uint8Array>();

  async documents(): Promise<readonly DocumentHead[]> {
    return [...this.all.values()].map(({ document: { text: _text, ...head } }) => head);
  }

  async document(id: string): Promise<DocumentRow | undefined> {
    return this.all.get(id)?.document;
  }

  async add({ document, steps, points, scans }: WholeDocument): Promise<boolean> {
    if (this.all.has(document.id)) return false;
    const named = new Map(points.map((point) => [point.revision, point.name]));
    this.all.set(document.id, { document, steps: [...steps], points: named, scans: [...scans] });
    return true;
  }

  async append(document: DocumentRow, step: StepRow): Promise<boolean> {
    const kept = this.all.get(document.id);
    if (kept === undefined || kept.document.revision !== document.revision - 1) return false;
    kept.document = { ...document, away: kept.document.away };
    kept.steps.push(step);
    return true;
  }

  async setAway(id: string, away: DocumentRow['away']): Promise<void> {
    const kept = this.all.get(id);
    if (kept !== undefined) kept.document = { ...kept.document, away };
  }

  async steps(id: string, from: number, to: number): Promise<readonly StepRow[]> {
    return (this.all.get(id)?.steps ?? []).filter((step) => step.revision >= from && step.revision <= to);
  }

  async textFrom(id: string, revision: number): Promise<{ revision: number; text: string } | undefined> {
    const step = this.all.get(id)?.steps.find((row) => row.revision >= revision && row.text !== null);
    return step === undefined ? undefined : { revision: step.revision, text: step.text! };
  }

  async namePoint(id: string, { revision, name }: PointRow): Promise<void> {
    if (name === '') this.all.get(id)?.points.delete(revision);
    else this.all.get(id)?.points.set(revision, name);
  }

  async points(id: string): Promise<readonly PointRow[]> {
    const named = [...(this.all.get(id)?.points ?? [])].map(([revision, name]) => ({ revision, name }));
    return named.sort((a, b) => a.revision - b.revision);
  }

  async putBlob(hash: string, bytes: Uint8Array): Promise<void> {
    if (!this.blobs.has(hash)) this.blobs.set(hash, new Uint8Array(bytes));
  }

  async blob(hash: string): Promise<Uint8Array | undefined> {
    return this.blobs.get(hash)?.slice();
  }

  async linkScan(id: string, scan: ScanLink): Promise<void> {
    this.all.get(id)?.scans.push(scan);
  }

  async scans(id: string): Promise<readonly ScanLink[]> {
    return [...(this.all.get(id)?.scans ?? [])];
  }

  async copyTo(file: string): Promise<void> {
    const copy = openSqliteStore(file, { mustBeNew: true });
    await copiedStore(this, copy);
    await copy.close();
  }

  async close(): Promise<void> {
    this.all.clear();
    this.blobs.clear();
  }
}
