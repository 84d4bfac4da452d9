import { type ReactNode, useMemo } from 'react';

import type { Snag } from '#snags';
import { formatNumber, inchesFromMm, inchText, usText } from '#units';
import { useSignal } from '../bench/signal.ts';
import { useFlowLanguage } from '../flow/flow-language.ts';
import { tapeUnit } from '../tape/tape-unit.ts';

/** How a snag is said, in the units that the builder works in. */
export interface SnagLanguage {
  readonly text: (sentence: string) => string;
  readonly number: (value: number, unit: string | undefined) => string;
  /** A place on the car. */
  readonly place: (atMm: readonly number[]) => string;
}

/** As findings write it, and as it is said. */
const degrees = (text: string): string => text.replaceAll(/\bdegC\b/gu, '°C').replaceAll(/(?<=\d) deg\b/gu, '°');

/** One decimal, two where it is small: a bar and a millimetre of a keep-off are told alike. */
const told = (value: number): string =>
  formatNumber(value, value % 1 === 0 ? 0 : Math.abs(value) < 10 ? 2 : 1).replace('-', '−');

const inUs = (sentence: string): string => usText(inchText(sentence));
const asItIs = (sentence: string): string => sentence;

export function useSnagLanguage({ question }: Pick<Snag, 'question'>): SnagLanguage {
  const said = useFlowLanguage();
  const isInch = useSignal(tapeUnit) === 'in';
  return useMemo(() => {
    const ofFluids = question === 'flow' || question === 'cook';
    const inUnits = ofFluids ? said.text : isInch ? inUs : asItIs;
    return {
      text: (sentence) => inUnits(degrees(sentence)),
      number: (value, unit) =>
        isInch || question === 'flow' ? said.number(value, unit) : degrees(`${told(value)} ${unit ?? ''}`.trim()),
      place: (atMm) =>
        isInch
          ? `${atMm.map((mm) => formatNumber(inchesFromMm(mm), 1)).join(', ')} in`
          : `${atMm.map((mm) => formatNumber(mm)).join(', ')} mm`,
    };
  }, [question, said, isInch]);
}

/** The sentence of a snag; one that does not name its line has it in front. */
export function SnagWords({ snag }: { readonly snag: Snag }): ReactNode {
  const { line, text } = snag;
  const said = useSnagLanguage(snag);
  return (
    <span className="snag-text">
      {line === undefined || text.includes(line) ? null : <strong>{`${line} · `}</strong>}
      {said.text(text)}
    </span>
  );
}

/** The best cure of a snag; nothing where there is none. */
export function SnagCure({ snag }: { readonly snag: Snag }): ReactNode {
  const said = useSnagLanguage(snag);
  const [first] = snag.cures;
  return first === undefined ? null : <span className="snag-cure">{said.text(first)}</span>;
}

/** Where its limit comes from. */
export function SnagSource({ snag }: { readonly snag: Snag }): ReactNode {
  const said = useSnagLanguage(snag);
  return <span className="snag-source">{said.text(snag.source)}</span>;
}
