/** A number as printed, and half a unit of its last digit: what the printer may be held to. */
export interface PrintedNumber {
  readonly value: number;
  readonly halfDigit: number;
}

const pattern = /[-+]?\d+(?:\.\d+)?(?:e[-+]?\d+)?/gi;

/** Every number printed in the text, in order. */
export function printedNumbers(text: string): readonly PrintedNumber[] {
  return [...text.matchAll(pattern)].map(([printed]) => {
    const [mantissa = '', exponent = '0'] = printed.toLowerCase().split('e');
    const decimals = mantissa.split('.')[1]?.length ?? 0;
    // A hair more than half: 0.5 in the last digit is itself not exact in binary.
    return { value: Number(printed), halfDigit: 0.5000001 * 10 ** (Number(exponent) - decimals) };
  });
}
