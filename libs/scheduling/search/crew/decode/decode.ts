import type { Compiled } from '../compiled/compiled.ts';
import type { OpenSlot } from '../compiled/mode.ts';
import { chooser, type Raised, type Windows } from './choose.ts';
import { copyCourse, sharedWith, type Course } from './course.ts';
import { repeatOf } from './repeat.ts';
import { copyGenome, type Genome } from './genome.ts';
import { closeBarrier } from '../places/dust.ts';
import { inTheWay } from '../places/parts.ts';
import { reopen, rivalsOf } from './reopen.ts';
import { beginningStands, historyStands } from '../state/beginning.ts';
import { beginFrozen, place, placeFrozen, unplace } from '../state/place.ts';
import { copyState, emptyState, type State } from '../state/state.ts';
import { slotFor } from './slots.ts';
import { stockModes } from './stock.ts';
import type { Way } from '../state/work.ts';
import { turnsOf } from './turns.ts';
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
  /** Activities placed as in a recorded plan, without looking for anything better. */
  repeats: number;
  /** Whether the last `redo` was given up because it was on the way back to the recorded plan. */
  isBack: boolean;
  /** Builds the plan of a genome; false where it gives none. */
  decode(genome: Genome): boolean;
  /** Copies what was built last. */
  record(course: Course): void;
  /**
   * Builds the plan of a genome that agrees with a recorded one on the first `kept` activities placed,
   * which are taken over. The order has to be the same, and the branches as far as they matter to
   * those. `shut`: asked after each placement, whether to give up; where it is given, a decode on its
   * way back to the recorded plan (`isBack`) is given up too.
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
const TRIES = 300;
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
  const raised: Raised = { start: new Float64Array(n), finish: new Float64Array(n) };
  const { best, near, window, search, isAgain } = chooser(compiled, state, windows, raised);
  const stock = stockModes(compiled);
  /** The mode that the stocks leave an activity; -1: any. */
  const only = (a: number): number => (stock === null ? -1 : stock.mode[a]);
  const wishes = wishesOf(compiled);
  const turns = turnsOf(compiled, state, present);
  const repeat = repeatOf(compiled, state, only);
  /** As in a course, of what is placed. */
  const windowOf = new Float64Array(4 * n);
  let asked: Genome | null = null;
  /** Which of the placing orders it follows. */
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

  const put = (a: number): void => {
    const { slots } = activities[a].modes[best.mode];
    const slot = slots === null ? -1 : slotOf(a, slots);
    place(compiled, state, a, best, slot);
    windowOf[4 * a] = window.startFrom;
    windowOf[4 * a + 1] = window.startTo;
    windowOf[4 * a + 2] = window.finishFrom;
    windowOf[4 * a + 3] = window.finishTo;
    turns.settled(a);
    if (activities[a].unlocks) turns.resume();
  };

  const takeBack = (): void => {
    turns.takenBack(unplace(compiled, state));
  };

  /** Takes back what is placed above `height`; `a` could not be placed, and what was put off is tried again. */
  const fallBack = (height: number, a: number): void => {
    while (state.height > height) {
      repeat.takenBack(state.stack[state.height - 1]);
      takeBack();
    }
    turns.retry(a);
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

  const begin = (genome: Genome): void => {
    copyState(base, state);
    turns.follow(compiled.orderAt(genome.order));
    variant = genome.order;
    takeBranches(genome.branch);
    if (state.height > 0) beginFrozen(compiled, state);
    turns.calm();
    turns.unlink();
    raised.start.fill(0);
    raised.finish.fill(0);
    turns.count();
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
      turns.settled(a);
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
      turns.unlink();
      takeBranches(course.branch);
      beginFrozen(compiled, state);
    } else {
      while (state.height > shared) takeBack();
      turns.unlink();
    }
    if (other) {
      variant = course.order;
      turns.follow(compiled.orderAt(variant));
      takeBranches(course.branch);
      turns.count();
    }
    replay(course, kept);
    common = kept;
  };

  /** Whether the stocks last, with what is placed in the modes that it has. */
  const keepsTo = (genome: Genome): boolean => {
    if (stock === null) return true;
    if (!stock.choose(genome, present)) return false;
    for (let i = 0; i < state.height; i += 1) {
      const a = state.stack[i];
      if (stock.mode[a] >= 0 && stock.mode[a] !== state.mode[a]) return false;
    }
    return true;
  };

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
        if (!turns.unlockable) return a;
      }
      turns.hasten(a);
    }
    return -1;
  };

  /** Whether `a` goes where it was in the course, for want of anything that could change that. */
  const repeats = (a: number, genome: Genome, course: Course | null): boolean => {
    if (course === null || !repeat.isUndisturbed(a, genome)) return false;
    again.mode = course.mode[a];
    again.crew = course.crew[a];
    again.start = course.start[a];
    again.finish = course.finish[a];
    if (!isAgain(a, genome, again, course.window)) return false;
    self.repeats += 1;
    return true;
  };

  /** Places what is left; what a course holds beyond what is kept of it is repeated where it can be. */
  const run = (genome: Genome, course: Course | null, shut: (() => boolean) | null): boolean => {
    let retries = RETRIES * n + 50;
    const left = n - state.height;
    const tries = state.tries + TRIES * left + MORE_TRIES;
    let looks = Math.min(LOOKS * left + 400, 3 * left + MOST_LOOKS);
    for (;;) {
      if (turns.waiting() === 0) {
        const { deferred } = turns;
        if (deferred.length === 0) break;
        const first = deferred[0];
        let height = -1;
        for (let i = 0; i < deferred.length && height < 0; i += 1) {
          const waiting = deferred[i];
          height = turns.goAhead(waiting, inTheWay(compiled, state, waiting));
        }
        retries -= 1;
        if (height < 0 || retries < 0) return fail(first);
        fallBack(height, first);
        continue;
      }
      const a = turns.pick(genome);
      looks -= 1;
      if (looks < 0 || state.tries > tries) return fail(a);
      if (!repeats(a, genome, course)) {
        self.looks += 1;
        search(a, genome, only(a));
      }
      if (best.mode >= 0) {
        put(a);
        if (course !== null) {
          repeat.placed(a);
          self.isBack = shut !== null && n > state.height && repeat.isBack();
          if (self.isBack) return fail(-1);
        }
        if (shut?.() === true) return fail(-1);
        continue;
      }
      let height = -1;
      if (near.mode >= 0) {
        if (genome.ahead)
          height = turns.goAhead(
            a,
            turns.least(rivalsOf(compiled, state, a, near, window), a, genome),
          );
        if (height < 0) height = reopen(compiled, state, genome.branch, raised, a, near);
      }
      if (height < 0 && turns.defer(a)) continue;
      if (height < 0) height = turns.goAhead(a, inTheWay(compiled, state, a));
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
    repeats: 0,
    isBack: false,
    floor: 0,
    decode(genome) {
      asked = genome;
      begin(genome);
      if (!stands || (state.height > 0 && !beginningStands(compiled, state))) return fail(-1);
      if (stock !== null && !stock.choose(genome, present)) return fail(-1);
      const refused = putWishes(genome);
      if (refused >= 0) return fail(refused);
      self.floor = state.height;
      turns.gather();
      return run(genome, null, null);
    },
    record(course) {
      copyCourse(state, raised, variant, course);
      course.window.set(windowOf);
      if (asked !== null) copyGenome(asked, course.wish);
    },
    redo(course, kept, genome, shut) {
      asked = genome;
      self.isBack = false;
      resume(course, kept);
      windowOf.set(course.window);
      if (differ(genome.branch, state.branch)) {
        takeBranches(genome.branch);
        turns.count();
      }
      if (stock !== null && !keepsTo(genome)) return fail(-1);
      repeat.begin(course, kept, genome);
      turns.calm();
      for (const { activity, waits } of wishes) if (waits) turns.hasten(activity);
      turns.gather();
      return run(genome, course, shut);
    },
  };
  return self;
}
