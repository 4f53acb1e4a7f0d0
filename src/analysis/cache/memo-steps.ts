/** A value that is computed when it is first called for, or before that a step at a time. */
export interface Stepwise<T> {
  (): T;
  /** Computes what is not computed yet, and stops wherever a keystroke may break it off. */
  readonly inSteps: () => Generator<void, void>;
}

/** The value that `make` returns. What was computed stays, whoever goes on; what fails is begun anew by the next who asks. */
export const memoSteps = <T>(make: () => Generator<void, T>): Stepwise<T> => {
  let run: Generator<void, T> | undefined;
  let value: { readonly of: T } | undefined;
  const isThere = (): boolean => {
    if (value) return true;
    run ??= make();
    try {
      const step = run.next();
      if (step.done) value = { of: step.value };
    } catch (error) {
      run = undefined;
      throw error;
    }
    return value !== undefined;
  };
  const all = (): T => {
    while (!isThere());
    return value!.of;
  };
  return Object.assign(all, {
    *inSteps(): Generator<void, void> {
      while (!isThere()) yield;
    },
  });
};

/** The outcome of a computation in steps, in one go. */
export const inOneGo = <T>(run: Generator<void, T>): T => {
  for (;;) {
    const step = run.next();
    if (step.done) return step.value;
  }
};
