/** The name most like `name`, when it is so like that a slip is likely: at most a third of its letters differ. */
export const nearestName = (name: string, candidates: readonly string[]): string | undefined => {
  const limit = Math.max(1, Math.floor(name.length / 3));
  let best: { readonly name: string; readonly slips: number } | undefined;
  for (const candidate of candidates) {
    if (candidate === name || Math.abs(candidate.length - name.length) > limit) continue;
    const slips = slipsBetween(name.toLowerCase(), candidate.toLowerCase());
    if (slips <= limit && (!best || slips < best.slips)) best = { name: candidate, slips };
  }
  return best?.name;
};

/** Letters to change, add or leave out to get from one word to the other. */
const slipsBetween = (a: string, b: string): number => {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      next[j] = Math.min(row[j] + 1, next[j - 1] + 1, row[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1));
    }
    row = next;
  }
  return row[b.length];
};
