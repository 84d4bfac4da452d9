import { TextInput } from '@mantine/core';
import { type ReactNode, useId, useRef, useState } from 'react';
import type { Parsed } from '#units';
import { Key } from '../frame/key.tsx';
import { useSignal } from '../bench/signal.ts';
import { readAs, tapeMm, unitWritten } from './tape-text.ts';
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
  readonly className?: string;
}

/** A field in trade words: under it what was understood, or what is wrong and the ways it could be meant, as keys to press. */
export function ReadField<T>({ label, text, onText, read, told, isAsked, placeholder, className }: Wish<T>): ReactNode {
  const [isLeft, setLeft] = useState(false);
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  const understood = read(text);
  const showsFault = !understood.ok && (isAsked || (isLeft && text.trim() !== ''));
  const below = understood.ok ? (told?.(understood.value, text) ?? '') : '';
  // Offered while it is typed, so that the next press of Tab comes to them; the fault in red waits until the field is left.
  const ways = understood.ok ? [] : understood.ways.filter((way) => read(way).ok);
  return (
    <div className={`read-field ${className ?? ''}`}>
      <TextInput
        ref={field}
        label={label}
        value={text}
        placeholder={placeholder}
        autoComplete="off"
        spellCheck={false}
        maxLength={80}
        aria-describedby={below === '' ? undefined : id}
        error={showsFault ? understood.fault : undefined}
        onChange={(event) => onText(event.currentTarget.value)}
        onBlur={() => setLeft(true)}
      />
      {below === '' ? null : (
        <p className="small soft read-below" id={id}>
          {below}
        </p>
      )}
      {ways.length === 0 ? null : (
        <div className="keys read-ways" role="group" aria-label={`${label}: could be`}>
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
  return (
    <div
      className="read-field"
      onBlur={() => {
        const written = unitWritten(rest.text);
        if (written !== undefined && read(rest.text).ok) rememberUnit(written);
      }}
    >
      <ReadField {...rest} read={read} told={(mm, text) => readAs(text, mm)} />
    </div>
  );
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
