import { describe, expect, it } from 'vitest';
import { enterReadings } from '../../../src/language/lsp/enter-readings.js';
import { analyseText } from '../../support/analyse-text.js';

const TEXT = `units mm
sheet skin = stainless 18 ga radius 1.6
strip floor of skin from (0, 300, 100) heading front across right 200 {
    panel back   80 falling 90 deg
    panel base  300 falling 3 deg
    panel front to z 100 rising 80 deg
}`;
const MADE =
  '\n\nmade floor {\n    bend floor.back floor.base reads 87 deg\n    bend floor.base floor.front reads 83 deg\n}\n';

const at = (line: number, character = 3) => ({ start: { line, character }, end: { line, character } });

describe('entering readings', () => {
  it('writes what the gauge is to read at each bend, as one edit that changes nothing of the tub', () => {
    const analysis = analyseText(TEXT);
    const [action] = enterReadings(analysis, at(2), 'refactor.rewrite');
    expect(action.title).toBe('Enter readings of `floor`');
    const edits = Object.values(action.edit!.changes!);
    expect(edits).toEqual([[{ range: at(6, 1), newText: MADE }]]);
    const drawn = analysis.stages.tub.panels.map(({ corners }) => corners);
    const made = analyseText(TEXT + MADE);
    expect(made.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(made.stages.tub.panels.map(({ corners }) => corners)).toEqual(drawn);
  });

  it('is offered on a strip alone, and once', () => {
    expect(enterReadings(analyseText(TEXT), at(1), 'refactor.rewrite')).toEqual([]);
    expect(enterReadings(analyseText(TEXT + MADE), at(2), 'refactor.rewrite')).toEqual([]);
  });
});
