import { describe, expect, test } from 'vitest';
import { lackingOfOneMachine } from '../../../src/analysis/aim/one-machine.js';
import { analyseText } from '../../support/analyse-text.js';
import { finished } from '../../support/search-problem.js';

const BEND = { narrow: 'press brake narrow { force 30 ton bed 250 die 8 12 16 punch radius 1 nose 30 deg depth 130 opening 250 }', leaf: 'folding brake leaf { width 1250 capacity 1.5 depth 80 nose 45 deg angle at most 100 deg }' }; // prettier-ignore

/** A strip 600 wide with one bend of 90 deg, a second one 200 wide with one of 130. */
const text = (machines: string, across = 600): string => `units mm
shop "corner" { ${machines} }
sheet skin = steel thickness 1 radius 1
strip wide of skin from (0, 300, 90) heading front across right ${across} {
    panel back 60 falling 90 deg
    panel base 200 level
}
strip sharp of skin from (0, 900, 90) heading front across right 200 {
    panel back 60 falling 130 deg
    panel base 200 level
}
`;

const lacking = (source: string): readonly string[] =>
  finished(lackingOfOneMachine(analyseText(source).stages, 'full')).map(({ message }) => message);

describe('one machine only', () => {
  test('is met where a machine makes every bend', () => {
    expect(lacking(text(`${BEND.narrow} ${BEND.leaf}`, 200))).toEqual([]);
  });

  test('names what the machine leaves over that leaves least, though together they make all', () => {
    const source = text(`${BEND.narrow} ${BEND.leaf}`);
    expect(analyseText(source).findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(lacking(source)).toEqual(['`narrow` does not make `wide.back wide.base`']);
  });

  test('says that nothing bends where nothing does', () => {
    expect(lacking(text('cutter p { bed 1500 by 3000 kerf 1.2 smallest hole 3 }'))).toEqual([
      'The shop has no machine that bends',
    ]);
  });
});
