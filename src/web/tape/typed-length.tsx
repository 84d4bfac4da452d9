import { type ReactNode, useState } from 'react';
import { formatNumber, mmPerInch } from '#units';
import { useSignal } from '../bench/signal.ts';
import { ReadField } from './read-field.tsx';
import { tapeMm, type TapeUnit } from './tape-text.ts';
import { toldAs } from './told-as.ts';
import { tapeUnit } from './tape-unit.ts';

interface Wish {
  readonly label: string;
  readonly mm: number;
  readonly onMm: (mm: number) => void;
}

/** A length as a form shows it: to a tenth of a millimetre, or a thousandth of an inch. */
const written = (mm: number, unit: TapeUnit): string =>
  unit === 'in'
    ? `${formatNumber(mm / mmPerInch, 3)} in`
    : `${formatNumber(mm, Math.abs(mm - Math.round(mm)) < WHOLE_MM ? 0 : 1)} mm`;

/** So near a whole millimetre no tenth is said. */
const WHOLE_MM = 0.05;

/** What was typed still means the length, as closely as what comes of it is rounded [mm]. */
const SAME_MM = 0.02;

/** A length that may change otherwise too: typed words stay while they mean the length that stands. */
export function TypedLength({ label, mm, onMm }: Wish): ReactNode {
  const unit = useSignal(tapeUnit);
  const [typed, setTyped] = useState<string | null>(null);
  const read = typed === null ? null : tapeMm(typed, unit);
  const stays = read !== null && (!read.ok || Math.abs(read.value - mm) < SAME_MM);
  return (
    <ReadField
      label={label}
      text={stays ? typed! : written(mm, unit)}
      isAsked={false}
      read={(text) => tapeMm(text, unit)}
      told={(value, text) => toldAs(text, value)}
      onText={(text) => {
        setTyped(text);
        const now = tapeMm(text, unit);
        if (now.ok) onMm(now.value);
      }}
    />
  );
}
