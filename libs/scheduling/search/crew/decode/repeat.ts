import type { Compiled, CompiledActivity } from '../compiled/compiled.ts';
import type { State } from '../state/state.ts';
import type { Course } from './course.ts';
import type { Genome } from './genome.ts';

/**
 * Where a decode departs from a recorded one, so that what the departure does not concern can be
 * placed again without looking. An activity was placed where it finishes first; if everything that
 * was placed before it then is where it was, or was nothing that it could have wanted, then all that
 * was barred still is, and it is enough to ask whether the recorded way is still free. Not followed
 * so exactly: what an open hold or film keeps for ends to come, what only the clean-down of another
 * mode would meet, and a wished crew or mode that nothing but later work stood in the way of. There a
 * repeated way is permitted, though perhaps no longer the one that a look would find.
 */
export interface Repeat {
  /** Takes up a course of which the first `kept` are placed. */
  begin(course: Course, kept: number, genome: Genome): void;
  /** Whether nothing that `a`, next in turn, depends on has gone from where it was. */
  isUndisturbed(a: number, genome: Genome): boolean;
  /** `a` was placed. */
  placed(a: number): void;
  /** `a` was taken back. */
  takenBack(a: number): void;
  /**
   * Whether all that was changed is placed, and is where it was: what is left will go there as well,
   * but where another order of placing lets one take the place of another.
   */
  isBack(): boolean;
}

/** Departures followed at most; beyond so many nothing is likely to be repeated. */
const MOST = 256;
/** Every space, where not more can be said. */
const ALL = -1;

/** What several indices have in common, folded into 32 bits: a wrong bit only costs a look. */
const bitOf = (index: number): number => 1 << (index & 31);

interface Wants {
  /** Somebody, a resource or a part that it may take. */
  readonly people: Int32Array;
  readonly resources: Int32Array;
  readonly parts: Int32Array;
  /** Spaces that its dust may reach, and in which it may leave something open. */
  readonly dust: Int32Array;
  readonly open: Int32Array;
  /** 1 where what it takes does not end with it, or where parts are depends on it. */
  readonly lasting: Uint8Array;
  /** 1 where looking for its place changes nothing, and its window does not depend on how it is done. */
  readonly plain: Uint8Array;
}

/** Spaces that its dust may reach, and those in which it may leave something open; all where that moves. */
function airOf(compiled: Compiled, activity: CompiledActivity): readonly [number, number] {
  const { modes, films, covers, carried } = activity;
  let dust = 0;
  let open = films.length + covers.length + carried.length > 0 ? ALL : 0;
  for (const { barrier, dusty, sensitive, space } of modes) {
    if (barrier >= 0) return [ALL, ALL];
    if (sensitive) open |= bitOf(space);
    if (dusty) for (const reached of compiled.drift.reach[space]) dust |= bitOf(reached.space);
  }
  return [dust, open];
}

function wantsOf(compiled: Compiled): Wants {
  const { activities, problem } = compiled;
  const n = activities.length;
  const wants: Wants = {
    people: new Int32Array(n),
    resources: new Int32Array(n),
    parts: new Int32Array(n),
    dust: new Int32Array(n),
    open: new Int32Array(n),
    lasting: new Uint8Array(n),
    plain: new Uint8Array(n),
  };
  activities.forEach((activity, a) => {
    const { modes, holds, endsHolds, parts, covers, modal, frozen } = activity;
    for (const { crews, uses } of modes) {
      for (const { booked } of crews ?? []) for (const b of booked) wants.people[a] |= bitOf(b);
      for (const { resource } of uses) wants.resources[a] |= bitOf(resource);
    }
    for (const h of [...holds, ...endsHolds])
      wants.resources[a] |= bitOf(problem.holds[h].resource);
    for (const part of parts) wants.parts[a] |= bitOf(part);
    [wants.dust[a], wants.open[a]] = airOf(compiled, activity);
    const moves = modes.some(({ movesTo }) => movesTo >= 0);
    const bound = holds.length + endsHolds.length > 0;
    if (moves || bound) wants.lasting[a] = 1;
    const hides = covers.length > 0 && modes.some(({ dusty }) => dusty);
    const ties = endsHolds.length > 0 || hides || modal || frozen !== null;
    const works = modes.some(({ barrier, slots }) => barrier >= 0 || slots !== null);
    if (!ties && !works) wants.plain[a] = 1;
  });
  return wants;
}

