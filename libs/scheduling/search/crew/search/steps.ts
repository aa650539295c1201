import type { Random } from '#kernel/random.ts';
import type { Compiled } from '../compiled/compiled.ts';
import type { Course } from '../decode/course.ts';
import type { Genome } from '../decode/genome.ts';
import { critical, type Walk } from './walk.ts';

/**
 * A neighbour of a plan in the making: `trial` is the plan's own genome, whose keys are places in
 * the order of placing, changed; the first `kept` places are as they were.
 */
export interface Draft {
  readonly compiled: Compiled;
  readonly course: Course;
  readonly walk: Walk;
  readonly trial: Genome;
  readonly random: Random;
  /** Fewer than these are never kept off: history and wishes. */
  floor: number;
  kept: number;
  /** By choice, all that its branches may touch: see `touchedBy`. */
  readonly touched: readonly (readonly number[])[];
}

export type Step = (draft: Draft) => void;

const touch = (draft: Draft, place: number): void => {
  draft.kept = Math.max(draft.floor, Math.min(draft.kept, place));
};

const isPlaced = ({ height, depth, stack }: Course, a: number): boolean =>
  depth[a] < height && stack[depth[a]] === a;

const any = ({ course, random, floor }: Draft): number =>
  course.height > floor ? course.stack[floor + random.below(course.height - floor)] : -1;

/** Gives `a` another key: nothing before either place changes, nor before what has to precede it. */
function rekey(draft: Draft, a: number, key: number): void {
  const { trial, course, compiled } = draft;
  trial.keys[a] = key;
  trial.wait[a] = 0;
  let place = Math.ceil(key);
  for (const b of compiled.orderAt(trial.order).before[a])
    if (isPlaced(course, b) && course.depth[b] >= place && trial.keys[b] >= course.depth[b])
      place = course.depth[b] + 1;
  touch(draft, Math.min(course.depth[a], place));
}

/** Leaves it to the decode who does `a`. */
function free(draft: Draft, a: number): void {
  draft.trial.crew[a] = -1;
  draft.trial.wait[a] = 0;
  touch(draft, draft.course.depth[a]);
}

function changeCrew(draft: Draft, a: number): void {
  const { trial, random, compiled } = draft;
  const { modes } = compiled.activities[a];
  if (modes.length > 1 && random.below(2) === 0) trial.mode[a] = random.below(modes.length);
  free(draft, a);
  const { crews } = modes[Math.max(0, trial.mode[a])];
  if (crews !== null && crews.length > 0 && random.below(3) > 0)
    trial.crew[a] = random.below(crews.length);
}

/** A stretch of places; short ones more often than long ones. */
function stretch({ course, random, floor }: Draft): readonly [number, number] {
  const all = course.height - floor;
  const most = random.below(3) === 0 ? 0.5 * all : Math.min(40, all);
  const width = 3 + random.below(Math.max(1, Math.ceil(most)));
  const from = floor + random.below(Math.max(1, all - 2));
  return [from, Math.min(course.height, from + width)];
}

const onTheWay = (draft: Draft): number =>
  critical(draft.walk, draft.course, draft.compiled.problem.refits.length, draft.random);

/** What is on the way to a finish goes before what has its crew, which is left free for both. */
function overtake(draft: Draft): void {
  const a = onTheWay(draft);
  const blocker = draft.walk.cause(a);
  if (blocker < 0 || !draft.walk.byCrew) {
    rekey(draft, a, draft.course.depth[a] - 1 - draft.random.below(30));
    return;
  }
  rekey(draft, a, draft.course.depth[blocker] - 0.5);
  if (draft.random.below(2) === 0) free(draft, a);
  if (draft.random.below(2) === 0) free(draft, blocker);
}

/** The one that has the crew gets others to do it, or the one that waits for it does. */
function relieve(draft: Draft): void {
  const a = onTheWay(draft);
  const blocker = draft.walk.cause(a);
  const one = blocker >= 0 && draft.walk.byCrew && draft.random.below(2) === 0 ? blocker : a;
  changeCrew(draft, one);
}

function insert(draft: Draft): void {
  const a = any(draft);
  if (a < 0) return;
  const reach = draft.course.height * (draft.random.below(4) === 0 ? 0.5 : 0.08) + 2;
  rekey(draft, a, draft.course.depth[a] + (draft.random.unit() - 0.6) * reach);
}

/** Two pieces of work that follow each other in a builder's days change places. */
function exchange(draft: Draft): void {
  const { compiled, walk, random, course } = draft;
  const { builders } = compiled.problem;
  if (builders.length === 0) return;
  const work = walk.workOf(random.below(builders.length));
  if (work.length < 2) return;
  const i = random.below(work.length - 1);
  const [first, second] = [work[i], work[i + 1]];
  if (course.depth[first] > course.depth[second]) rekey(draft, first, course.depth[second] - 0.5);
  else rekey(draft, second, course.depth[first] - 0.5);
}

/** Who does the work of a stretch is decided anew. */
function loosen(draft: Draft): void {
  const [from, to] = stretch(draft);
  for (let i = from; i < to; i += 1) free(draft, draft.course.stack[i]);
}

/** The work of a stretch in another order, with some of its crews decided anew. */
function shake(draft: Draft): void {
  const { course, trial, random } = draft;
  const [from, to] = stretch(draft);
  const most = Math.min(to, from + 24);
  const width = most - from;
  const frees = random.below(2) === 0;
  for (let i = from; i < most; i += 1) {
    const a = course.stack[i];
    trial.keys[a] = i + (random.unit() - 0.5) * width * random.unit();
    if (frees) free(draft, a);
  }
  touch(draft, from);
}

