import type { Car, Edit, Panel } from '#car';
import { templateOf, type TemplateShape } from '#panels';
import type { Parsed } from '#units';
import { type PanelDraft, panelEdits, panelFrom } from '../cut/panel-draft.ts';
import { knownMm } from '../tape/port-draft.ts';
import type { TapeUnit } from '../tape/tape-text.ts';
import { type MatchDraft, matchesFrom } from './match-draft.ts';
import { type Card, isCorrected } from './card.ts';

type Template = NonNullable<Panel['template']>;

/** No outline that may be off by more is given, from a photo or corrected by hand [mm]. */
const MOST_MM = 2;

/** How well a card is known: as the photo says, or as its worst corrected corner. */
function cardKnownMm(card: Card, unit: TapeUnit): Parsed<number> {
  const { errorMm } = card.found;
  if (!isCorrected(card)) return { ok: true, value: errorMm };
  const read = knownMm(card.byHand, unit);
  if (!read.ok) return { ...read, fault: `what is corrected: ${read.fault}` };
  if (read.value > MOST_MM)
    return {
      ok: false,
      fault: `what is corrected is known to ±${read.value} mm; at most ${MOST_MM} mm is allowed: tape it`,
      ways: [],
    };
  return { ok: true, value: Math.max(errorMm, read.value) };
}

type Made = Parsed<{ readonly edits: readonly Edit[]; readonly done: string }>;

/** The edit that puts a card in as a panel. */
export function cardEdits(
  car: Car,
  {
    panel,
    card,
    matches,
  }: { readonly panel: PanelDraft; readonly card: Card; readonly matches: readonly MatchDraft[] },
  unit: TapeUnit,
): Made {
  const known = cardKnownMm(card, unit);
  if (!known.ok) return known;
  const found = matchesFrom(card.shape, matches, unit);
  if (!found.ok) return found;
  const template = { ...templateOf(card.shape, known.value, [0, 0]), matches: [...found.value] };
  const made = panelFrom(car, panel, { id: '', thicknessMm: 1, template }, unit);
  if (!made.ok) return made;
  return { ok: true, value: { edits: panelEdits(undefined, made.value), done: `Panel ${panel.id} is in` } };
}

/** The edits that change a card which is on the car. */
export function cardChanges(
  car: Car,
  was: Panel & { readonly template: Template },
  now: { readonly panel: PanelDraft; readonly shape: TemplateShape; readonly matches: readonly MatchDraft[] },
  unit: TapeUnit,
): Made {
  const found = matchesFrom(now.shape, now.matches, unit);
  if (!found.ok) return found;
  const { knownToMm } = was.template;
  const { knownToMm: _, ...shape } = templateOf(now.shape, 0, [0, 0]);
  const template = { ...shape, ...(knownToMm === undefined ? {} : { knownToMm }), matches: [...found.value] };
  const made = panelFrom(car, now.panel, { ...was, template }, unit);
  if (!made.ok) return made;
  return { ok: true, value: { edits: panelEdits(was, made.value), done: `Panel ${was.id} changed` } };
}