/** `only`: the mode that the stocks leave an activity; -1: any. */
export function repeatOf(compiled: Compiled, state: State, only: (a: number) => number): Repeat {
  const { activities } = compiled;
  const n = activities.length;
  const { people, resources, parts, dust, open, lasting, plain } = wantsOf(compiled);
  /** What was placed before the furthest place reached, and is not where it was. */
  const away = new Int32Array(MOST);
  const at = new Int32Array(n).fill(-1);
  let count = 0;
  let reached = 0;
  /** The place in the course of the last activity of which something else is asked. */
  let changed = -1;
  /** The course that is followed, null where none is or too much has gone. */
  let followed: Course | null = null;

  const bookedBy = (course: Course, x: number): number => {
    const { crews } = activities[x].modes[course.mode[x]];
    if (crews === null || course.crew[x] < 0) return 0;
    let mask = 0;
    for (const b of crews[course.crew[x]].booked) mask |= bitOf(b);
    return mask;
  };

  const add = (x: number): void => {
    if (at[x] >= 0) return;
    if (count === MOST) {
      followed = null;
      return;
    }
    at[x] = count;
    away[count] = x;
    count += 1;
  };

  const remove = (x: number): void => {
    const i = at[x];
    if (i < 0) return;
    count -= 1;
    away[i] = away[count];
    at[away[i]] = i;
    at[x] = -1;
  };

  const isIn = ({ height, depth, stack }: Course, a: number): boolean =>
    depth[a] < height && stack[depth[a]] === a;

  /** Whether `a` could have been placed otherwise, had `x` not been where it was. */
  const concerns = (course: Course, x: number, a: number): boolean => {
    if (((dust[x] & open[a]) | (open[x] & dust[a])) !== 0) return true;
    const shared =
      (resources[x] & resources[a]) !== 0 ||
      (parts[x] & parts[a]) !== 0 ||
      (people[x] & people[a] & bookedBy(course, x)) !== 0;
    if (!shared) return false;
    if (lasting[x] === 1) return true;
    const until = course.finish[a] + activities[a].modes[course.mode[a]].cleanDown;
    const end = course.finish[x] + activities[x].modes[course.mode[x]].cleanDown;
    return course.start[x] < until && end > course.window[4 * a];
  };

  const wishesSame = ({ wish, mode }: Course, a: number, genome: Genome): boolean =>
    (only(a) < 0 || only(a) === mode[a]) &&
    wish.crew[a] === genome.crew[a] &&
    wish.mode[a] === genome.mode[a] &&
    wish.wait[a] === genome.wait[a];

  return {
    begin(course, kept, genome) {
      for (let i = 0; i < count; i += 1) at[away[i]] = -1;
      count = 0;
      reached = kept;
      const { slack, thrift, ahead } = course.wish;
      const same = slack === genome.slack && thrift === genome.thrift && ahead === genome.ahead;
      followed = same ? course : null;
      changed = course.height;
      const asksSame = (a: number): boolean =>
        genome.keys[a] === course.depth[a] && wishesSame(course, a, genome);
      while (changed > kept && asksSame(course.stack[changed - 1])) changed -= 1;
      if (course.branch.some((branch, c) => branch !== genome.branch[c])) changed = n;
    },
    isBack: () => followed !== null && count === 0 && reached >= changed,
    isUndisturbed(a, genome) {
      const course = followed;
      if (course === null || !isIn(course, a)) return false;
      const depth = course.depth[a];
      for (; reached <= depth && followed !== null; reached += 1) {
        const x = course.stack[reached];
        if (x !== a && state.placed[x] === 0) add(x);
      }
      if (followed === null || plain[a] === 0 || !wishesSame(course, a, genome)) return false;
      for (let i = 0; i < count; i += 1)
        if (away[i] !== a && concerns(course, away[i], a)) return false;
      return true;
    },
    placed(a) {
      const course = followed;
      if (course === null || !isIn(course, a)) return;
      const same =
        state.start[a] === course.start[a] &&
        state.finish[a] === course.finish[a] &&
        state.mode[a] === course.mode[a] &&
        state.crew[a] === course.crew[a] &&
        state.slot[a] === course.slot[a];
      if (same) remove(a);
      else add(a);
    },
    takenBack(a) {
      const course = followed;
      if (course !== null && isIn(course, a) && course.depth[a] < reached) add(a);
    },
  };
}
