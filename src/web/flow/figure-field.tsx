import type { ReactNode } from 'react';
import { ReadField } from '../tape/read-field.tsx';
import { type Figure, figureText, inInches, readFigure } from './figure.ts';

interface Wish {
  readonly figure: Figure;
  readonly text: string;
  readonly isAsked: boolean;
  readonly isInch: boolean;
  readonly onText: (text: string) => void;
  /** What it is called where its label stands more than once. */
  readonly spoken?: string;
}

/** A number with its unit in its label; under it what another unit was understood as. */
export function FigureField({ figure, text, isAsked, isInch, onText, spoken }: Wish): ReactNode {
  const { label, unit } = figure;
  // What a number without a unit is taken for.
  const shown = !isInch ? unit : unit === '°C' ? '°F' : (inInches[unit]?.words ?? unit);
  const asTold = (value: number): string =>
    isInch && inInches[unit] !== undefined ? figureText(value, unit, true) : `${value} ${unit}`;
  return (
    <ReadField
      label={shown === '' ? label : `${label} [${shown}]`}
      text={text}
      onText={onText}
      read={(typed) => readFigure(typed, figure, isInch)}
      told={(value, typed) =>
        value === undefined || /^[+−-]?[\d.,]+$/u.test(typed.trim()) || typed.trim() === asTold(value)
          ? ''
          : asTold(value)
      }
      isAsked={isAsked}
      {...(spoken === undefined ? {} : { spoken })}
    />
  );
}
