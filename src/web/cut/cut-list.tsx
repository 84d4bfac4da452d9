import { type ReactNode, useMemo } from 'react';
import type { Lever, Panel, SheetStock } from '#car';
import { type LeverAnswer, leverAnswer } from '#levers';
import { type PanelLayout, panelLayouts, SPACING_MM } from '#panels';
import type { Snag } from '#snags';
import { formatNumber } from '#units';
import { kept, useCar, useStanding } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { UnitChoice } from '../flow/unit-choice.tsx';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { calls } from '../server/calls.ts';
import { counted } from '../snags/counted.ts';
import { LevelMark } from '../snags/level-mark.tsx';
import { openSnags } from '../snags/open-snags.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { useCarCut } from './car-cut.ts';
import { cutUnits, useCutWords } from './cut-words.ts';
import { areaWords, lengthWords, massWords, panelNumbers, sizeWords, thicknessWords } from './panel-numbers.ts';

/** Every panel and lever, with the worst of each. */
export function CutList(): ReactNode {
  const car = useCar()!;
  const { cut, isOld } = useCarCut();
  // By themselves at once; holes for what goes through them are no part of a row.
  const layouts = useMemo(() => (cut === null || isOld ? panelLayouts(car) : cut.panels), [cut, isOld, car]);
  const { panels = [], levers = [], sheets = [] } = car;
  const answers = useMemo(() => new Map(levers.map((lever) => [lever.id, leverAnswer(car, lever)])), [car, levers]);
  const snags = openSnags(useStanding()?.snags ?? []);
  return (
    <article className="paper">
      <PaperHead below="Panels laid flat from their measured corners; levers with their ratio and effort. Each opens.">
        What do I cut?
      </PaperHead>
      {panels.length === 0 ? <p>No panels yet. Four corners by tape make the first.</p> : null}
      <ul className="cut-list" aria-label="Panels">
        {panels.map((panel) => (
          <li key={panel.id}>
            <PanelRow
              panel={panel}
              pieces={layouts.filter((layout) => layout.panel.id === panel.id)}
              snags={snags.filter((snag) => snag.panel === panel.id)}
            />
          </li>
        ))}
      </ul>
      <div className="keys no-print">
        <Key weight={panels.length === 0 ? 'do' : 'plain'} onClick={() => open({ kind: 'cut', id: 'corners/' })}>
          Put a panel in
        </Key>
        <Key onClick={() => open({ kind: 'cut', id: 'template/' })}>Template from a photo</Key>
        <Key onClick={() => open({ kind: 'cut', id: 'new-lever' })}>Put a lever in</Key>
        <Key onClick={() => print()}>Print</Key>
      </div>
      <SheetList rows={sheets} hasFlat={layouts.some(({ flats }) => flats.length > 0)} />
      {levers.length === 0 ? null : (
        <section className="cut-section" aria-label="Levers">
          <h2>{counted(levers.length, 'lever')}</h2>
          <ul className="cut-list">
            {levers.map((lever) => (
              <li key={lever.id}>
                <LeverRow
                  lever={lever}
                  answer={answers.get(lever.id)}
                  snags={snags.filter((snag) => snag.lever === lever.id)}
                />
              </li>
            ))}
          </ul>
        </section>
      )}
      <UnitChoice words={cutUnits} />
    </article>
  );
}

interface PanelRowWish {
  readonly panel: Panel;
  readonly pieces: readonly PanelLayout[];
  readonly snags: readonly Snag[];
}

function PanelRow({ panel, pieces, snags }: PanelRowWish): ReactNode {
  const isInch = useSignal(tapeUnit) === 'in';
  const { sizeMm, massKg, freeMm2 } = panelNumbers(pieces);
  const sheet = `${panel.sheet ?? '5052-H32'}, ${thicknessWords(panel.thicknessMm, isInch)}`;
  const numbers = [
    sizeMm === null ? 'not laid out' : sizeWords(sizeMm, isInch),
    sheet,
    ...(sizeMm === null ? [] : [massWords(massKg, isInch)]),
    ...(freeMm2 > 0 ? [`${areaWords(freeMm2, isInch)} free`] : []),
  ];
  return (
    <button type="button" className="cut-row" onClick={() => open({ kind: 'cut', id: `panel/${panel.id}` })}>
      <span className="cut-name">
        <strong>{panel.id}</strong>
        <span>{panel.name ?? ''}</span>
      </span>
      <span className="small soft">{numbers.join(' · ')}</span>
      <Worst snags={snags} />
    </button>
  );
}

