import { describe, expect, it } from 'vitest';
import { bendFacts } from '../../../src/analysis/report/bend-facts.js';
import { reportBends } from '../../../src/analysis/report/bends.js';
import { reportMaking } from '../../../src/analysis/report/making.js';
import { sceneOf } from '../../../src/analysis/scene/scene.js';
import { bendText } from '../../../src/language/lsp/hover/bend-text.js';
import { analyseText } from '../../support/analyse-text.js';

/** Too narrow for the press once one wall stands: the plan takes the other brake, though by itself each bend suits the press. */
const narrow = `units mm
sheet skin = steel thickness 1 radius 1.2
strip floor of skin from (0, 80, 70) heading front across right 200 {
    panel back to z 0 falling 90 deg
    panel base 80 level
    panel front to z 70 rising 90 deg
}
shop "yard" {
    press brake press { force 25 ton  bed 1250  die 8 10  punch radius 1  nose 30 deg  fingers 20 25 30 40 50 75 100 150  depth 120  opening 200 }
    folding brake leaf { width 1250  capacity 1.5  depth 120  nose 45 deg  angle at most 135 deg }
}
`;

describe('a bend as it is planned', () => {
  const analysis = analyseText(narrow);
  const { stages } = analysis;

  it('is on the machine of its stroke, with the force and the angle of the stroke, wherever it is told', () => {
    const [sequence] = reportMaking(stages).sequence;
    expect(sequence.outcome).toBe('planned');
    const machines = new Set<string>();
    for (const bend of stages.shape().bends) {
      const step = sequence.steps.find(({ bends }) => bends.includes(bend.name))!;
      const row = reportBends(stages)[bend.index];
      const facts = bendFacts(stages, bend.index)!;
      expect(row).toMatchObject({ machine: step.machine, die_mm: step.die_mm, force_kN: step.force_kN });
      expect(facts).toMatchObject({ stroke: step.step, machine: step.machine, die_mm: step.die_mm });
      expect(facts.bend_to_deg).toBeCloseTo(step.bend_to_deg, 2);
      expect(bendText(analysis, bend)).toContain(`stroke ${step.step}: on \`${step.machine}\``);
      const shown = sceneOf('bends', stages).find(({ key }) => key === `step:${sequence.part} ${step.step}`)!;
      expect(JSON.stringify(shown.item)).toContain(`"${step.machine}`);
      machines.add(step.machine);
    }
    expect(machines.has('leaf')).toBe(true);
  });

  it('is told by itself where its part has no order', () => {
    const { stages: blocked } = analyseText(narrow.replace(/ +folding brake.*\n/, ''));
    expect(bendFacts(blocked, 0)).toMatchObject({ stroke: null, machine: 'press' });
  });
});
