/** A queue that gives the entry with the least key first (binary heap); equal keys by the smaller item. */
export class LowestFirst {
  private readonly heap: (readonly [number, number])[] = [];

  push(key: number, item: number): void {
    const heap = this.heap;
    let i = heap.push([key, item]) - 1;
    while (i > 0) {
      const parent = (i - 1) >> 1;
      if (!comesBefore(heap[i], heap[parent])) return;
      [heap[i], heap[parent]] = [heap[parent], heap[i]];
      i = parent;
    }
  }

  /** Key and item; undefined when empty. */
  pop(): readonly [number, number] | undefined {
    const heap = this.heap;
    const first = heap[0];
    const last = heap.pop();
    if (heap.length === 0 || !last) return first;
    heap[0] = last;
    for (let i = 0; ; ) {
      const [left, right] = [2 * i + 1, 2 * i + 2];
      let least = i;
      if (left < heap.length && comesBefore(heap[left], heap[least])) least = left;
      if (right < heap.length && comesBefore(heap[right], heap[least])) least = right;
      if (least === i) return first;
      [heap[i], heap[least]] = [heap[least], heap[i]];
      i = least;
    }
  }
}

const comesBefore = (a: readonly [number, number], b: readonly [number, number]): boolean =>
  a[0] < b[0] || (a[0] === b[0] && a[1] < b[1]);
