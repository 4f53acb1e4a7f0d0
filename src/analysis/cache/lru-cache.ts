/** Everything that any cache holds: what one run of the analysis leaves to the next. */
let memory = new WeakMap<object, Map<string, unknown>>();

/**
 * Runs `run` as the first that this process sees; what was seen before is there again after it. For tests: no outcome may
 * depend on what was seen before.
 */
export const asIfNothingWasSeen = <T>(run: () => T): T => {
  const before = memory;
  memory = new WeakMap();
  try {
    return run();
  } finally {
    memory = before;
  }
};

/** From here on nothing was seen before. For tests, that none sees what another left. */
export const forgetAll = (): void => {
  memory = new WeakMap();
};

/** Values by name; beyond so many, the one that was not used for longest is forgotten. */
export class LruCache<T> {
  constructor(private readonly most: number) {}

  get(name: string): T | undefined {
    const value = this.values().get(name);
    if (value !== undefined) this.set(name, value);
    return value;
  }

  set(name: string, value: T): void {
    const values = this.values();
    values.delete(name);
    values.set(name, value);
    if (values.size > this.most) values.delete(values.keys().next().value!);
  }

  /** In order of last use. */
  private values(): Map<string, T> {
    let values = memory.get(this);
    if (!values) memory.set(this, (values = new Map()));
    return values as Map<string, T>;
  }
}
