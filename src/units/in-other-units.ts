/** Turns every figure of a sentence, with so many digits more; tells of each what it was and how it is shown. */
type Turn = (sentence: string, more: number, note: (was: string, shown: string) => void) => string;

/**
 * A sentence with its figures in other units. Names that the builder gave ("Header tank, 1.3 bar cap") stay as they are; two figures that
 * differ are told apart: where they would read alike, all have a digit more.
 *
 * @param names - that the builder gave
 */
export function inOtherUnits(sentence: string, names: readonly string[], turn: Turn): string {
  // Only a name with a number in it could be taken for one.
  const kept = names.filter((one) => /\d/u.test(one) && sentence.includes(one)).toSorted((a, b) => b.length - a.length);
  const [name] = kept;
  if (name !== undefined)
    return sentence
      .split(name)
      .map((piece) => inOtherUnits(piece, kept.slice(1), turn))
      .join(name);
  const said = new Map<string, string>();
  let alike = false;
  const plain = turn(sentence, 0, (was, shown) => {
    alike ||= (said.get(shown) ?? was) !== was;
    said.set(shown, was);
  });
  return alike ? turn(sentence, 1, () => undefined) : plain;
}
