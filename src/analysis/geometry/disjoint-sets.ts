/** Which of the things 0 to `size` - 1 belong together, told pair by pair. Cost: all but linear in what is asked. */
export interface DisjointSets {
  /** The same for all that belong together: the least of them. */
  readonly rootOf: (item: number) => number;
  readonly join: (a: number, b: number) => void;
}

export const disjointSets = (size: number): DisjointSets => {
  const parent = Int32Array.from({ length: size }, (_, i) => i);
  const rootOf = (item: number): number => {
    let at = item;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]];
      at = parent[at];
    }
    return at;
  };
  const join = (a: number, b: number): void => {
    const [p, q] = [rootOf(a), rootOf(b)];
    parent[Math.max(p, q)] = Math.min(p, q);
  };
  return { rootOf, join };
};
