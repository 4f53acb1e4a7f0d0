import type { Rule } from './rule.js';

/** Every check, in the order in which they run; nothing else. One line per check, grouped by family. */
export const rules: readonly Rule[] = [
  // shape

  // bend

  // flat

  // drain

  // seal

  // join

  // make
];
