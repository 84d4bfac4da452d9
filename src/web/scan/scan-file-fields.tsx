import { NativeSelect } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import type { Lengths } from '#units';
import { sayFault } from '../bench/bench.ts';
import { calls, type AddedScan } from '../server/calls.ts';
import { type FileUnit, fileUnits, isScanName, scanFile } from './scan-draft.ts';
import { useLengths } from '../tape/lengths.ts';

interface Wish {
  readonly id: string;
  readonly onBrought: (
    brought: { readonly file: string; readonly unit: FileUnit; readonly read: AddedScan } | null,
  ) => void;
}

const unitWords: Readonly<Record<FileUnit, string>> = {
  mm: 'millimetres',
  cm: 'centimetres',
  m: 'metres',
  in: 'inches',
};

interface Picked {
  readonly name: string;
  readonly file: string;
  readonly bytes: ArrayBuffer;
}

interface Bringing {
  readonly picked: Picked | null;
  readonly read: AddedScan | null;
  readonly isBusy: boolean;
  readonly fault: string | null;
  pick(file: File, unit: FileUnit): Promise<void>;
  again(unit: FileUnit): Promise<void>;
}

/** A file goes to the server, which reads it before it keeps it; in another unit it goes again. */
function useBringing({ id, onBrought }: Wish): Bringing {
  const [picked, setPicked] = useState<Picked | null>(null);
  const [read, setRead] = useState<AddedScan | null>(null);
  const [isBusy, setBusy] = useState(false);
  const [fault, setFault] = useState<string | null>(null);
  const bring = async (from: Picked, unit: FileUnit): Promise<void> => {
    setBusy(true);
    setFault(null);
    setRead(null);
    onBrought(null);
    try {
      const answer = await calls.addScan(id, from.file, unit, from.bytes);
      setRead(answer);
      onBrought({ file: from.file, unit, read: answer });
    } catch (cause) {
      setFault(cause instanceof Error ? cause.message : String(cause));
    }
    setBusy(false);
  };
  const pick = async (file: File, unit: FileUnit): Promise<void> => {
    if (!isScanName(file.name)) {
      setFault(`${file.name}: a file that ends in .stl, .ply, .obj, .glb, .step or .stp is wanted`);
      return;
    }
    const taken = (await calls.scans(id)).map((scan) => scan.file);
    const next = { name: file.name, file: scanFile(file.name, taken), bytes: await file.arrayBuffer() };
    setPicked(next);
    await bring(next, unit);
  };
  const again = async (unit: FileUnit): Promise<void> => {
    if (picked !== null) await bring(picked, unit);
  };
  return { picked, read, isBusy, fault, pick, again };
}

/** Which file, in which unit; how large it then is, so that a wrong unit is seen. */
export function ScanFileFields(wish: Wish): ReactNode {
  const lengths = useLengths();
  const [unit, setUnit] = useState<FileUnit>('mm');
  const { picked, read, isBusy, fault, pick, again } = useBringing(wish);
  return (
    <section className="tape-section" aria-label="The file">
      <div className="pair">
        <NativeSelect
          label="Unit of the numbers in it"
          value={unit}
          disabled={isBusy}
          data={fileUnits.map((value) => ({ value, label: unitWords[value] }))}
          onChange={(event) => {
            const next = event.currentTarget.value as FileUnit;
            setUnit(next);
            void again(next);
          }}
        />
        <label className="key start-file scan-file">
          {picked === null ? 'Pick a file' : 'Pick another file'}
          <input
            type="file"
            accept=".stl,.ply,.obj,.glb,.step,.stp"
            onChange={(event) => {
              const file = event.currentTarget.files?.[0];
              if (file !== undefined) pick(file, unit).catch(sayFault);
              event.currentTarget.value = '';
            }}
          />
        </label>
      </div>
      <p role="status" className={fault === null ? '' : 'warn'}>
        {fault ??
          (isBusy
            ? `Reading ${picked?.name ?? ''}`
            : read === null || picked === null
              ? ''
              : readWords(picked.name, read, lengths))}
      </p>
      {read?.notes.warnings.map((warning) => (
        <p className="warn warn-fix small" key={warning}>
          ◆ {warning}
        </p>
      ))}
    </section>
  );
}

function readWords(name: string, { triangles, notes }: AddedScan, { one }: Lengths): string {
  const size = notes.sizeMm.map(one).join(' × ');
  return `${name}: ${size}, ${triangles.toLocaleString('en')} triangles. If that is not its size, the unit is another one.`;
}
