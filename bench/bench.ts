/** One thing to time. `prepare` does what shall not be timed and gives back the work. */
export interface Bench {
  readonly name: string;
  readonly prepare: (panels: number) => Work | Promise<Work>;
}

export type Work = () => unknown;

export const SIZES = [10, 100, 1000, 10000];

/** Shortest of some runs, ms: what the code costs when nothing else disturbs it. */
export const timeOf = async (work: Work): Promise<number> => {
  let best = Infinity;
  const until = performance.now() + 1500;
  for (let run = 0; run < 15 && (run < 2 || performance.now() < until); run++) {
    const start = performance.now();
    await work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
};
