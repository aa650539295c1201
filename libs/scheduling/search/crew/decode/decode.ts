import type { Compiled } from '../compiled/compiled.ts';
import type { OpenSlot } from '../compiled/mode.ts';
import { chooser, type Raised, type Windows } from './choose.ts';
import { copyCourse, sharedWith, type Course } from './course.ts';
import type { Genome } from './genome.ts';
import { closeBarrier } from '../places/dust.ts';
import { isUncovered } from '../places/films.ts';
import { inTheWay } from '../places/parts.ts';
import { queueOf } from './queue.ts';
import { reopen, rivalsOf } from './reopen.ts';
import { beginningStands, historyStands } from '../state/beginning.ts';
import { beginFrozen, place, placeFrozen, unplace } from '../state/place.ts';
import { copyState, emptyState, type State } from '../state/state.ts';
import { slotFor } from './slots.ts';
import { stockModes } from './stock.ts';
import type { Way } from '../state/work.ts';
import { wishesOf } from './wishes.ts';

/** Everything that turns genomes into plans, with the plan made last in `state`. */
export interface Decoder {
  readonly compiled: Compiled;
  readonly state: State;
  readonly present: Uint8Array;
  /** What the last decode came to ask for beyond its genome. */
  readonly raised: Raised;
  /** The activity that could not be placed when a decode failed, -1 where none is to blame. */
  blame: number;
  /** Activities looked at so far, in all decodes: what the work is counted in. */
  looks: number;
  /** Builds the plan of a genome; false where it gives none. */
  decode(genome: Genome): boolean;
  /** Copies what was built last. */
  record(course: Course): void;
  /**
   * Builds the plan of a genome that agrees with a recorded one on the first `kept` activities placed,
   * which are taken over; branches, and the order, have to be the same. `shut`: asked after each
   * placement, whether to give up.
   */
  redo(course: Course, kept: number, genome: Genome, shut: (() => boolean) | null): boolean;
  /** The fewest activities that `redo` has to keep: history, and what the foreman has set. */
  floor: number;
}

const differ = (a: ArrayLike<number>, b: ArrayLike<number>): boolean => {
  for (let i = 0; i < a.length; i += 1) if (a[i] !== b[i]) return true;
  return false;
};

/** Times that a decode may take work back, for each activity; past it the genome is given up. */
const RETRIES = 4;
/** Looks that a decode may take for each activity to be placed; beyond so many of them fewer. */
const LOOKS = 14;
const MOST_LOOKS = 6000;
/** Places in time that a decode may try for each activity to be placed, and some more. */
const TRIES = 100;
const MORE_TRIES = 10_000;

/**
 * Serial generation: places activities one by one, each at the earliest finish that its
 * crews, resources, air, parts and lags to placed work allow. Where a window has closed before the
 * activity can go ahead, the opener is raised to the least anchor that would do, everything
 * placed after it is taken back, and generation goes on from there (unscheduling after
 * Franck, Neumann & Schwindt, OR Spektrum 23, 2001, with the last-in-first-out rule). What does
 * not fit at all, for a hold or film that is still open or a part that is elsewhere, is put off
 * until something is placed that may change that. What is placed lies on a stack, so that a decode can
 * go on from any prefix of another one.
 */
