import type { SourceId } from '#sources';

/** How long something is usually left on; a start, until the builder's own log says otherwise. */
export interface UsualLife {
  readonly of: 'rubber hose' | 'plastic-lined hose' | 'hose near heat' | 'brake hose' | 'o-ring';
  readonly standsMonths: number;
  readonly why: string;
  readonly source: SourceId;
}

export const usualLives = [
  {
    of: 'rubber hose',
    standsMonths: 60,
    why: "makers' four to six years from being made; half of it where it lies dry",
    source: 'builders-reports',
  },
  {
    of: 'plastic-lined hose',
    standsMonths: 120,
    why: 'its lining does not age, its braid chafes',
    source: 'from-memory',
  },
  {
    of: 'hose near heat',
    standsMonths: 24,
    why: 'every couple of seasons: failures inside the braid after one year in a hot bay',
    source: 'builders-reports',
  },
  { of: 'brake hose', standsMonths: 60, why: 'five years', source: 'from-memory' },
  { of: 'o-ring', standsMonths: 12, why: 'at each opening, else each year', source: 'common-practice' },
] as const satisfies readonly UsualLife[];

export const usualLife = (of: UsualLife['of']): UsualLife => usualLives.find((row) => row.of === of)!;
