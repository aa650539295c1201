import type { Side } from '../material/material.ts';
import type { CureClock } from './cure-clock.ts';
import { roomFor, sweep, type Swept } from './sweep.ts';

/** A function of the minute as straight lines between whole knots, both ascending. */
export interface Lines {
  readonly at: readonly number[];
  readonly values: readonly number[];
}

/** Between lines through whole knots no value that is not whole comes this near to a whole one. */
const HAIR = 1e-6;

/** Minutes: no line is longer, so that the slopes below stay in a near cache. */
const LONGEST = 4096;

/**
 * The fewest lines, nearly, that are right at each minute or off by one on the safe side, once
 * rounded: from each knot as far as some line is, and then back to where it has a whole value.
 * The next minute always has one. What is never is never anything else. O(minutes). The swinging
 * door of process recorders (Bristol, US patent 4669097, 1987, from memory), to one side.
 */
function fewLines({ earliest, latest }: Swept, side: Side): Lines {
  const never = earliest.length;
  const last = never - 1;
  const open = side === 'open';
  const [below, above] = open ? [1 - HAIR, 1] : [1, 1 - HAIR];
  // Right or, where that is not known, on the safe side of it.
  let value = open ? latest[0] : earliest[0];
  let from = 0;
  const at = [from];
  const values = [value];
  // Slopes of the lines that will do up to so many minutes from the last knot.
  const least = new Float64Array(LONGEST + 1);
  const most = new Float64Array(LONGEST + 1);
  while (from < last) {
    let flattest = 0;
    let steepest = Infinity;
    let t = from + 1;
    const furthest = Math.min(last, from + LONGEST);
    for (; t <= furthest; t++) {
      const run = t - from;
      const low = latest[t] - (open || earliest[t] < never ? below : 0) - value;
      const high = (earliest[t] < never ? earliest[t] + above : never) - value;
      // Divided only where a slope is new, which is rare.
      if (low > flattest * run) flattest = low / run;
      if (high < steepest * run) steepest = high / run;
      if (flattest > steepest) break;
      least[run] = flattest;
      most[run] = steepest;
    }
    let lowest = 1;
    let highest = 0;
    while (lowest > highest) {
      t--;
      const run = t - from;
      lowest = Math.ceil(value + least[run] * run);
      highest = Math.floor(value + most[run] * run);
    }
    from = t;
    // Exact where it may be, so that a function which is one line stays that line.
    value = Math.max(lowest, Math.min(highest, open ? latest[t] : earliest[t]));
    at.push(from);
    values.push(value);
  }
  return { at, values };
}

/**
 * When films laid at each whole minute from 0 to the horizon reach the clock's milestone, as
 * lines: rounded up, an opening is what direct integration gives or a minute more; rounded down,
 * a closing is that or a minute less. horizon + 1 stands for any later moment and for never.
 * Knots are whole, the last at the horizon, and values never descend. `room`: for that horizon, to
 * use again.
 */
export function lagLines(clock: CureClock, horizon: number, room = roomFor(horizon)): Lines {
  if (room.minutes.length !== horizon + 1) throw new RangeError('a room for another horizon');
  return fewLines(sweep(clock, horizon, room), clock.side);
}
