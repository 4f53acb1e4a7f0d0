import { piecesOf } from './words.js';

/** How often a shorter text is tried. */
const MOST_TRIALS = 250;

/** A shorter text that still fails, lines first and then words: what is left is needed for the fault. */
export const minimised = async (text: string, fails: (text: string) => Promise<boolean>): Promise<string> => {
  let trials = 0;
  const stillFails = async (shorter: string): Promise<boolean> => trials++ < MOST_TRIALS && fails(shorter);
  const lines = await fewest(text.split(/(?<=\n)/), stillFails);
  return (await fewest(piecesOf(lines.join('')), stillFails)).join('');
};

/** Takes out ever smaller runs, as long as the rest fails (delta debugging). */
const fewest = async (
  parts: readonly string[],
  fails: (text: string) => Promise<boolean>,
): Promise<readonly string[]> => {
  let kept = parts;
  for (let size = Math.ceil(kept.length / 2); size >= 1; size = size === 1 ? 0 : Math.ceil(size / 2)) {
    for (let at = 0; at < kept.length;) {
      const without = [...kept.slice(0, at), ...kept.slice(at + size)];
      if (without.length > 0 && (await fails(without.join('')))) kept = without;
      else at += size;
    }
  }
  return kept;
};