function Worst({ snags }: { readonly snags: readonly Snag[] }): ReactNode {
  const words = useCutWords();
  const [worst] = snags.filter(({ level }) => level !== 'note');
  if (worst === undefined) return null;
  return (
    <span className="small">
      <LevelMark level={worst.level} /> {words(worst.text)}
    </span>
  );
}

interface LeverRowWish {
  readonly lever: Lever;
  readonly answer: LeverAnswer | undefined;
  readonly snags: readonly Snag[];
}

function LeverRow({ lever, answer, snags }: LeverRowWish): ReactNode {
  const isInch = useSignal(tapeUnit) === 'in';
  const ratios = (answer?.outputs ?? []).map(
    ({ to, restRatio }) => `${restRatio === null ? 'dead centre' : `${formatNumber(restRatio, 2)} : 1`} to ${to}`,
  );
  const travel = answer?.handleMm;
  return (
    <button type="button" className="cut-row" onClick={() => open({ kind: 'cut', id: `lever/${lever.id}` })}>
      <span className="cut-name">
        <strong>{lever.id}</strong>
        <span>{lever.name ?? ''}</span>
      </span>
      <span className="small soft">
        {[
          ...ratios,
          ...(travel === null || travel === undefined
            ? []
            : [`handle ${lengthWords(Math.abs(travel[1] - travel[0]), isInch)}`]),
        ].join(' · ')}
      </span>
      <Worst snags={snags} />
    </button>
  );
}

/** Sheets at hand to cut from, and all panels laid on them. */
function SheetList({ rows, hasFlat }: { readonly rows: readonly SheetStock[]; readonly hasFlat: boolean }): ReactNode {
  const now = useSignal(kept)!;
  const isInch = useSignal(tapeUnit) === 'in';
  return (
    <section className="cut-section" aria-label="Sheets at hand">
      <h2>Sheets at hand</h2>
      {rows.length === 0 ? <p className="soft">None said.</p> : null}
      <ul>
        {rows.map(({ sheet, thicknessMm, sizeMm, qty = 1 }, i) => (
          // Two sheets may be alike: their place in the list is what they go by.
          <li className="cut-thing" key={`${i} ${sheet}`}>
            <span>{`${qty} × ${sheet}, ${thicknessWords(thicknessMm, isInch)}, ${sizeWords(sizeMm, isInch)}`}</span>
            <Key weight="bare" onClick={() => open({ kind: 'cut', id: `sheet/${i}` })}>
              Change
            </Key>
          </li>
        ))}
      </ul>
      <div className="keys no-print">
        <Key onClick={() => open({ kind: 'cut', id: 'sheet/' })}>Put a sheet in</Key>
        <Key onClick={() => open({ kind: 'cut', id: 'brake/' })}>The brake they are folded on</Key>
      </div>
      {hasFlat ? <OnSheets car={now.id} isInch={isInch} isUsual={rows.length === 0} /> : null}
    </section>
  );
}

interface OnSheetsWish {
  readonly car: string;
  readonly isInch: boolean;
  readonly isUsual: boolean;
}

/** All panels on the sheets as files: where each lies, its grain kept, what is lost and what is kept. */
function OnSheets({ car, isInch, isUsual }: OnSheetsWish): ReactNode {
  const path = (ending: 'dxf' | 'svg' | 'pdf'): string =>
    calls.sheetsPath(car, ending, { paper: isInch ? 'Letter' : 'A4', isInch });
  return (
    <>
      <p className="small soft">
        {`All panels laid on ${isUsual ? 'sheets of usual sizes (common practice, no source)' : 'these sheets'}: grain kept, ${lengthWords(SPACING_MM, isInch)} between them, with what is lost and what is kept.`}
      </p>
      <div className="cut-files no-print">
        <a className="key" href={path('pdf')} download="panels-on-sheets.pdf">
          Panels on sheets (PDF)
        </a>
        <a className="key" href={path('dxf')} download="panels-on-sheets.dxf">
          DXF of the sheets
        </a>
        <a className="key" href={path('svg')} target="_blank" rel="noreferrer">
          SVG of the sheets
        </a>
      </div>
    </>
  );
}
