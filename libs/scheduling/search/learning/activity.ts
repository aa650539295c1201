import { doubled } from '../../propagation/literal.ts';

const DECAY = 0.95;
const RESCALE = 1e100;
const OUTSIDE = -1;

/**
 * A binary heap of items by how much recent conflicts asked about them: each bump adds an
 * amount that grows by 1 / DECAY a conflict (M. Moskewicz et al., "Chaff", DAC 2001; the
 * heap as is custom since). O(log items) an operation.
 */
export class ActivityHeap {
  private score = new Float64Array(1024);
  private heap = new Int32Array(1024);
  /** Place in the heap. */
  private where = new Int32Array(1024).fill(OUTSIDE);
  private size = 0;
  private increment = 1;

  /** The item that is most active, -1 if there is none. */
  top(): number {
    return this.size === 0 ? -1 : this.heap[0];
  }

  decay(): void {
    this.increment /= DECAY;
  }

  /** Raises the item's score, and puts it in if it has never been. */
  bump(item: number): void {
    if (item >= this.score.length) this.grow();
    const isNew = this.score[item] === 0;
    this.score[item] += this.increment;
    if (this.score[item] > RESCALE) this.rescale();
    if (isNew) this.insert(item);
    else if (this.where[item] !== OUTSIDE) this.rise(this.where[item]);
  }

  private rescale(): void {
    const { score } = this;
    // Above 0 whatever is in the heap: 0 is the score of what has never been.
    for (let i = 0; i < score.length; i++)
      if (score[i] > 0) score[i] = Math.max(score[i] / RESCALE, Number.MIN_VALUE);
    this.increment /= RESCALE;
  }

  insert(item: number): void {
    this.heap[this.size] = item;
    this.where[item] = this.size;
    this.rise(this.size++);
  }

  private rise(from: number): void {
    const { heap, where, score } = this;
    const item = heap[from];
    let p = from;
    while (p > 0) {
      const parent = (p - 1) >> 1;
      if (score[heap[parent]] >= score[item]) break;
      heap[p] = heap[parent];
      where[heap[p]] = p;
      p = parent;
    }
    heap[p] = item;
    where[item] = p;
  }

  /** Takes the top out. */
  pop(): void {
    const { heap, where, score } = this;
    where[heap[0]] = OUTSIDE;
    const item = heap[--this.size];
    if (this.size === 0) return;
    let p = 0;
    for (;;) {
      let child = 2 * p + 1;
      if (child >= this.size) break;
      if (child + 1 < this.size && score[heap[child + 1]] > score[heap[child]]) child++;
      if (score[heap[child]] <= score[item]) break;
      heap[p] = heap[child];
      where[heap[p]] = p;
      p = child;
    }
    heap[p] = item;
    where[item] = p;
  }

  /**
   * Keeps the most active items, numbered anew in that order, and gives their old numbers. All
   * have to be in. O(items log items).
   */
  keep(most: number): Int32Array {
    const { heap, where, score } = this;
    const kept = heap
      .slice(0, this.size)
      .sort((a, b) => score[b] - score[a] || a - b)
      .subarray(0, most);
    const scores = Float64Array.from(kept, (item) => score[item]);
    score.fill(0);
    score.set(scores);
    where.fill(OUTSIDE);
    for (let k = 0; k < kept.length; k++) heap[k] = where[k] = k;
    this.size = kept.length;
    return kept;
  }

  private grow(): void {
    const half = this.score.length;
    this.heap = doubled(this.heap);
    this.where = doubled(this.where).fill(OUTSIDE, half);
    const score = new Float64Array(half * 2);
    score.set(this.score);
    this.score = score;
  }
}
