import { expect, test } from 'vitest';
import { isOwnExport } from '../../../../src/files/own-mark.js';
import { glbFiles, stepFiles, stlFiles } from '../../../../src/analysis/export/solid/solid-files.js';
import { createStages } from '../../../../src/analysis/stages/stages.js';
import { tubOf } from '../../../support/tub-of.js';

const longName =
  'a rinse basin whose builder gave it a name that goes on for much longer than any file header has room for';
const stages = createStages(
  tubOf({
    name: longName,
    panels: {
      floor: [
        [0, 0, 0],
        [100, 0, 0],
        [100, 60, 5],
        [0, 60, 5],
      ],
      back: [
        [0, 60, 5],
        [100, 60, 5],
        [100, 60, 45],
        [0, 60, 45],
      ],
    },
    bends: [['floor', 'back']],
  }),
);

test.each([
  ['step', stepFiles],
  ['stl', stlFiles],
  ['glb', glbFiles],
] as const)('a %s file is known again as an export of its tub', (ending, make) => {
  const [file, ...more] = make(stages);
  expect(more).toEqual([]);
  expect(file.name.endsWith(`.${ending}`)).toBe(true);
  const bytes = Buffer.from(file.content as string);
  expect(isOwnExport(bytes, longName, [])).toBe(true);
  expect(isOwnExport(bytes, longName.replace(/for$/, 'of'), [])).toBe(false);
});
