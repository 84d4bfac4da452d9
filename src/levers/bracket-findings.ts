import type { BracketAnswer, BracketRow } from './bracket.ts';
import type { LeverFinding } from './lever-finding.ts';
import { limits } from './limits.ts';
import type { Say } from './say.ts';

const words: Readonly<Record<BracketRow['what'], string>> = {
  bearing: 'the pin presses on its hole with',
  'net-section': 'the strip round the pin is pulled with',
  'tear-out': 'the pin tears towards the edge with',
  foot: 'it bends over its foot with',
  'bolt-bearing': 'the bolt with the most to bear presses on its hole with',
  'bolt-tear-out': 'the bolt with the most to bear tears towards the edge with',
};

/** What the bracket does not stand, or gives too much; thickness cures both in proportion. */
export function bracketFindings(answer: BracketAnswer, thicknessMm: number, say: Say): LeverFinding[] {
  const worst = answer.rows.toSorted((a, b) => b.stressMpa / b.standsMpa - a.stressMpa / a.standsMpa)[0]!;
  const found: LeverFinding[] = [];
  const over = worst.stressMpa / worst.standsMpa;
  if (over > 1)
    found.push(
      say(
        'stop',
        'bracket-weak',
        `its bracket: ${words[worst.what]} ${worst.stressMpa.toFixed(0)} MPa at ${answer.forceN.toFixed(0)} N on each plate; ${answer.sheet.id} stands ${worst.standsMpa.toFixed(0)}`,
        answer.sheet.source,
        {
          value: worst.stressMpa,
          limit: worst.standsMpa,
          unit: 'MPa',
          cures: [
            `${(Math.ceil(thicknessMm * over * 2) / 2).toFixed(1)} mm instead of ${thicknessMm} mm: stress falls as the thickness rises`,
          ],
        },
      ),
    );
  const [light] = answer.lightening;
  if (light !== undefined) {
    const told = answer.lightening.map(({ hole, text, value, limit, unit }) => {
      const said = (x: number): string => (unit === '' ? x.toFixed(2) : `${x.toFixed(1)} mm`);
      return `hole ${hole + 1}: ${text} ${said(value)}, ${unit === '' ? 'at most' : 'at least'} ${said(limit)} is usual`;
    });
    found.push(
      say('fix', 'bracket-lightening', `its bracket, lightening ${told.join('; ')}`, 'common-practice', {
        value: light.value,
        limit: light.limit,
        unit: light.unit,
        cures: ['a smaller hole, or another place for it'],
      }),
    );
  }
  const { giveMm } = limits;
  if (answer.handGivesMm > giveMm.value)
    found.push(
      say(
        'fix',
        'bracket-gives',
        `its bracket lets the hand give ${answer.handGivesMm.toFixed(1)} mm at ${limits.giveAtN.value} N; less than ${giveMm.value} mm feels firm`,
        giveMm.source,
        {
          value: answer.handGivesMm,
          limit: giveMm.value,
          unit: 'mm',
          cures: [
            `${(Math.ceil((thicknessMm * answer.handGivesMm) / giveMm.value) * 1).toFixed(0)} mm instead of ${thicknessMm} mm, or a wider foot: it gives with the cube of the width`,
          ],
        },
      ),
    );
  return found;
}
