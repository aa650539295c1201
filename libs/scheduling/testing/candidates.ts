import { commonTime, type Reading } from '../checker/reading.ts';
import type { Assignment, Placement } from '../model/plan.ts';
import type { Activity, Mode, Problem } from '../model/problem.ts';
import { range } from './draw.ts';

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

type Post = Pick<Placement, 'activity' | 'mode' | 'crew'>;

const onePiece = (post: Post, start: number, finish: number): Placement => ({
  ...post,
  start,
  finish,
  segments: start < finish ? [{ start, end: finish }] : [],
});

/** Works minute by minute whenever everybody does, or null if the horizon comes first. */
function paused(reading: Reading, post: Post, start: number, minutes: number): Placement | null {
  const { horizon } = reading.problem;
  const common = commonTime(reading, post.crew, start, horizon) ?? [];
  const segments: { start: number; end: number }[] = [];
  let left = minutes;
  for (let m = start; m < horizon && left > 0; m++) {
    if (!common.some((span) => span.start <= m && m < span.end)) continue;
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
  return modes.map((_, mode) =>
    onePiece({ activity, mode, crew }, fixed?.start ?? 0, fixed?.finish ?? 0),
  );
}

/** Every placement that an activity could have by itself: each mode, crew and start. */
export function candidates(reading: Reading, index: number): Placement[] {
  const { problem } = reading;
  const activity = problem.activities[index];
  if (activity.fixed?.kind === 'frozen') return frozen(activity, index);
  const found: Placement[] = [];
  activity.modes.forEach((mode, m) => {
    for (const crew of crews(problem, mode)) {
      const minutes = minutesOf(problem, mode, crew);
      const post = { activity: index, mode: m, crew };
      for (const start of range(problem.horizon + 1)) {
        const placed =
          mode.splittable && crew.length > 0
            ? paused(reading, post, start, minutes)
            : onePiece(post, start, start + minutes);
        if (placed) found.push(placed);
      }
    }
  });
  return found;
}
