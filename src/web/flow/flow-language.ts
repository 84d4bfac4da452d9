import { useMemo } from 'react';
import { flowSentence, type FlowUnits, quantityWords } from '#book';
import { useCar } from '../bench/bench.ts';
import { useSignal } from '../bench/signal.ts';
import { tapeUnit } from '../tape/tape-unit.ts';

/** How the flow room's sentences and numbers are said: in the units that the builder works in. */
export interface FlowLanguage {
  readonly units: FlowUnits;
  readonly text: (sentence: string) => string;
  readonly number: (value: number, unit: string | undefined, limit?: number) => string;
}

export function useFlowLanguage(): FlowLanguage {
  const car = useCar();
  const units = useSignal(tapeUnit) === 'in' ? 'inch' : 'metric';
  return useMemo(() => {
    const named = [...(car?.parts ?? []), ...(car?.lines ?? []), ...(car?.cases ?? []), ...(car?.circuits ?? [])];
    const inner = (car?.circuits ?? []).flatMap(({ pumps = [], passages = [] }) => [...pumps, ...passages]);
    const names = [...named, ...inner].flatMap(({ id, name }) => [id ?? '', name ?? '']).filter((one) => one !== '');
    return {
      units,
      text: (sentence) => flowSentence(sentence, units, names),
      number: (value, unit, limit) => quantityWords(value, unit, units, limit),
    };
  }, [car, units]);
}
