import { TextInput } from '@mantine/core';
import { type ReactNode, useId, useRef, useState } from 'react';
import type { Parsed } from '#units';
import { Key } from '../frame/key.tsx';
import { afterPress } from '../bench/pressing.ts';
import { useSignal } from '../bench/signal.ts';
import { tapeMm, unitWritten } from './tape-text.ts';
import { toldAs } from './told-as.ts';
import { rememberUnit, tapeUnit } from './tape-unit.ts';

interface Wish<T> {
  readonly label: string;
  readonly text: string;
  readonly onText: (text: string) => void;
  /** What the text means, or one line that says why not. */
  readonly read: (text: string) => Parsed<T>;
  /** What stands under the field while it can be read. */
  readonly told?: (value: T, text: string) => string;
  /** Faults are shown although the field was not left yet. */
  readonly isAsked: boolean;
  readonly placeholder?: string;
  /** What it is called where its label stands more than once. */
  readonly spoken?: string;
}

/** A field in trade words: under it what was understood, or what is wrong and the ways it could be meant, as keys to press. */
export function ReadField<T>({ label, text, onText, read, told, isAsked, placeholder, spoken }: Wish<T>): ReactNode {
  const [isLeft, setLeft] = useState(false);
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  const understood = read(text);
  // Said while it is typed, in red once the field is left: a line that came only then would push away the key that is being pressed.
  const hasFault = !understood.ok && (isAsked || text.trim() !== '');
  const isWrong = hasFault && (isAsked || isLeft);
  const below = understood.ok ? (told?.(understood.value, text) ?? '') : '';
  const ways = understood.ok ? [] : understood.ways.filter((way) => read(way).ok);
  return (
    <div className={`read-field ${hasFault && !isWrong ? 'read-typing' : ''}`}>
      <TextInput
        ref={field}
        label={label}
        value={text}
        placeholder={placeholder}
        aria-label={spoken}
        autoComplete="off"
        spellCheck={false}
        maxLength={80}
        aria-describedby={below === '' ? undefined : id}
        error={hasFault ? understood.fault : undefined}
        onChange={(event) => onText(event.currentTarget.value)}
        onFocus={() => setLeft(false)}
        onBlur={() => {
          setLeft(true);
          const written = unitWritten(text);
          if (understood.ok && written !== undefined) afterPress(() => rememberUnit(written));
        }}
      />
      {below === '' ? null : (
        <p className="small soft read-below" id={id}>
          {below}
        </p>
      )}
      {ways.length === 0 ? null : (
        <div className="keys read-ways" role="group" aria-label={`${spoken ?? label}: could be`}>
          {ways.map((way) => (
            <Key
              key={way}
              onClick={() => {
                onText(way);
                field.current?.focus();
                const unit = unitWritten(way);
                if (unit !== undefined) rememberUnit(unit);
              }}
            >
              {way}
            </Key>
          ))}
        </div>
      )}
    </div>
  );
}

interface TapeWish extends Omit<Wish<number>, 'read' | 'told'> {
  readonly most?: (mm: number) => string | undefined;
}

/** A distance off a tape, in any unit; the unit that is written stays for the next number. */
export function TapeField({ most, ...rest }: TapeWish): ReactNode {
  const unit = useSignal(tapeUnit);
  const read = (text: string): Parsed<number> => {
    const value = tapeMm(text, unit);
    const fault = value.ok ? most?.(value.value) : undefined;
    return fault === undefined ? value : { ok: false, fault, ways: [] };
  };
  return <ReadField {...rest} read={read} told={(mm, text) => toldAs(text, mm)} />;
}

const units = ['mm', 'cm', 'in', null] as const;

/** In which unit a bare number is read: set by the last unit written, or here. */
export function UnitKeys(): ReactNode {
  const now = useSignal(tapeUnit);
  return (
    <div className="keys unit-keys" role="group" aria-label="A number without a unit is read in">
      <span className="small soft">A number without a unit is</span>
      {units.map((unit) => (
        <Key key={unit ?? 'ask'} aria-pressed={now === unit} onClick={() => rememberUnit(unit)}>
          {unit ?? 'asked about'}
        </Key>
      ))}
    </div>
  );
}