export function decoder(compiled: Compiled, windows: Windows): Decoder {
  const { problem, activities } = compiled;
  const n = activities.length;
  const base = emptyState(compiled);
  problem.barriers.forEach((_, barrier) => {
    closeBarrier(compiled, base, barrier);
  });
  placeFrozen(compiled, base);
  const stands = historyStands(compiled, base);
  const state = emptyState(compiled);
  const present = new Uint8Array(n);
  const pending = new Int32Array(n);
  const boost = new Int32Array(n);
  const urgent = new Uint8Array(n);
  const raised: Raised = { start: new Float64Array(n), finish: new Float64Array(n) };
  const deferred: number[] = [];
  /** What this decode has come to place after each activity, beyond the order of the problem. */
  const linked: number[][] = activities.map(() => []);
  /** Those of which there is any. */
  const linking: number[] = [];
  const { best, near, window, search } = chooser(compiled, state, windows, raised);
  const stock = stockModes(compiled);
  const wishes = wishesOf(compiled);
  const unlockers = activities.flatMap(({ unlocks }, a) => (unlocks ? [a] : []));
  const queue = queueOf(n);
  let { order } = compiled;
  /** Which of the placing orders that is. */
  let variant = 0;
  /** So many of the first placed do not depend on the branches that differ from the recorded plan's. */
  let common = 0;
  const again: Way = { mode: -1, crew: -1, start: 0, finish: 0 };

  /** The slot for `a` done in the best way. */
  const slotOf = (a: number, slots: readonly OpenSlot[]): number => {
    const { slotList, cleanDown } = activities[a].modes[best.mode];
    const used = (slot: number): boolean =>
      activities.some(
        ({ modes }, b) =>
          state.placed[b] === 1 &&
          state.slot[b] === slot &&
          modes[state.mode[b]].slotList === slotList,
      );
    return slotFor(slots, best.start, best.finish + cleanDown, used);
  };

  const isReady = (a: number): boolean =>
    pending[a] === 0 && present[a] === 1 && state.placed[a] === 0;

  /** Counts `a`, just placed, for what follows it. */
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

  const put = (a: number): void => {
    const { slots } = activities[a].modes[best.mode];
    const slot = slots === null ? -1 : slotOf(a, slots);
    place(compiled, state, a, best, slot);
    settled(a);
    if (activities[a].unlocks && deferred.length > 0) {
      for (const b of deferred) queue.add(b);
      deferred.length = 0;
      urgent.fill(0);
    }
  };

  const takeBack = (): void => {
    const a = unplace(compiled, state);
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

  /** Marks an activity that is waited for, and all that has to be placed before it. */
  const hasten = (a: number): void => {
    if (urgent[a] === 1 || present[a] === 0 || state.placed[a] === 1) return;
    urgent[a] = 1;
    for (const b of order.before[a]) hasten(b);
  };

  /** Puts `a` off until something is placed that may make room; false where nothing of the kind is left. */
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

  /**
   * Places `a` before some placed work: the height to fall back to, -1 where none of it could come
   * later.
   */
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

  /** The one of some placed work that the genome would rather have later. */
  const least = (of: readonly number[], a: number, genome: Genome): number[] => {
    const movable = of.filter((k) => !precedes(k, a));
    movable.sort((x, y) => genome.keys[y] - genome.keys[x] || y - x);
    return movable.slice(0, 1);
  };

  /** Takes back what is placed above `height`; `a` could not be placed, and what was put off is tried again. */
  const fallBack = (height: number, a: number): void => {
    while (state.height > height) takeBack();
    if (isReady(a)) queue.add(a);
    for (const b of deferred) if (isReady(b)) queue.add(b);
    deferred.length = 0;
  };

  /** Forgets what this decode has come to place after others. */
  const unlink = (): void => {
    for (const a of linking) {
      if (state.placed[a] === 0) for (const k of linked[a]) pending[k] -= 1;
      linked[a].length = 0;
    }
    linking.length = 0;
  };

  const takeBranches = (branch: ArrayLike<number>): void => {
    state.branch.set(branch);
    present.fill(1);
    problem.choices.forEach(({ branches }, c) => {
      branches.forEach((one, b) => {
        for (const a of one.activities) present[a] = branch[c] === b ? 1 : 0;
      });
    });
  };

  /** Counts for each activity what has to be placed before it, and what pulls it. */
  const count = (): void => {
    pending.fill(0);
    boost.fill(0);
    for (let a = 0; a < n; a += 1) {
      for (const b of order.before[a])
        if (present[b] === 1 && state.placed[b] === 0) pending[a] += 1;
      if (state.placed[a] === 1) for (const b of order.pulled[a]) boost[b] += 1;
    }
  };

  const begin = (genome: Genome): void => {
    copyState(base, state);
    order = compiled.orderAt(genome.order);
    variant = genome.order;
    takeBranches(genome.branch);
    if (state.height > 0) beginFrozen(compiled, state);
    urgent.fill(0);
    unlink();
    raised.start.fill(0);
    raised.finish.fill(0);
    count();
    common = 0;
  };

  /** Places what is recorded up to a height; nothing else is asked for any more. */
  const replay = (course: Course, kept: number): void => {
    for (let i = state.height; i < kept; i += 1) {
      const a = course.stack[i];
      again.mode = course.mode[a];
      again.crew = course.crew[a];
      again.start = course.start[a];
      again.finish = course.finish[a];
      place(compiled, state, a, again, course.slot[a]);
      settled(a);
    }
    for (let a = 0; a < n; a += 1) {
      const here = state.placed[a];
      raised.start[a] = here === 1 ? course.raised.start[a] : 0;
      raised.finish[a] = here === 1 ? course.raised.finish[a] : 0;
    }
  };

  /** Goes back to the first `kept` of a recorded plan. */
  const resume = (course: Course, kept: number): void => {
    const other = course.order !== variant || differ(course.branch, state.branch);
    const shared = sharedWith(course, state, other ? Math.min(kept, common) : kept);
    if (other && base.height > 0) {
      // What has happened depends on the branches.
      copyState(base, state);
      unlink();
      takeBranches(course.branch);
      beginFrozen(compiled, state);
    } else {
      while (state.height > shared) takeBack();
      unlink();
    }
    if (other) {
      variant = course.order;
      order = compiled.orderAt(variant);
      takeBranches(course.branch);
      count();
    }
    replay(course, kept);
    common = kept;
  };

  const only = (a: number): number => (stock === null ? -1 : stock.mode[a]);

  const fail = (a: number): false => {
    self.blame = a;
    return false;
  };

  /**
   * The foreman's wishes first, while nothing is in their way; what needs more waits its turn,
   * ahead of others. A wish that can never be met, -1 where there is none.
   */
  const putWishes = (genome: Genome): number => {
    for (const { activity: a, waits } of wishes) {
      if (present[a] === 0) continue;
      if (!waits) {
        search(a, genome, only(a));
        if (best.mode >= 0) {
          put(a);
          continue;
        }
        if (unlockers.length === 0) return a;
      }
      hasten(a);
    }
    return -1;
  };

  /** Places what is left. */
  const run = (genome: Genome, shut: (() => boolean) | null): boolean => {
    let retries = RETRIES * n + 50;
    const left = n - state.height;
    const tries = state.tries + TRIES * left + MORE_TRIES;
    let looks = Math.min(LOOKS * left + 400, 3 * left + MOST_LOOKS);
    for (;;) {
      if (queue.count === 0) {
        if (deferred.length === 0) break;
        const first = deferred[0];
        let height = -1;
        for (let i = 0; i < deferred.length && height < 0; i += 1) {
          const waiting = deferred[i];
          height = goAhead(waiting, inTheWay(compiled, state, waiting));
        }
        retries -= 1;
        if (height < 0 || retries < 0) return fail(first);
        fallBack(height, first);
        continue;
      }
      const a = pick(genome);
      looks -= 1;
      self.looks += 1;
      if (looks < 0 || state.tries > tries) return fail(a);
      search(a, genome, only(a));
      if (best.mode >= 0) {
        put(a);
        if (shut?.() === true) return fail(-1);
        continue;
      }
      let height = -1;
      if (near.mode >= 0) {
        if (genome.ahead)
          height = goAhead(a, least(rivalsOf(compiled, state, a, near, window), a, genome));
        if (height < 0) height = reopen(compiled, state, genome.branch, raised, a, near);
      }
      if (height < 0 && defer(a)) continue;
      if (height < 0) height = goAhead(a, inTheWay(compiled, state, a));
      retries -= 1;
      if (height < 0 || retries < 0) return fail(a);
      fallBack(height, a);
    }
    // What waits for each other is never eligible.
    const missing = present.findIndex((here, a) => here === 1 && state.placed[a] === 0);
    return missing < 0 || fail(missing);
  };

  const self: Decoder = {
    compiled,
    state,
    present,
    raised,
    blame: -1,
    looks: 0,
    floor: 0,
    decode(genome) {
      begin(genome);
      if (!stands || (state.height > 0 && !beginningStands(compiled, state))) return fail(-1);
      if (stock !== null && !stock.choose(genome, present)) return fail(-1);
      const refused = putWishes(genome);
      if (refused >= 0) return fail(refused);
      self.floor = state.height;
      gather();
      return run(genome, null);
    },
    record(course) {
      copyCourse(state, raised, variant, course);
    },
    redo(course, kept, genome, shut) {
      resume(course, kept);
      if (differ(genome.branch, state.branch)) {
        takeBranches(genome.branch);
        count();
      }
      urgent.fill(0);
      for (const { activity, waits } of wishes) if (waits) hasten(activity);
      gather();
      return run(genome, shut);
    },
  };
  return self;
}
