import { describe, expect, it } from 'vitest';
import { rectangle } from '../windows/seeded-panels.fixture.ts';
import { windowField } from '../windows/window-field.ts';
import type { WindowField, WindowSpec } from '../windows/window-spec.ts';
import { lighteningFaults } from './lightening.ts';
import { panelStrength, type PanelStrength } from './panel-strength.ts';
import { type JudgedPanel, strengthFindings, windowFindings, type WorkedOtherwise } from './strength-findings.ts';

const outline = rectangle(400, 200);
const spec: WindowSpec = {
  id: 'W1',
  shape: 'trapezoid',
  thicknessMm: 1.2,
  count: 6,
  webMm: 8,
  edgeMm: 20,
  along: { from: [0, 0], to: [400, 0] },
};
const fieldOf = (change: Partial<WindowSpec>): WindowField => {
  const answer = windowField(outline, [], { ...spec, ...change });
  if (!answer.ok) throw new Error(answer.why);
  return answer.field;
};
const panel: JudgedPanel = {
  panel: 'lid',
  thicknessMm: 1.2,
  yieldMpa: 159,
  load: { pressureKpa: 20, pressNPerMm: 60, shakeHz: 120 },
};
const worked = (change: Parameters<WorkedOtherwise>[0]): PanelStrength => {
  const sheet = { thicknessMm: change.thicknessMm ?? 1.2, stiffnessMpa: 69_600, poisson: 0.33, densityKgM3: 2685 };
  const field = fieldOf(change.webMm === undefined ? {} : { webMm: change.webMm });
  const answer = panelStrength(
    outline,
    field.openings.map((opening) => opening.outline),
    sheet,
    'simply',
    panel.load,
  );
  if ('why' in answer) throw new Error(answer.why);
  return answer;
};

describe('findings of strength', () => {
  const strength = worked({});
  const found = strengthFindings(panel, strength, worked, 8);
  it('tells frequency, stress and buckling with cures that are worked out', () => {
    expect(found.map(({ code }) => code)).toEqual(
      expect.arrayContaining(['panel-frequency-low', 'panel-stress-high', 'panel-buckles', 'panel-model-ends']),
    );
    const stress = found.find(({ code }) => code === 'panel-stress-high')!;
    // Of bending and in its plane together, wherever each is greatest.
    const both = ({ stressMpa, planeMpa }: PanelStrength): string => (stressMpa!.value + planeMpa!.value).toFixed(0);
    expect(stress.text).toMatch(/^\d+ MPa of bending and \d+ MPa in its plane/);
    expect(stress.level).toBe('stop');
    const [web, sheet] = stress.cures;
    expect(web).toMatch(/^webs of 12 mm instead of 8.*: \d+ -> \d+ MPa$/);
    // The cure's number is the panel's own worked out again.
    expect(sheet).toBe(`1.5 mm sheet instead of 1.2: ${both(strength)} -> ${both(worked({ thicknessMm: 1.5 }))} MPa`);
  });

  it('is silent where nothing is near its limit', () => {
    const calm: JudgedPanel = { ...panel, yieldMpa: 1e5, load: { shakeHz: 1 } };
    const { bucklingFactor: _, ...rest } = strength;
    expect(strengthFindings(calm, { ...rest, limits: [] }, () => undefined)).toEqual([]);
  });
});

describe('findings of windows', () => {
  it('are none for a field by the rules', () => {
    expect(windowFindings(panel, fieldOf({}), { edgeMm: 20 })).toEqual([]);
  });

  it('tell a thin web, a near edge, a tight corner and an area that is short', () => {
    const field = fieldOf({ webMm: 4, edgeMm: 5, cornerDrillMm: 6 });
    const found = windowFindings(panel, field, { freeMm2: field.freeMm2 + 5000 });
    expect(found.map(({ code, limit }) => [code, limit])).toEqual([
      ['window-web-thin', 6],
      ['window-edge-near', 6],
      ['window-corner-tight', 6],
      ['window-area-short', (field.freeMm2 + 5000) / 100],
    ]);
    expect(found.at(-1)!.cures[0]).toMatch(/^50 cm2 more/);
  });

  it('lightening holes keep to the usual rules (common practice)', () => {
    expect(lighteningFaults(30, 60, 50, 15)).toEqual([]);
    expect(lighteningFaults(40, 60, 50, 15)).toHaveLength(3);
  });
});
