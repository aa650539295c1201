/** Candidates by when they could be done, the soonest first, of equal ones that with the lower number. */
export interface Soonest {
  /** Takes up other candidates: numbers below `count`, by their moments; those at Infinity never come. */
  begin(moments: ArrayLike<number>, count: number): void;
  /** The candidate that comes first, -1 where there is none. */
  first(): number;
  /** Takes out the first. */
  drop(): void;
}

/** A heap of at most so many candidates: of most of them nothing is ever asked. */
export function soonestOf(most: number): Soonest {
  const heap = new Int32Array(most);
  let moments: ArrayLike<number> = [];
  let count = 0;

  const precedes = (a: number, b: number): boolean =>
    moments[a] < moments[b] || (moments[a] === moments[b] && a < b);

  /** Puts a candidate in at a place or below it, where it belongs. */
  const sink = (place: number, candidate: number): void => {
    let at = place;
    for (;;) {
      let child = 2 * at + 1;
      if (child >= count) break;
      if (child + 1 < count && precedes(heap[child + 1], heap[child])) child += 1;
      if (precedes(candidate, heap[child])) break;
      heap[at] = heap[child];
      at = child;
    }
    heap[at] = candidate;
  };

  return {
    begin(of, candidates) {
      moments = of;
      count = 0;
      for (let c = 0; c < candidates; c += 1) {
        if (moments[c] === Infinity) continue;
        heap[count] = c;
        count += 1;
      }
      for (let i = (count >> 1) - 1; i >= 0; i -= 1) sink(i, heap[i]);
    },
    first: () => (count > 0 ? heap[0] : -1),
    drop() {
      count -= 1;
      if (count > 0) sink(0, heap[count]);
    },
  };
}
