import type { Compiled } from '../compiled/compiled.ts';
import type { CompiledMode } from '../compiled/mode.ts';
import { meets, type Spans } from '../compiled/spans.ts';
import { firstAfter, type Air } from '../places/air.ts';
import type { Profile } from '../state/profile.ts';
import type { State } from '../state/state.ts';

/** Spans in order of time, none touching another. */
interface Zones {
  count: number;
  starts: Int32Array;
  ends: Int32Array;
}

/**
 * The minutes from some moment on in which nobody can be at work that may pause, whoever it is: of all
 * the crews of a mode each is then asked about a few joined spans, not about every surface that is open.
 */
export interface Barred {
  /** Gathers the minutes from `from` on, for work in `mode`; what is placed must not change until they are used. */
  gather(mode: CompiledMode, from: number): void;
  /** The end of the last of them that work in [s, f), within `work`, would need; -1 where it needs none. */
  until(work: Spans, s: number, f: number): number;
}

/** Whether all that bars such work besides its crew and places bars minutes of work, not pauses or clean-down as well. */
export const isBarredByMinutes = ({
  pauses,
  cleanDown,
  bound,
  least,
  dusty,
  uses,
}: CompiledMode): boolean =>
  pauses && cleanDown === 0 && !bound && least > 0 && (dusty || uses.some(({ whole }) => !whole));

const zones = (): Zones => ({ count: 0, starts: new Int32Array(64), ends: new Int32Array(64) });

const grown = (from: Int32Array): Int32Array => {
  const to = new Int32Array(from.length * 2);
  to.set(from);
  return to;
};

/** Adds a span that begins no earlier than those that are there. */
function append(to: Zones, start: number, end: number): void {
  const last = to.count - 1;
  if (last >= 0 && start <= to.ends[last]) {
    if (end > to.ends[last]) to.ends[last] = end;
    return;
  }
  if (to.count === to.starts.length) {
    to.starts = grown(to.starts);
    to.ends = grown(to.ends);
  }
  to.starts[to.count] = start;
  to.ends[to.count] = end;
  to.count += 1;
}

/** Both lists as one. */
function join(a: Zones, b: Zones, to: Zones): void {
  to.count = 0;
  let i = 0;
  let k = 0;
  while (i < a.count || k < b.count)
    if (k === b.count || (i < a.count && a.starts[i] <= b.starts[k])) {
      append(to, a.starts[i], a.ends[i]);
      i += 1;
    } else {
      append(to, b.starts[k], b.ends[k]);
      k += 1;
    }
}

export function barredOf(compiled: Compiled, state: State): Barred {
  const { drift, horizon, problem } = compiled;
  /** All so far, one source more, and room for both. */
  let all = zones();
  let own = zones();
  let room = zones();

  const takeIn = (): void => {
    if (own.count === 0) return;
    if (all.count === 0) [all, own] = [own, all];
    else {
      join(all, own, room);
      [all, room] = [room, all];
    }
    own.count = 0;
  };

  /** Dust in [first, end) of what is open, from the minute that settles into it on. */
  const addOpen = (
    { starts, ends, count }: Air,
    settling: number,
    from: number,
    first: number,
    end: number,
    after: number,
  ): void => {
    for (let i = after; i < count && starts[i] < end; i += 1) {
      const until = Math.min(ends[i], end);
      if (until > first && until > from) append(own, Math.max(starts[i], first) - settling, until);
    }
  };

  /** What dust made in the mode's space would meet in another, past a barrier while that is not closed. */
  const addAir = (open: Air, closed: Air | null, settling: number, from: number): void => {
    const after = firstAfter(open, from - open.longest);
    let first = -Infinity;
    for (let i = 0; closed !== null && i < closed.count; i += 1) {
      if (closed.starts[i] > first) addOpen(open, settling, from, first, closed.starts[i], after);
      first = Math.max(first, closed.ends[i]);
    }
    addOpen(open, settling, from, first, Infinity, after);
  };

  const addShortages = ({ times, left, count }: Profile, amount: number, from: number): void => {
    for (let i = 0; i < count; i += 1) {
      const end = i + 1 < count ? times[i + 1] : horizon + 1;
      if (left[i] < amount && end > from) append(own, times[i], end);
    }
  };

  return {
    gather(mode, from) {
      all.count = 0;
      if (mode.dusty) {
        const { settling } = problem.spaces[mode.space];
        for (const { space, gate } of drift.reach[mode.space]) {
          const closed = gate < 0 ? null : state.closed[drift.gates[gate].barrier];
          addAir(state.open[space], closed, settling, from);
          takeIn();
        }
      }
      for (const { resource, amount, whole } of mode.uses) {
        if (whole) continue;
        addShortages(state.profiles[resource], amount, from);
        takeIn();
      }
    },
    until(work, s, f) {
      const { starts, ends, count } = all;
      let low = 0;
      let high = count;
      while (low < high) {
        const middle = (low + high) >> 1;
        if (starts[middle] < f) low = middle + 1;
        else high = middle;
      }
      for (let i = low - 1; i >= 0 && ends[i] > s; i -= 1)
        if (meets(work, Math.max(s, starts[i]), Math.min(f, ends[i]))) return ends[i];
      return -1;
    },
  };
}
