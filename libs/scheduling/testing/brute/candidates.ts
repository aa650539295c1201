import type { Assignment, Placement } from '../../model/plan.ts';
import type { Activity, Calendar, Mode, Problem } from '../../model/problem.ts';
import { range } from '../draw.ts';

/** Every way to fill demand `d` and those after it with different builders. */
function crews(problem: Problem, mode: Mode, d = 0, used: readonly number[] = []): Assignment[][] {
  if (d === mode.crew.length) return [[]];
  const { skill, minLevel, count } = mode.crew[d];
  const able = problem.builders.flatMap(({ abilities }, b) =>
    !used.includes(b) && abilities.some((one) => one.skill === skill && one.level >= minLevel)
      ? [b]
      : [],
  );
  const choose = (from: number, left: number): number[][] =>
    left === 0
      ? [[]]
      : range(able.length - from).flatMap((i) =>
          choose(from + i + 1, left - 1).map((rest) => [able[from + i], ...rest]),
        );
  return choose(0, count).flatMap((chosen) =>
    crews(problem, mode, d + 1, [...used, ...chosen]).map((rest) => [
      ...chosen.map((builder) => ({ builder, demand: d })),
      ...rest,
    ]),
  );
}

function minutesOf(problem: Problem, mode: Mode, crew: readonly Assignment[]): number {
  if (mode.crew.length === 0) return mode.duration;
  const speeds = crew.map(({ builder, demand }) => {
    const { skill } = mode.crew[demand];
    return problem.builders[builder].abilities.find((one) => one.skill === skill)?.speed ?? 0;
  });
  return Math.max(mode.floor, Math.ceil(mode.work / speeds.reduce((a, b) => a + b, 0)));
}

type Post = Omit<Placement, 'start' | 'finish' | 'segments'>;

const onePiece = (post: Post, start: number, minutes: number): Placement => ({
  ...post,
  start,
  finish: start + minutes,
  segments: minutes > 0 ? [{ start, end: start + minutes }] : [],
});

const works = ({ shifts, breaks, overtime }: Calendar, extra: boolean, m: number): boolean => {
  const holds = ({ start, end }: { start: number; end: number }): boolean => start <= m && m < end;
  return (shifts.some(holds) && !breaks.some(holds)) || (extra && overtime.some(holds));
};

/** By minute, whether everybody and everything that has hours works; null where nothing has any. */
function workedMinutes(problem: Problem, mode: Mode, post: Post): boolean[] | null {
  const people = post.crew.map(({ builder }) => problem.builders[builder].calendar);
  const tools = mode.demands.flatMap(({ resource, amount }) =>
    amount > 0 ? (problem.resources[resource].calendar ?? []) : [],
  );
  if (people.length + tools.length === 0) return null;
  return range(problem.horizon).map(
    (m) =>
      people.every((c) => works(problem.calendars[c], post.overtime, m)) &&
      tools.every((c) => works(problem.calendars[c], false, m)),
  );
}

/** Works minute by minute whenever everybody does, or null if the horizon comes first. */
function paused(
  worked: readonly boolean[],
  post: Post,
  start: number,
  minutes: number,
): Placement | null {
  const segments: { start: number; end: number }[] = [];
  let left = minutes;
  for (let m = start; m < worked.length && left > 0; m++) {
    if (!worked[m]) continue;
    left--;
    const last = segments.at(-1);
    if (last?.end === m) last.end++;
    else segments.push({ start: m, end: m + 1 });
  }
  const finish = segments.at(-1)?.end ?? start;
  return left > 0 ? null : { ...post, start, finish, segments };
}

function frozen({ fixed, modes }: Activity, activity: number): Placement[] {
  const crew = (fixed?.builders ?? []).map((builder) => ({ builder, demand: 0 }));
  const start = fixed?.start ?? 0;
  const minutes = (fixed?.finish ?? 0) - start;
  return modes.map((_, mode) =>
    onePiece({ activity, mode, crew, overtime: false, slot: null }, start, minutes),
  );
}

/** Every placement that an activity could have by itself: each mode, crew, overtime, slot and start. */
export function candidates(problem: Problem, index: number): Placement[] {
  const activity = problem.activities[index];
  if (activity.fixed?.kind === 'frozen') return frozen(activity, index);
  return activity.modes.flatMap((mode, m) => {
    const slots = mode.slots === null ? [null] : range(problem.slotLists[mode.slots].slots.length);
    return crews(problem, mode).flatMap((crew) => {
      const minutes = minutesOf(problem, mode, crew);
      return (crew.length > 0 ? [false, true] : [false]).flatMap((overtime) =>
        slots.flatMap((slot) => {
          const post = { activity: index, mode: m, crew, overtime, slot };
          const worked = mode.splittable ? workedMinutes(problem, mode, post) : null;
          return range(problem.horizon + 1).flatMap((start) =>
            worked === null
              ? onePiece(post, start, minutes)
              : (paused(worked, post, start, minutes) ?? []),
          );
        }),
      );
    });
  });
}
