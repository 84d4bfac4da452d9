import { useState } from 'react';
import { formatNumber, mmPerInch } from '#units';
import { tapeMm, type TapeUnit } from '../tape/tape-text.ts';

/** A length as a form shows it: to a tenth of a millimetre, or a thousandth of an inch. */
const written = (mm: number, unit: TapeUnit): string =>
  unit === 'in' ? `${formatNumber(mm / mmPerInch, 3)} in` : `${formatNumber(mm, 1)} mm`;

/** What is typed of a length that may also change otherwise: typed words stay while they mean the length that stands. */
export function useTyped(mm: number, unit: TapeUnit): readonly [string, (text: string) => void] {
  const [typed, setTyped] = useState<string | null>(null);
  const read = typed === null ? null : tapeMm(typed, unit);
  const stays = read !== null && (!read.ok || Math.abs(read.value - mm) < 1e-6);
  return [stays ? typed! : written(mm, unit), setTyped];
}
