import { describe, expect, it } from 'vitest';
import { bendFacts } from '../../../src/analysis/report/making/bend-facts.js';
import { reportBends } from '../../../src/analysis/report/making/bends.js';
import { reportMaking } from '../../../src/analysis/report/making/making.js';
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

/** Between ends cut on the slant the line in the flat is not as long as the sharp edge on the wet face. */
describe('a bend between ends cut on the slant', () => {
  const { stages } = analyseText(`units mm
sheet skin = stainless thickness 1.2 radius 1.6
point A = (0, 0, 0)  point B = (300, 0, 0)  point C = (360, 0, 100)  point D = (-40, 0, 100)
panel wall of skin = A B C D
flange ear on wall[C D] turned out level by 25
`);

  it('is as long in the list as its line in the flat, and as its stroke; the wet edge is told apart', () => {
    const [row] = reportBends(stages);
    const [flat] = stages.flats();
    const { start, end } = flat!.bends[0];
    const line = Math.hypot(end[0] - start[0], end[1] - start[1]);
    expect(row.length_mm).toBeCloseTo(line, 4);
    expect(row.wet_edge_mm).toBeCloseTo(400, 4);
    expect(Math.abs(row.wet_edge_mm - row.length_mm)).toBeGreaterThan(0.1);
    const [{ steps }] = reportMaking(stages).sequence;
    expect(steps[0].length_mm).toBeCloseTo(row.length_mm, 4);
  });
});
