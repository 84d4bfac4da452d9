import { type ReactNode, useEffect, useState } from 'react';
import { kept, sayFault, useCar } from '../bench/bench.ts';
import { useSignal } from '../bench/signal.ts';
import { open } from '../bench/place.ts';
import { calls, type AddedScan } from '../server/calls.ts';
import { Form } from '../tape/form.tsx';
import { tapeUnit } from '../tape/tape-unit.ts';
import { pointing, table } from './pointing.ts';
import { ScanFileFields } from './scan-file-fields.tsx';
import { PairsFields } from './pairs-fields.tsx';
import {
  emptyPair,
  filePoint,
  type FileUnit,
  type PairDraft,
  type ScanPart,
  scanPartEdits,
  wholePairs,
} from './scan-draft.ts';
import { ScanPartFields } from './scan-part-fields.tsx';
import { PICTURE_LEVELS, scanPicture } from './scan-picture.ts';
import { usePlacing } from './use-placing.ts';
import { usualText } from '../tape/kept-text.ts';

/** A scan is placed as finely as it is drawn at all: fine enough to point at a hole. */
const FINEST = PICTURE_LEVELS - 1;

interface Brought {
  readonly file: string;
  readonly unit: FileUnit;
  readonly read: AddedScan;
}

/** A scan or CAD file: brought in, seen, placed by three points, put on the car. */
export function ScanPaper(): ReactNode {
  const car = useCar()!;
  const id = useSignal(kept)!.id;
  const unit = useSignal(tapeUnit);
  const [brought, setBrought] = useState<Brought | null>(null);
  const [pairs, setPairs] = useState<readonly PairDraft[]>([emptyPair, emptyPair, emptyPair]);
  const [part, setPart] = useState<ScanPart>(() => ({ name: '', class: 'fixed', known: usualText(2) }));
  const whole = wholePairs(car, pairs, unit);
  const placing = usePlacing(id, whole);
  useOnTable(id, brought, pairs, placing?.ok === true ? placing : null);
  const made =
    brought === null
      ? no('no file is picked yet')
      : placing === null
        ? no(`three points are wanted, each on the scan and on the car; ${whole.length} of them are whole`)
        : placing.ok
          ? scanPartEdits(car, part, { ...brought, turnDeg: placing.turnDeg, atMm: placing.atMm }, unit)
          : no(placing.fault);
  return (
    <Form
      title="Bring in a scan"
      below="STL, PLY, OBJ, GLB or STEP. It is placed by three or more points that are found on the scan and on the car."
      keepWords="Put it on the car"
      made={
        made.ok ? { ok: true, value: { edits: made.value.edits, done: `${part.name.trim()} is on the car` } } : made
      }
      onKept={() => made.ok && open({ kind: 'part', id: made.value.id })}
      onLeave={() => open({ kind: 'parts' })}
    >
      {(isAsked) => (
        <>
          <ScanFileFields id={id} onBrought={setBrought} />
          {brought === null ? null : (
            <>
              <PairsFields
                car={car}
                pairs={pairs}
                placing={placing}
                rows={whole.map(({ row }) => row)}
                isAsked={isAsked}
                onPairs={setPairs}
              />
              <ScanPartFields draft={part} isAsked={isAsked} onDraft={setPart} />
            </>
          )}
        </>
      )}
    </Form>
  );
}

const no = (fault: string) => ({ ok: false, fault, ways: [] }) as const;

/** Lays the scan on the table while its paper is open. */
function useOnTable(
  id: string,
  brought: Brought | null,
  pairs: readonly PairDraft[],
  placed: { readonly turnDeg: readonly number[]; readonly atMm: readonly number[] } | null,
): void {
  useEffect(() => {
    table.set(null);
    if (brought === null) return;
    let isWanted = true;
    calls.mesh(id, brought.file, FINEST, brought.unit).then(
      (bytes) => {
        const { minMm, maxMm } = brought.read.notes;
        if (isWanted)
          table.set({ file: brought.file, mesh: scanPicture(bytes).mesh, minMm, maxMm, picks: [], placed: null });
      },
      (fault: unknown) => isWanted && sayFault(fault),
    );
    return () => {
      isWanted = false;
      pointing.set(null);
      table.set(null);
    };
  }, [id, brought]);
  const on = useSignal(table);
  const picks = JSON.stringify(
    pairs.flatMap((pair, i) => {
      const atMm = filePoint(pair.onScan);
      return atMm === undefined ? [] : [{ label: `${i + 1}`, atMm }];
    }),
  );
  const placedKey = JSON.stringify(placed === null ? null : { turnDeg: placed.turnDeg, atMm: placed.atMm });
  const has = on !== null;
  useEffect(() => {
    const now = table.get();
    if (has && now !== null) table.set({ ...now, picks: JSON.parse(picks), placed: JSON.parse(placedKey) });
  }, [picks, placedKey, has]);
}
