import { type ReactNode, useEffect, useRef, useState } from 'react';
import { FormBegun, useBegun } from '../bench/begun.ts';
import { place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import type { Edit } from '#car';
import type { Parsed } from '#units';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { FirstFault } from './first-fault.tsx';
import { UnitKeys } from './read-field.tsx';
import './tape.css';

interface Wish {
  readonly title: string;
  readonly below?: ReactNode;
  readonly keepWords: string;
  /** What is kept, or what is missing. */
  readonly made: Parsed<{ readonly edits: readonly Edit[]; readonly done: string }>;
  readonly onKept: () => void;
  readonly onLeave: () => void;
  readonly children: (isAsked: boolean) => ReactNode;
  /** Nothing in it is a length, pressure or the like: no unit is asked for. */
  readonly isUnitless?: boolean;
  /** Other things to press, beside keeping. */
  readonly others?: ReactNode;
}

/** A paper that changes the car: fields, what is missing in one line, one key to keep it. */
export function Form({
  title,
  below,
  keepWords,
  made,
  onKept,
  onLeave,
  children,
  isUnitless = false,
  others,
}: Wish): ReactNode {
  const [asked, setAsked] = useState(0);
  const paper = useRef<HTMLFormElement>(null);
  const begun = useBegun();
  const address = JSON.stringify(useSignal(place).paper);
  useEffect(() => setAsked(0), [title]);
  useEffect(begun.mark, [address, begun.mark]);
  const send = async (): Promise<void> => {
    setAsked(asked + 1);
    if (!made.ok) return;
    const { edits, done } = made.value;
    if (edits.length === 0 || (await begun.keep(edits, done))) onKept();
  };
  return (
    <form
      className="paper tape-paper"
      ref={paper}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void send();
      }}
    >
      <PaperHead below={below}>{title}</PaperHead>
      {isUnitless ? null : <UnitKeys />}
      {children(asked > 0)}
      <FirstFault asked={asked} fault={made.ok ? null : made.fault} within={paper} />
      <div className="keys tape-do">
        <Key type="submit" weight="do">
          {keepWords}
        </Key>
        <Key onClick={onLeave}>Leave it</Key>
        <FormBegun value={begun}>{others}</FormBegun>
      </div>
    </form>
  );
}
