import { type ReactNode, useMemo } from 'react';
import type { Car, Panel } from '#car';
import { panelCautions } from '#book';
import type { PanelLayout } from '#panels';
import { keep, useCar, useStanding } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { UnitChoice } from '../flow/unit-choice.tsx';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { tapeUnit } from '../tape/tape-unit.ts';
import { useCarCut } from './car-cut.ts';
import { CutSnags } from './cut-snags.tsx';
import { cutUnits } from './cut-words.ts';
import { FlatFiles } from './flat-files.tsx';
import { MovableFlat } from './flat-picture.tsx';
import { laidAsTyped } from './panel-draft.ts';
import { AsMeasured, Edges, Holes, Windows } from './panel-tables.tsx';
import { Mirror } from './mirror-section.tsx';
import { Strength } from './strength-section.tsx';
import { Twist } from './twist-section.tsx';
import { areaWords, massWords, panelNumbers, sizeWords, thicknessWords } from './panel-numbers.ts';

/** One panel: its flat, what is open on it, what it is measured as, its edges, windows and holes. */
export function PanelPaper({ id }: { readonly id: string }): ReactNode {
  const car = useCar()!;
  const panel = car.panels?.find((one) => one.id === id);
  if (panel === undefined)
    return (
      <article className="paper">
        <PaperHead>{`There is no panel ${id}`}</PaperHead>
        <div className="keys">
          <Key onClick={() => open({ kind: 'cut', id: 'all' })}>All panels</Key>
        </div>
      </article>
    );
  return <Shown car={car} panel={panel} />;
}

interface Wish {
  readonly car: Car;
  readonly panel: Panel;
}

function Shown({ car, panel }: Wish): ReactNode {
  const { id } = panel;
  const { cut, isOld } = useCarCut();
  const isInch = useSignal(tapeUnit) === 'in';
  const judged = useStanding();
  const isWhole = cut !== null && !isOld;
  // Till the server has it with all that goes through, the panel by itself is there at once.
  const alone = useMemo(() => (isWhole ? [] : laidAsTyped(car, panel)), [isWhole, car, panel]);
  const pieces = isWhole ? cut.panels.filter((layout) => layout.panel.id === id) : alone;
  const [flat] = pieces.flatMap(({ flats }) => flats);
  return (
    <article className="paper">
      <PaperHead below={headWords(panel, pieces, isInch)}>
        {panel.id}
        <span className="cut-title">{panel.name ?? ''}</span>
      </PaperHead>
      {isWhole ? null : <p className="soft">What goes through it is being worked out; the rest is as it stands.</p>}
      {pieces.map((layout) => (
        <figure className="cut-figure" key={layout.piece?.number ?? 0}>
          <MovableFlat layout={layout} isInch={isInch} car={car} panel={panel} />
          <figcaption className="small soft">
            {`${layout.piece === undefined ? '' : `Piece ${layout.piece.number} of ${layout.piece.of}. `}Seen on the outside face. x runs along ${firstEdge(layout)}.`}
          </figcaption>
        </figure>
      ))}
      <FlatFiles panel={panel} hasFlat={pieces.some(({ flats }) => flats.length > 0)} />
      <CutSnags snags={judged?.snags.filter((snag) => snag.panel === id)} />
      {panel.note === undefined ? null : <p className="small">{panel.note}</p>}
      <AsMeasured panel={panel} pieces={pieces} isInch={isInch} />
      <Mirror panel={panel} pieces={pieces} isInch={isInch} />
      <Twist panel={panel} pieces={pieces} isInch={isInch} />
      <Edges panel={panel} pieces={pieces} isInch={isInch} />
      <Windows panel={panel} pieces={pieces} isInch={isInch} />
      <Holes panel={panel} pieces={pieces} isInch={isInch} />
      <Strength panel={panel} isInch={isInch} />
      <UnitChoice words={cutUnits} />
      {flat === undefined ? null : <p className="small soft">{panelCautions(flat).join(' ')}</p>}
      <div className="keys no-print">
        <Key onClick={() => open({ kind: 'cut', id: 'all' })}>All panels</Key>
        <Key onClick={() => void takeOut(panel)}>Take it out</Key>
      </div>
    </article>
  );
}

async function takeOut({ id, name = id }: Panel): Promise<void> {
  if (await keep([{ do: 'remove-panel', panel: id }], `${name} is out; Undo brings it back`))
    open({ kind: 'cut', id: 'all' });
}

const firstEdge = ({ edges: [first] }: PanelLayout): string => (first === undefined ? 'the first edge' : first.id);

function headWords(panel: Panel, pieces: readonly PanelLayout[], isInch: boolean): string {
  const { sizeMm, massKg, metalMm2, freeMm2 } = panelNumbers(pieces);
  const thick = thicknessWords(panel.thicknessMm, isInch);
  return [
    `${panel.sheet ?? '5052-H32'}, ${thick}`,
    ...(sizeMm === null
      ? []
      : [`${sizeWords(sizeMm, isInch)} flat`, `${areaWords(metalMm2, isInch)} of metal`, massWords(massKg, isInch)]),
    ...(freeMm2 > 0 ? [`${areaWords(freeMm2, isInch)} free for air`] : []),
  ].join(' · ');
}
