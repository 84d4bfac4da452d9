import { findSource, type Known } from '#sources';
import type { OpenedRule } from './opened-number.ts';

const knownWords: Readonly<Record<Known, string>> = {
  read: 'read in the source itself',
  'second-hand': "read in someone's copy of the source",
  practice: 'common practice without a published source: yours to change, with a reason',
  'from-memory': 'recalled, not checked against the source: check it before you rest on it',
  computed: 'worked out from stated inputs',
};

/** How a source is known, in words. */
export const howKnown = (id: string): string =>
  id === 'builder' ? OWN.known : knownWords[findSource(id)?.known ?? 'computed'];

/** A rule out of the bibliography: its text, which work it stands in, how we know it. */
export function publishedRule(text: string, id: string): OpenedRule {
  const row = findSource(id);
  if (id === 'builder' || row === undefined) return { text, ...OWN };
  const whose = [row.title, row.edition, row.year?.toString(), row.place].filter((word) => word !== undefined);
  return { text, whose: whose.join(', '), known: howKnown(id) };
}

const OWN = { whose: 'you: it stands in the car file', known: "the builder's own word" };

/** A rule that the builder set. */
export const ownRule = (text: string, whose = OWN.whose): OpenedRule => ({ text, whose, known: OWN.known });

/** No limit anybody set: what the tool counted or worked out, against what it takes. */
export const countedRule = (text: string): OpenedRule => ({
  text,
  whose: 'nobody set it: this is counted on the car as it stands',
  known: 'worked out from what is in the car file',
});
