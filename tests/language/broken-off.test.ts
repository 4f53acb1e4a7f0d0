import { URI } from 'langium';
import { expect, test } from 'vitest';
import { tubText } from '../../bench/tub-text.js';
import { analyse, analyseNow, type Analysis } from '../../src/language/analyse.js';
import { openTexts } from '../../src/language/workspace/open-texts.js';
import { testServices } from '../support/analyse-text.js';

const PANELS = 60;
const text = tubText(PANELS);
const store = testServices().shared.workspace.LangiumDocuments;
const opened = (): Parameters<typeof analyse>[1] =>
  openTexts(testServices(), [[URI.parse('file:///bench/row.tub'), text]]);
const toldBy = ({ findings }: Analysis): readonly string[] =>
  findings.map(({ code, message, at }) => `${at} ${code} ${message}`);

test('a check may be broken off many times between any two panels, and the next one finds the same', () => {
  const whole = analyse(store, opened());
  let steps = 1;
  let step = whole.next();
  for (; !step.done; step = whole.next()) steps++;
  expect(steps).toBeGreaterThan(2 * PANELS);
  for (let share = 0; share < 1; share += 0.1) {
    const document = opened();
    const run = analyse(store, document);
    for (let left = Math.floor(share * steps); left > 0; left--) run.next();
    expect(toldBy(analyseNow(store, document)), `after ${share} of the steps`).toEqual(toldBy(step.value));
  }
});
