import type { Activity, Mode, Problem, Slot } from '#scheduling/model/problem.ts';
import type { Assignment } from '#scheduling/model/plan.ts';
import { crewsOf } from './crews.ts';
import { minutesOf, type Minute } from './hours.ts';

/** How an activity may be done: a mode with people, with overtime or not, in a slot or in none. */
export interface Way {
  readonly activity: number;
  readonly mode: number;
  readonly crew: readonly Assignment[];
  readonly overtime: boolean;
  readonly slot: number | null;
  readonly cleanDown: number;
  /** Whether a minute (0 to the horizon - 1) is worked by whoever works so; null: every minute is. */
  readonly open: readonly boolean[] | null;
  /** Starts and finishes that are right by themselves. */
  readonly times: readonly { readonly start: number; readonly finish: number }[];
}

interface Hours {
  /** Of everybody on it, and of the resources that have hours. */
  readonly people: readonly (readonly Minute[])[];
  readonly tools: readonly (readonly Minute[])[];
}

function hoursOf(problem: Problem, mode: Mode, crew: Way['crew'], overtime: boolean): Hours {
  const { horizon, calendars, builders, resources } = problem;
  const tools = mode.demands
    .filter(({ amount }) => amount > 0)
    .flatMap(({ resource }) => resources[resource].calendar ?? []);
  return {
    people: crew.map((one) =>
      minutesOf(calendars[builders[one.builder].calendar], overtime, horizon),
    ),
    tools: tools.map((calendar) => minutesOf(calendars[calendar], false, horizon)),
  };
}

/** Whether minutes from `start` to `end` are one piece: one shift of everyone and no break that counts. */
function isOnePiece({ people, tools }: Hours, mode: Mode, start: number, end: number): boolean {
  if (start === end) return true;
  const lies = (minutes: readonly Minute[], observed: boolean): boolean =>
    minutes
      .slice(start, end)
      .every(
        ({ shift, working }) =>
          shift >= 0 && shift === minutes[start].shift && (working || !observed),
      );
  return (
    people.every((minutes) => lies(minutes, mode.breaks === 'observed')) &&
    tools.every((minutes) => lies(minutes, true))
  );
}

/** The finish of `minutes` of work from `start` in the open minutes; null where they do not do. */
function finishOf(open: readonly boolean[], start: number, minutes: number): number | null {
  if (minutes === 0) return start;
  if (!open[start]) return null;
  let left = minutes;
  for (let at = start; at < open.length; at += 1) {
    if (open[at]) left -= 1;
    if (left === 0) return at + 1;
  }
  return null;
}

/** The rules that look at one activity alone and are not about hours. */
function isAllowed(
  { horizon }: Problem,
  { releases, fixed }: Activity,
  mode: Mode,
  slot: Slot | null,
  start: number,
  finish: number,
): boolean {
  const done = finish + mode.cleanDown;
  const forbidden = mode.forbidden.some(({ anchor, spans }) => {
    const at = anchor === 'start' ? start : finish;
    return spans.some((span) => span.start <= at && at < span.end);
  });
  return (
    done <= horizon &&
    !forbidden &&
    releases.every(({ at }) => start >= at) &&
    (slot === null || (slot.start <= start && done <= slot.end)) &&
    (fixed?.start ?? start) === start &&
    (fixed?.finish ?? finish) === finish
  );
}

function isWished({ fixed }: Activity, crew: Way['crew']): boolean {
  const wish = fixed?.builders ?? null;
  return (
    wish === null || (wish.length === crew.length && crew.every((c) => wish.includes(c.builder)))
  );
}

/** The slots that may be used: those of the list that can still be booked; none where none is asked. */
function slotsOf({ slotLists, now }: Problem, { slots }: Mode): (number | null)[] {
  if (slots === null) return [null];
  return slotLists[slots].slots.flatMap((slot, k) => (slot.bookBy < now ? [] : [k]));
}

function waysInMode(problem: Problem, activity: number, index: number): Way[] {
  const own = problem.activities[activity];
  const mode = own.modes[index];
  const starts = Array.from({ length: problem.horizon + 1 }, (_, start) => start);
  return crewsOf(problem, mode)
    .filter(({ members }) => isWished(own, members))
    .flatMap(({ members, minutes }) => {
      const later = members.some(
        ({ builder }) => problem.calendars[problem.builders[builder].calendar].overtime.length > 0,
      );
      return (later ? [false, true] : [false]).flatMap((overtime) => {
        const hours = hoursOf(problem, mode, members, overtime);
        const all = [...hours.people, ...hours.tools];
        const open =
          mode.splittable && all.length > 0
            ? starts.slice(0, -1).map((at) => all.every((one) => one[at].working))
            : null;
        const runs = starts.flatMap((start) => {
          const finish = open ? finishOf(open, start, minutes) : start + minutes;
          if (finish === null || finish + mode.cleanDown > problem.horizon) return [];
          if (!open && !isOnePiece(hours, mode, start, finish + mode.cleanDown)) return [];
          return [{ start, finish }];
        });
        return slotsOf(problem, mode).map((slot) => {
          const window = slot === null ? null : problem.slotLists[mode.slots ?? 0].slots[slot];
          const times = runs.filter(({ start, finish }) =>
            isAllowed(problem, own, mode, window, start, finish),
          );
          const { cleanDown } = mode;
          return { activity, mode: index, crew: members, overtime, slot, cleanDown, open, times };
        });
      });
    });
}

/** Frozen work is as it was, whoever might have done it. */
function frozenWay(activity: number, { fixed }: Activity, mode: number): Way {
  const start = fixed?.start ?? 0;
  return {
    activity,
    mode,
    crew: (fixed?.builders ?? []).map((builder) => ({ builder, demand: 0 })),
    overtime: false,
    slot: null,
    cleanDown: 0,
    open: null,
    times: [{ start, finish: fixed?.finish ?? start }],
  };
}

/** All ways of all activities that have a time at all. */
export function waysOf(problem: Problem): readonly Way[] {
  return problem.activities
    .flatMap((own, a) =>
      own.modes.flatMap((_, m) =>
        own.fixed?.kind === 'frozen' ? [frozenWay(a, own, m)] : waysInMode(problem, a, m),
      ),
    )
    .filter(({ times }) => times.length > 0);
}
