import { describe, expect, it } from 'vitest';
import { ActivityHeap } from './activity.ts';

describe('activity', () => {
  it('keeps each item once, however long ago it was asked about', () => {
    const heap = new ActivityHeap();
    heap.bump(0);
    // Enough for the scores to be scaled down five times, by 1e100 each.
    for (let k = 0; k < 25_000; k++) {
      heap.decay();
      heap.bump(1);
    }
    heap.bump(0);
    heap.bump(0);
    const order: number[] = [];
    for (let k = 0; k < 4 && heap.top() >= 0; k++) {
      order.push(heap.top());
      heap.pop();
    }
    expect(order).toEqual([1, 0]);
  });
});
