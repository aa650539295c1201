import type { Compiled } from '../compiled/compiled.ts';
import type { Order } from '../compiled/order.ts';
import { isUncovered } from '../places/films.ts';
import type { State } from '../state/state.ts';
import type { Genome } from './genome.ts';
import { queueOf } from './queue.ts';

/** Whose turn it is in a decode: what is ready, what was put off, and what has come to go ahead of what. */
export interface Turns {
  /** What was put off, for want of room. */
  readonly deferred: readonly number[];
  /** Whether placing anything may make room for what was put off. */
  readonly unlockable: boolean;
  /** From now on in this placing order; `count` has to follow. */
  follow(next: Order): void;
  /** Counts for each activity what has to be placed before it, and what pulls it. */
  count(): void;
  /** Lines up all that is ready, nothing being put off. */
  gather(): void;
  /** How many are ready. */
  waiting(): number;
  /** Takes out the one whose turn it is. */
  pick(genome: Genome): number;
  /** Counts `a`, just placed, for what follows it. */
  settled(a: number): void;
  /** The same undone. */
  takenBack(a: number): void;
  /** Marks an activity that is waited for, and all that has to be placed before it. */
  hasten(a: number): void;
  /** Nothing is waited for any more. */
  calm(): void;
  /** Puts `a` off until something is placed that may make room; false where nothing of the kind is left. */
  defer(a: number): boolean;
  /** Something was placed that may make room for what was put off. */
  resume(): void;
  /** `a` could not be placed, and work was taken back: it and what was put off are tried again. */
  retry(a: number): void;
  /**
   * Places `a` before some placed work: the height to fall back to, -1 where none of it could come
   * later.
   */
  goAhead(a: number, of: readonly number[]): number;
  /** The one of some placed work that the genome would rather have later. */
  least(of: readonly number[], a: number, genome: Genome): number[];
  /** Forgets what this decode has come to place after others. */
  unlink(): void;
}

export function turnsOf(compiled: Compiled, state: State, present: Uint8Array): Turns {
  const { problem, activities } = compiled;
  const n = activities.length;
  const pending = new Int32Array(n);
  const boost = new Int32Array(n);
  const urgent = new Uint8Array(n);
  const deferred: number[] = [];
  /** What this decode has come to place after each activity, beyond the order of the problem. */
  const linked: number[][] = activities.map(() => []);
  /** Those of which there is any. */
  const linking: number[] = [];
  const unlockers = activities.flatMap(({ unlocks }, a) => (unlocks ? [a] : []));
  const queue = queueOf(n);
  let { order } = compiled;

  const isReady = (a: number): boolean =>
    pending[a] === 0 && present[a] === 1 && state.placed[a] === 0;

  const settled = (a: number): void => {
    for (const b of order.after[a]) {
      pending[b] -= 1;
      if (isReady(b)) queue.add(b);
    }
    for (const b of linked[a]) {
      pending[b] -= 1;
      if (isReady(b)) queue.add(b);
    }
    for (const b of order.pulled[a]) boost[b] += 1;
  };

  const takenBack = (a: number): void => {
    for (const b of order.after[a]) {
      pending[b] += 1;
      queue.remove(b);
    }
    for (const b of linked[a]) {
      pending[b] += 1;
      queue.remove(b);
    }
    for (const b of order.pulled[a]) boost[b] -= 1;
    if (isReady(a)) queue.add(a);
  };

  const gather = (): void => {
    queue.clear();
    deferred.length = 0;
    for (let a = 0; a < n; a += 1) if (isReady(a)) queue.add(a);
  };

  const isBetter = (a: number, b: number, genome: Genome): boolean => {
    const pulled =
      Number(boost[a] > 0 || urgent[a] === 1) - Number(boost[b] > 0 || urgent[b] === 1);
    if (pulled !== 0) return pulled > 0;
    return genome.keys[a] < genome.keys[b] || (genome.keys[a] === genome.keys[b] && a < b);
  };

  const pick = (genome: Genome): number => {
    const { items } = queue;
    let a = items[0];
    for (let i = 1; i < queue.count; i += 1) if (isBetter(items[i], a, genome)) a = items[i];
    queue.remove(a);
    return a;
  };

  const hasten = (a: number): void => {
    if (urgent[a] === 1 || present[a] === 0 || state.placed[a] === 1) return;
    urgent[a] = 1;
    for (const b of order.before[a]) hasten(b);
  };

  const defer = (a: number): boolean => {
    const hope = unlockers.some((b) => b !== a && present[b] === 1 && state.placed[b] === 0);
    if (!hope) return false;
    deferred.push(a);
    for (const { activity, ends } of problem.holds)
      if (state.placed[activity] === 1)
        for (const end of ends) if (end.kind === 'activity') hasten(end.activity);
    compiled.films.forEach(({ activity, coveredBy }, film) => {
      if (state.placed[activity] === 1 && isUncovered(compiled, state, film))
        coveredBy.forEach(hasten);
    });
    return true;
  };

  const precedes = (a: number, b: number, seen = new Set<number>()): boolean => {
    if (a === b) return true;
    seen.add(a);
    return [...order.after[a], ...linked[a]].some((k) => !seen.has(k) && precedes(k, b, seen));
  };

  const goAhead = (a: number, of: readonly number[]): number => {
    let height = state.height;
    for (const k of of) {
      if (precedes(k, a)) continue;
      if (linked[a].push(k) === 1) linking.push(a);
      pending[k] += 1;
      height = Math.min(height, state.depth[k]);
    }
    return height === state.height ? -1 : height;
  };

  const least = (of: readonly number[], a: number, genome: Genome): number[] => {
    const movable = of.filter((k) => !precedes(k, a));
    movable.sort((x, y) => genome.keys[y] - genome.keys[x] || y - x);
    return movable.slice(0, 1);
  };

  const unlink = (): void => {
    for (const a of linking) {
      if (state.placed[a] === 0) for (const k of linked[a]) pending[k] -= 1;
      linked[a].length = 0;
    }
    linking.length = 0;
  };

  const count = (): void => {
    pending.fill(0);
    boost.fill(0);
    for (let a = 0; a < n; a += 1) {
      for (const b of order.before[a])
        if (present[b] === 1 && state.placed[b] === 0) pending[a] += 1;
      if (state.placed[a] === 1) for (const b of order.pulled[a]) boost[b] += 1;
    }
  };

  return {
    deferred,
    unlockable: unlockers.length > 0,
    follow(next) {
      order = next;
    },
    count,
    gather,
    waiting: () => queue.count,
    pick,
    settled,
    takenBack,
    hasten,
    calm() {
      urgent.fill(0);
    },
    defer,
    resume() {
      if (deferred.length === 0) return;
      for (const b of deferred) queue.add(b);
      deferred.length = 0;
      urgent.fill(0);
    },
    retry(a) {
      if (isReady(a)) queue.add(a);
      for (const b of deferred) if (isReady(b)) queue.add(b);
      deferred.length = 0;
    },
    goAhead,
    least,
    unlink,
  };
}
