import { expect, test } from 'vitest';
import { memoSteps } from '../../../src/analysis/cache/memo-steps.js';

test('what was computed step by step is not computed again by who asks for the whole', () => {
  const done: number[] = [];
  const sum = memoSteps(function* () {
    for (const each of [1, 2, 3]) {
      done.push(each);
      yield;
    }
    return 6;
  });
  const steps = sum.inSteps();
  steps.next();
  steps.next();
  expect(done).toEqual([1, 2]);
  expect(sum()).toBe(6);
  expect([...steps, ...sum.inSteps()]).toEqual([]);
  expect(done).toEqual([1, 2, 3]);
});

test('what fails is begun anew by the next who asks', () => {
  let tries = 0;
  const value = memoSteps<string>(function* () {
    yield;
    if (++tries === 1) throw new Error('not yet');
    return 'there';
  });
  expect(() => [...value.inSteps()]).toThrow('not yet');
  expect(value()).toBe('there');
});
