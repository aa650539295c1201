import { addBusy, busyAfter, removeBusy } from './busy.ts';
import { take } from './profile.ts';
import type { State } from './state.ts';
import type { CrewOption } from '../compiled/crews.ts';
import type { CompiledMode } from '../compiled/mode.ts';
import { spanAfter, type Spans } from '../compiled/spans.ts';

/**
 * Books the crew in [s, e), clean-down included. A pause of somebody working alone is that
 * person's own time off, so one span does for the whole; unless other work (relieved, or in
 * overtime) lies inside the pause already, or the pause is a machine's. Such work can still be
 * placed there before, not after. `ever`: by builder, all minutes that each could ever work.
 */
export function occupy(
  state: State,
  a: number,
  mode: CompiledMode,
  option: CrewOption,
  s: number,
  e: number,
  ever: readonly Spans[],
): void {
  const { work } = option.table;
  const alone = !mode.pauses || (option.builders.length === 1 && mode.ownPauses);
  state.solid[a] = alone ? 1 : 0;
  const { booked } = option;
  if (mode.pauses && alone && booked.length === 1) {
    const list = state.busy[booked[0]];
    const next = busyAfter(list, s);
    if (next < list.count && list.starts[next] < e) state.solid[a] = 0;
  }
  for (const builder of booked) {
    const list = state.busy[builder];
    if (state.solid[a] === 1) {
      addBusy(list, s, e, ever[builder]);
      continue;
    }
    for (let i = spanAfter(work, s); i < work.count && work.starts[i] < e; i += 1)
      addBusy(list, Math.max(s, work.starts[i]), Math.min(e, work.ends[i]), ever[builder]);
  }
}

/** Undoes `occupy`, backwards. */
export function release(state: State, a: number, option: CrewOption, s: number, e: number): void {
  const { work } = option.table;
  for (const builder of option.booked) {
    const list = state.busy[builder];
    if (state.solid[a] === 1) {
      removeBusy(list, s);
      continue;
    }
    const first = spanAfter(work, s);
    let i = first;
    while (i < work.count && work.starts[i] < e) i += 1;
    for (i -= 1; i >= first; i -= 1) removeBusy(list, Math.max(s, work.starts[i]));
  }
}

/** Takes the mode's demands in [s, e), clean-down included; `work`: by working spans, null where it does not pause. */
export function use(
  state: State,
  mode: CompiledMode,
  work: Spans | null,
  s: number,
  e: number,
  sign: number,
): void {
  for (const one of mode.uses) {
    const profile = state.profiles[one.resource];
    if (one.whole || work === null) {
      take(profile, s, e, sign * one.amount);
      continue;
    }
    for (let i = spanAfter(work, s); i < work.count && work.starts[i] < e; i += 1)
      take(profile, Math.max(s, work.starts[i]), Math.min(e, work.ends[i]), sign * one.amount);
  }
}
