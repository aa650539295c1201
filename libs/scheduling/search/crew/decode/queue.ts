/** Activities that could be placed next; taking one in or out is O(1). */
export interface Queue {
  count: number;
  readonly items: Int32Array;
  add(a: number): void;
  remove(a: number): void;
  clear(): void;
}

export function queueOf(n: number): Queue {
  const items = new Int32Array(n);
  const at = new Int32Array(n).fill(-1);
  const queue: Queue = {
    count: 0,
    items,
    add(a) {
      if (at[a] >= 0) return;
      at[a] = queue.count;
      items[queue.count] = a;
      queue.count += 1;
    },
    remove(a) {
      const i = at[a];
      if (i < 0) return;
      queue.count -= 1;
      const last = items[queue.count];
      items[i] = last;
      at[last] = i;
      at[a] = -1;
    },
    clear() {
      for (let i = 0; i < queue.count; i += 1) at[items[i]] = -1;
      queue.count = 0;
    },
  };
  return queue;
}
