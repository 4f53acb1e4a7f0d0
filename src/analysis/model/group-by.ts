/** Items by their key, in the order of its first item. */
export const groupBy = <T, K>(items: readonly T[], key: (item: T) => K): ReadonlyMap<K, readonly T[]> => {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const of = key(item);
    const list = groups.get(of);
    if (list) list.push(item);
    else groups.set(of, [item]);
  }
  return groups;
};