/** In a stretch, all work of one refit goes before the rest, or after it. */
function prefer(draft: Draft): void {
  const { course, trial, random, compiled } = draft;
  const [from, to] = stretch(draft);
  const { refit } = compiled.activities[course.stack[from + random.below(to - from)]];
  const sign = random.below(3) === 0 ? 1 : -1;
  const frees = random.below(2) === 0;
  for (let i = from; i < to; i += 1) {
    const a = course.stack[i];
    if (compiled.activities[a].refit !== refit) continue;
    trial.keys[a] = i + sign * (to - from);
    trial.wait[a] = 0;
    if (frees) free(draft, a);
  }
  touch(draft, from);
}

/** From some place on, all work of one refit goes before all that is left of another, or after it. */
function leap(draft: Draft): void {
  const { course, trial, random, compiled } = draft;
  const refits = compiled.problem.refits.length;
  if (refits < 2) {
    shake(draft);
    return;
  }
  const r = random.below(refits);
  const q = (r + 1 + random.below(refits - 1)) % refits;
  const from = random.below(2) === 0 ? draft.floor : stretch(draft)[0];
  let first = -1;
  let last = -1;
  for (let i = from; i < course.height; i += 1) {
    if (compiled.activities[course.stack[i]].refit !== q) continue;
    if (first < 0) first = i;
    last = i;
  }
  if (first < 0) return;
  const ahead = random.below(2) === 0;
  const frees = random.below(2) === 0;
  for (let i = from; i < course.height; i += 1) {
    const a = course.stack[i];
    if (compiled.activities[a].refit !== r || (ahead ? i < first : i > last)) continue;
    // In the same order among themselves, between two places.
    trial.keys[a] = (ahead ? first - 1 : last) + 0.1 + (0.8 * i) / course.height;
    trial.wait[a] = 0;
    if (frees) trial.crew[a] = -1;
    touch(draft, Math.min(i, ahead ? first : i));
  }
}

/** Some activity and what leads to it go earlier together. */
function pull(draft: Draft): void {
  const { course, trial, random, compiled } = draft;
  const a = random.below(2) === 0 ? onTheWay(draft) : any(draft);
  if (a < 0) return;
  const by = 1 + random.below(Math.max(2, Math.ceil(course.height * 0.15)));
  const { before } = compiled.orderAt(trial.order);
  const chain = [a];
  for (let i = 0; i < chain.length && chain.length < 12; i += 1)
    for (const b of before[chain[i]])
      if (isPlaced(course, b) && course.depth[b] > course.depth[a] - 2 * by && !chain.includes(b))
        chain.push(b);
  for (const b of chain) {
    trial.keys[b] = course.depth[b] - by;
    trial.wait[b] = 0;
    touch(draft, Math.max(0, course.depth[b] - by));
  }
}

function branchOff(draft: Draft): void {
  const { compiled, trial, random, course, touched } = draft;
  if (compiled.branches.length === 0) {
    relieve(draft);
    return;
  }
  const c = random.below(compiled.branches.length);
  const allowed = compiled.branches[c];
  const branch = allowed[random.below(allowed.length)];
  if (branch === trial.branch[c]) {
    insert(draft);
    return;
  }
  trial.branch[c] = branch;
  for (const a of touched[c]) if (isPlaced(course, a)) touch(draft, course.depth[a]);
}

/** Work waits for the moment that something else starts or finishes, or no longer waits. */
function idle(draft: Draft): void {
  const { course, trial, random } = draft;
  const a = any(draft);
  const b = any(draft);
  if (a < 0) return;
  if (trial.wait[a] > 0) trial.wait[a] = 0;
  else trial.wait[a] = random.below(2) === 0 ? course.start[b] : course.finish[b];
  touch(draft, course.depth[a]);
}

/** In a stretch nothing waits any more: what had to for a window's sake is raised anew. */
function wake(draft: Draft): void {
  const { course, trial } = draft;
  const [from, to] = stretch(draft);
  for (let i = from; i < to; i += 1) {
    const a = course.stack[i];
    if (trial.wait[a] === 0) continue;
    trial.wait[a] = 0;
    touch(draft, i);
  }
}

/** All that a choice's branches may change for, by choice. */
export function touchedBy(compiled: Compiled): number[][] {
  const { problem, activities, arcs, order, films } = compiled;
  return problem.choices.map(({ branches }) => {
    const own = branches.flatMap((branch) => branch.activities);
    const near = own.flatMap((a) => [
      a,
      ...order.before[a],
      ...activities[a].incoming.map(({ from }) => from),
      ...activities[a].outgoing.map(({ to }) => to),
      ...activities[a].endsHolds.map((h) => problem.holds[h].activity),
      ...activities[a].covers.map((film) => films[film].activity),
    ]);
    const lags = branches.flatMap((branch) => branch.lags);
    return [...new Set([...near, ...lags.flatMap((l) => [arcs[l].from, arcs[l].to])])];
  });
}

export const STEPS: readonly Step[] = [
  overtake,
  relieve,
  insert,
  exchange,
  loosen,
  shake,
  prefer,
  leap,
  pull,
  branchOff,
  idle,
  wake,
];
