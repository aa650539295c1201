import type { Random } from '#kernel/random.ts';
import type { Compiled } from '../compiled/compiled.ts';
import { anchorBound } from '../compiled/inverse.ts';
import type { Course } from '../decode/course.ts';
import { holds } from '../decode/window.ts';

/** What is asked about a plan on the way from a refit's finish back to its causes. */
export interface Walk {
  /** Takes up another plan. */
  begin(course: Course, branch: ArrayLike<number>): void;
  /** The activity that finishes the refit, -1 where it has none. */
  last(refit: number): number;
  /** The activity that held `a` back most, -1 where none did. */
  cause(a: number): number;
  /** Whether the last cause was that it had somebody of the crew, not a lag. */
  byCrew: boolean;
  /** What the builder does, in order of time. */
  workOf(builder: number): readonly number[];
}

const NOBODY: readonly number[] = [];

export function walkOf(compiled: Compiled): Walk {
  const { activities, problem } = compiled;
  const work = problem.builders.map((): number[] => []);
  const lasts = new Int32Array(problem.refits.length);
  let at: Course | null = null;
  let branches: ArrayLike<number> = [];

  const crew = (course: Course, a: number): readonly number[] => {
    const { crews } = activities[a].modes[course.mode[a]];
    return crews === null || course.crew[a] < 0 ? NOBODY : crews[course.crew[a]].booked;
  };

  /** The last that the builder does before `a`, -1 where nothing. */
  const before = (course: Course, builder: number, a: number): number => {
    const list = work[builder];
    const moment = course.start[a];
    let low = 0;
    let high = list.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (course.start[list[middle]] < moment) low = middle + 1;
      else high = middle;
    }
    return low > 0 ? list[low - 1] : -1;
  };

  const self: Walk = {
    byCrew: false,
    begin(course, branch) {
      at = course;
      branches = branch;
      lasts.fill(-1);
      for (const list of work) list.length = 0;
      for (let i = 0; i < course.height; i += 1) {
        const a = course.stack[i];
        const { refit } = activities[a];
        if (refit >= 0 && (lasts[refit] < 0 || course.finish[a] > course.finish[lasts[refit]]))
          lasts[refit] = a;
        for (const builder of crew(course, a)) work[builder].push(a);
      }
      for (const list of work) list.sort((x, y) => course.start[x] - course.start[y] || x - y);
    },
    last: (refit) => lasts[refit],
    cause(a) {
      if (at === null) return -1;
      const course = at;
      let until = -Infinity;
      let found = -1;
      self.byCrew = false;
      for (const arc of activities[a].incoming) {
        if (!arc.open || arc.toFinish || !isPlaced(course, arc.from)) continue;
        if (!holds(arc, branches)) continue;
        const anchor = arc.fromFinish ? course.finish[arc.from] : course.start[arc.from];
        const moment = anchorBound(problem, arc, course.mode[arc.from], anchor);
        if (moment <= until) continue;
        until = moment;
        found = arc.from;
      }
      for (const builder of crew(course, a)) {
        const b = before(course, builder, a);
        if (b < 0 || course.finish[b] <= until) continue;
        until = course.finish[b];
        found = b;
        self.byCrew = true;
      }
      return found;
    },
    workOf: (builder) => work[builder],
  };
  return self;
}

const isPlaced = ({ height, depth, stack }: Course, a: number): boolean =>
  depth[a] < height && stack[depth[a]] === a;

/** An activity on the way to a random refit's finish. */
export function critical(walk: Walk, course: Course, refits: number, random: Random): number {
  let a = refits > 0 ? walk.last(random.below(refits)) : -1;
  if (a < 0) return course.stack[random.below(course.height)];
  for (let steps = random.below(24); steps > 0; steps -= 1) {
    const b = walk.cause(a);
    if (b < 0) break;
    a = b;
  }
  return a;
}
