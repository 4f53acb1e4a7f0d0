import type { Judge } from './judge.js';

/** Questions that one finding is worth, a verdict on the whole text counting as so many; what helps is found long before. */
const MOST_QUESTIONS = 180;
const VERDICT = 5;

/** The same judge as long as there is effort left: after that nothing can be judged, and nothing passes. */
export const withLimitedEffort = (judge: Judge): Judge => {
  let left = MOST_QUESTIONS;
  return {
    analysis: judge.analysis,
    shortfall: (finding, numbers) => (left-- > 0 ? judge.shortfall(finding, numbers) : NaN),
    *verdict(finding, numbers) {
      left -= VERDICT;
      return left > 0 ? yield* judge.verdict(finding, numbers) : { gone: false, brought: [], breaksOther: false };
    },
  };
};
