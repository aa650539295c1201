import { chooser, type Raised, type Windows } from './choose.ts';
import type { Compiled } from '../compiled/compiled.ts';
import type { OpenSlot } from '../compiled/mode.ts';
import { isUncovered } from '../places/dust.ts';
import type { Genome } from './genome.ts';
import { beginningStands, historyStands } from '../state/beginning.ts';
import { inTheWay } from '../places/parts.ts';
import { beginFrozen, place, placeFrozen, unplace } from '../state/place.ts';
import { reopen, rivalsOf } from './reopen.ts';
import { slotFor } from './slots.ts';
import { copyState, emptyState, type State } from '../state/state.ts';
import { stockModes } from './stock.ts';
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
  /** Builds the plan of a genome; false where it gives none. */
  decode(genome: Genome): boolean;
}

/** Times that a decode may take work back, for each activity; past it the genome is given up. */
const RETRIES = 4;

/**
 * Serial generation: places activities one by one, each at the earliest finish that its
 * crews, resources, air, parts and lags to placed work allow. Where a window has closed before the
 * activity can go ahead, the opener is raised to the least anchor that would do, everything
 * placed after it is taken back, and generation goes on from there (unscheduling after
 * Franck, Neumann & Schwindt, OR Spektrum 23, 2001, with the last-in-first-out rule). What does
 * not fit at all, for a hold or film that is still open or a part that is elsewhere, is put off
 * until something is placed that may change that.
 */
export function decoder(compiled: Compiled, windows: Windows): Decoder {
  const { problem, activities } = compiled;
  const n = activities.length;
  const base = emptyState(compiled);
  placeFrozen(compiled, base);
  const stands = historyStands(compiled, base);
  const state = emptyState(compiled);
  const present = new Uint8Array(n);
  const pending = new Int32Array(n);
  const boost = new Int32Array(n);
  const urgent = new Uint8Array(n);
  const raised: Raised = { start: new Float64Array(n), finish: new Float64Array(n) };
  const eligible = new Int32Array(n);
  const deferred: number[] = [];
  /** What this decode has come to place after each activity, beyond the order of the problem. */
  const linked: number[][] = activities.map(() => []);
  const { best, near, window, search } = chooser(compiled, state, windows, raised);
  const stock = stockModes(compiled);
  const wishes = wishesOf(compiled);
  const unlockers = activities.flatMap(({ unlocks }, a) => (unlocks ? [a] : []));
  let { order } = compiled;
  let eligibleCount = 0;

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
    for (const b of order.after[a]) pending[b] -= 1;
    for (const b of linked[a]) pending[b] -= 1;
    for (const b of order.pulled[a]) boost[b] += 1;
    if (activities[a].unlocks && deferred.length > 0) {
      for (const b of deferred) eligible[eligibleCount++] = b;
      deferred.length = 0;
      urgent.fill(0);
    }
  };

  const takeBack = (): void => {
    const a = unplace(compiled, state);
    for (const b of order.after[a]) pending[b] += 1;
    for (const b of linked[a]) pending[b] += 1;
    for (const b of order.pulled[a]) boost[b] -= 1;
  };

  const gather = (): void => {
    eligibleCount = 0;
    deferred.length = 0;
    for (let a = 0; a < n; a += 1)
      if (present[a] === 1 && state.placed[a] === 0 && pending[a] === 0)
        eligible[eligibleCount++] = a;
  };

  const isBetter = (a: number, b: number, genome: Genome): boolean => {
    const pulled =
      Number(boost[a] > 0 || urgent[a] === 1) - Number(boost[b] > 0 || urgent[b] === 1);
    if (pulled !== 0) return pulled > 0;
    return genome.keys[a] < genome.keys[b] || (genome.keys[a] === genome.keys[b] && a < b);
  };

  const pick = (genome: Genome): number => {
    let at = 0;
    for (let i = 1; i < eligibleCount; i += 1)
      if (isBetter(eligible[i], eligible[at], genome)) at = i;
    const a = eligible[at];
    eligible[at] = eligible[--eligibleCount];
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
      linked[a].push(k);
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

  const fallBack = (height: number): void => {
    while (state.height > height) takeBack();
    gather();
  };

  const begin = (genome: Genome): void => {
    copyState(base, state);
    order = compiled.orders[genome.order];
    state.branch.set(genome.branch);
    present.fill(1);
    problem.choices.forEach((choice, c) => {
      choice.branches.forEach((branch, b) => {
        for (const a of branch.activities) present[a] = genome.branch[c] === b ? 1 : 0;
      });
    });
    if (state.height > 0) beginFrozen(compiled, state);
    pending.fill(0);
    boost.fill(0);
    urgent.fill(0);
    for (const list of linked) list.length = 0;
    raised.start.fill(0);
    raised.finish.fill(0);
    for (let a = 0; a < n; a += 1)
      for (const b of order.before[a])
        if (present[b] === 1 && state.placed[b] === 0) pending[a] += 1;
  };

  const enable = (list: readonly number[]): void => {
    for (const b of list)
      if (pending[b] === 0 && present[b] === 1 && state.placed[b] === 0)
        eligible[eligibleCount++] = b;
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

  const self: Decoder = {
    compiled,
    state,
    present,
    raised,
    blame: -1,
    decode(genome) {
      begin(genome);
      if (!stands || (state.height > 0 && !beginningStands(compiled, state))) return fail(-1);
      if (stock !== null && !stock.choose(genome, present)) return fail(-1);
      const refused = putWishes(genome);
      if (refused >= 0) return fail(refused);
      gather();
      let retries = RETRIES * n + 50;
      for (;;) {
        if (eligibleCount === 0) {
          if (deferred.length === 0) break;
          let height = -1;
          for (let i = 0; i < deferred.length && height < 0; i += 1) {
            const waiting = deferred[i];
            height = goAhead(waiting, inTheWay(compiled, state, waiting));
          }
          retries -= 1;
          if (height < 0 || retries < 0) return fail(deferred[0]);
          fallBack(height);
          continue;
        }
        const a = pick(genome);
        search(a, genome, only(a));
        if (best.mode >= 0) {
          put(a);
          enable(order.after[a]);
          enable(linked[a]);
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
        fallBack(height);
      }
      // What waits for each other is never eligible.
      const left = present.findIndex((here, a) => here === 1 && state.placed[a] === 0);
      return left < 0 || fail(left);
    },
  };
  return self;
}
