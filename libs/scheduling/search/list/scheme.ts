/** Neighbours of each activity: those of `i` are `to[first[i]]` up to `to[first[i + 1]]`. */
export interface Links {
  readonly first: Int32Array;
  readonly to: Int32Array;
}

/** Forwards, from the start of the project; or backwards, from its end with time reversed. */
export type Direction = 0 | 1;

/** The makespan of a pass that found no plan: more than any other. */
export const NO_PLAN = 0x3fffffff;

/**
 * One serial generation: activities in the order of a list, each as early as the others and the
 * capacities allow. Backwards the same with time reversed, so that the list by falling finishes of
 * a plan presses it to the other side.
 */
export interface Pass {
  /**
   * Places the activities of `list`, which is right for `direction`, and writes their finishes.
   * Gives the makespan, or `NO_PLAN`. Allocates nothing.
   */
  run(list: Int32Array, direction: Direction, finish: Int32Array): number;
}

/**
 * A problem as lists see it, the same in both directions of time. A list is right for a direction
 * if whatever has to be placed before an activity stands before it; lists by falling finishes of a
 * plan made in one direction are right for the other one.
 */
export interface Scheme {
  readonly count: number;
  readonly duration: Int32Array;
  /** By direction, what has to be placed before. */
  readonly before: readonly [Links, Links];
  /** By direction, the same seen from the other side. */
  readonly after: readonly [Links, Links];
  /** By direction, how far the end is at least from an activity's finish: what has most to come is urgent. */
  readonly urgency: readonly [Int32Array, Int32Array];
  /** By direction, all activities in an order that is right. */
  readonly order: readonly [Int32Array, Int32Array];
  /** No makespan is less. */
  readonly least: number;
  /** What an activity asks for, as its duration times the shares of all capacities, scaled. */
  readonly work: Int32Array;
  /** A generator of its own. */
  readonly pass: () => Pass;
  /** One of another kind, that takes any list; null where there is none. */
  readonly parallel: (() => Pass) | null;
}

/** The work of a whole problem; sums over a window stay exact. */
const WORK = 1 << 26;

/** `Scheme.work`, from demands by resource, by activity. */
export function workOf(
  duration: Int32Array,
  demand: readonly Int32Array[],
  capacity: Int32Array,
): Int32Array {
  const work = duration.map(() => 0);
  const exact = Array.from(duration, (d, i) =>
    demand.reduce((sum, amounts, r) => sum + (d * amounts[i]) / Math.max(1, capacity[r]), 0),
  );
  const total = exact.reduce((sum, w) => sum + w, 0);
  return total === 0 ? work.fill(1) : work.map((_, i) => Math.round((WORK * exact[i]) / total));
}

/** Links of the pairs [of, neighbour]. */
export function linksOf(count: number, pairs: readonly (readonly [number, number])[]): Links {
  const first = new Int32Array(count + 1);
  for (const [of] of pairs) first[of + 1]++;
  for (let i = 0; i < count; i++) first[i + 1] += first[i];
  const next = first.slice();
  const to = new Int32Array(pairs.length);
  for (const [of, neighbour] of pairs) to[next[of]++] = neighbour;
  return { first, to };
}

/** An order in which `before` goes before, small numbers first where that is open; null on a cycle. */
export function rightOrder(before: Links, after: Links): Int32Array | null {
  const count = before.first.length - 1;
  const waits = Int32Array.from({ length: count }, (_, i) => before.first[i + 1] - before.first[i]);
  const order = new Int32Array(count);
  let found = 0;
  for (let i = 0; i < count; i++) if (waits[i] === 0) order[found++] = i;
  for (let k = 0; k < found; k++) {
    for (let p = after.first[order[k]]; p < after.first[order[k] + 1]; p++) {
      if (--waits[after.to[p]] === 0) order[found++] = after.to[p];
    }
  }
  return found === count ? order : null;
}
