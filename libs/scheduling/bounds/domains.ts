import type { Arc } from '../search/crew/arc.ts';
import type { Compiled, CompiledActivity } from '../search/crew/compiled.ts';
import type { Fit } from '../search/crew/fit.ts';
import { anchorBound, anchorOpenBy, anchorReaching } from '../search/crew/inverse.ts';
import { emptyState, placeFrozen, type State } from '../search/crew/state.ts';
import { earliestOf, forBounds, latestOf, waysOf, type Way } from './ways.ts';

/** Bounds on start and finish of each activity, given that it is present. */
export interface Domains {
  readonly startFrom: Float64Array;
  readonly startTo: Float64Array;
  readonly finishFrom: Float64Array;
  readonly finishTo: Float64Array;
  /** The lag that set the bound last, -1 where it was release, calendar or horizon; for explanations. */
  readonly lowerBy: Int32Array;
  readonly upperBy: Int32Array;
}

/** Everything fixed that propagation reads. */
export interface Root {
  readonly compiled: Compiled;
  readonly frozen: State;
  readonly activities: readonly CompiledActivity[];
  readonly ways: readonly (readonly Way[])[];
  /** Lags left out, for asking whether they matter. */
  readonly without: ReadonlySet<number>;
}

/** Propagation stops (soundly, with weaker bounds) after so many visits to one activity. */
const VISITS = 400;

export function rootOf(compiled: Compiled): Root {
  const frozen = emptyState(compiled);
  placeFrozen(compiled, frozen);
  const activities = compiled.activities.map(forBounds);
  return {
    compiled,
    frozen,
    activities,
    ways: compiled.activities.map((a) => waysOf(compiled, frozen, a)),
    without: new Set(),
  };
}

export function firstDomains({ compiled }: Root): Domains {
  const n = compiled.activities.length;
  const domains: Domains = {
    startFrom: new Float64Array(n),
    startTo: new Float64Array(n).fill(compiled.horizon),
    finishFrom: new Float64Array(n),
    finishTo: new Float64Array(n).fill(compiled.horizon),
    lowerBy: new Int32Array(n).fill(-1),
    upperBy: new Int32Array(n).fill(-1),
  };
  compiled.activities.forEach(({ frozen, setStart, release }, a) => {
    domains.startFrom[a] = Math.max(release, setStart);
    if (setStart >= 0) domains.startTo[a] = setStart;
    if (frozen) {
      domains.startFrom[a] = domains.startTo[a] = frozen.start;
      domains.finishFrom[a] = domains.finishTo[a] = frozen.finish;
    }
  });
  return domains;
}

export const copyDomains = (d: Domains): Domains => ({
  startFrom: d.startFrom.slice(),
  startTo: d.startTo.slice(),
  finishFrom: d.finishFrom.slice(),
  finishTo: d.finishTo.slice(),
  lowerBy: d.lowerBy.slice(),
  upperBy: d.upperBy.slice(),
});

/** What is known or assumed of the choices: the branch taken (-1 where open), and which may be. */
export interface Assumed {
  readonly taken: Int16Array;
  readonly possible: readonly Uint8Array[];
}

/** Whether `a` may be absent while everything assumed, and `given`, is present. */
function certain({ activities }: Compiled, assumed: Assumed, a: number, given: number): boolean {
  const { choice, branch } = activities[a];
  if (choice < 0 || assumed.taken[choice] === branch) return true;
  return activities[given].choice === choice && activities[given].branch === branch;
}

/** Whether the arc holds whenever `given` is present. */
function arcCertain({ activities }: Compiled, assumed: Assumed, arc: Arc, given: number): boolean {
  if (arc.choice < 0 || assumed.taken[arc.choice] === arc.branch) return true;
  return activities[given].choice === arc.choice && activities[given].branch === arc.branch;
}

/** Whether the branches assumed rule the activity out. */
export function ruledOut({ activities }: Compiled, assumed: Assumed, a: number): boolean {
  const { choice, branch } = activities[a];
  return (
    choice >= 0 &&
    (assumed.possible[choice][branch] === 0 ||
      (assumed.taken[choice] >= 0 && assumed.taken[choice] !== branch))
  );
}

/** Narrows by the activity's own calendars, crews, forbidden starts and frozen work; false where nothing is left. */
function narrowOwn(root: Root, domains: Domains, a: number, fit: Fit): boolean {
  const { compiled, frozen, ways } = root;
  const activity = root.activities[a];
  const open = (): boolean =>
    domains.startFrom[a] <= domains.startTo[a] && domains.finishFrom[a] <= domains.finishTo[a];
  if (activity.frozen) return open() && activity.frozen.finish <= compiled.horizon;
  earliestOf(compiled, frozen, activity, ways[a], domains.startFrom[a], domains.finishFrom[a], fit);
  if (fit.start === Infinity) return false;
  domains.startFrom[a] = Math.max(domains.startFrom[a], fit.start);
  domains.finishFrom[a] = Math.max(domains.finishFrom[a], fit.finish);
  domains.startTo[a] = Math.min(
    domains.startTo[a],
    latestOf(compiled, ways[a], domains.startTo[a], domains.finishTo[a]),
  );
  return open();
}

/** Narrows the `to` end by the `from` end; true where a bound moved. */
function forward({ compiled: { problem } }: Root, d: Domains, arc: Arc): boolean {
  const { from, to } = arc;
  if (arc.open) {
    const bound = anchorBound(
      problem,
      arc,
      arc.fromFinish ? d.finishFrom[from] : d.startFrom[from],
    );
    const least = arc.toFinish ? d.finishFrom : d.startFrom;
    if (bound <= least[to]) return false;
    least[to] = bound;
    d.lowerBy[to] = arc.lag;
    return true;
  }
  const bound = anchorBound(problem, arc, arc.fromFinish ? d.finishTo[from] : d.startTo[from]);
  const most = arc.toFinish ? d.finishTo : d.startTo;
  if (bound >= most[to]) return false;
  most[to] = bound;
  d.upperBy[to] = arc.lag;
  return true;
}

/** Narrows the `from` end by the `to` end; true where a bound moved. */
function backward({ compiled: { problem } }: Root, d: Domains, arc: Arc): boolean {
  const { from, to } = arc;
  if (arc.open) {
    const bound = anchorOpenBy(problem, arc, arc.toFinish ? d.finishTo[to] : d.startTo[to]);
    const most = arc.fromFinish ? d.finishTo : d.startTo;
    if (bound >= most[from]) return false;
    most[from] = bound;
    d.upperBy[from] = arc.lag;
    return true;
  }
  const bound = anchorReaching(problem, arc, arc.toFinish ? d.finishFrom[to] : d.startFrom[to]);
  const least = arc.fromFinish ? d.finishFrom : d.startFrom;
  if (bound <= least[from]) return false;
  least[from] = bound;
  d.lowerBy[from] = arc.lag;
  return true;
}

/**
 * Propagates all lags and calendars to a fixed point from the activities in `changed` (all
 * where null). A bound of `a` holds whenever `a` is present. Returns the activity whose domain is empty, or -1;
 * `emptied` is called for optional ones, whose branch is then impossible, and may return
 * true to go on.
 */
export function propagate(
  root: Root,
  domains: Domains,
  assumed: Assumed,
  changed: readonly number[] | null,
  emptied: (a: number) => boolean,
): number {
  const { compiled } = root;
  const n = compiled.activities.length;
  const queued = new Uint8Array(n);
  const visits = new Int32Array(n);
  const dead = new Uint8Array(n);
  const queue = changed === null ? [...compiled.order.topological] : [...changed];
  for (const a of queue) queued[a] = 1;
  const fit: Fit = { start: 0, finish: 0 };
  for (let head = 0; head < queue.length; head += 1) {
    const a = queue[head];
    queued[a] = 0;
    if (dead[a] === 1 || ruledOut(compiled, assumed, a)) continue;
    visits[a] += 1;
    if (visits[a] > VISITS) continue;
    if (!narrowOwn(root, domains, a, fit)) {
      if (!emptied(a)) return a;
      dead[a] = 1;
      continue;
    }
    const reach = (other: number, moved: boolean): void => {
      if (moved && queued[other] === 0) {
        queued[other] = 1;
        queue.push(other);
      }
    };
    for (const arc of compiled.activities[a].outgoing) {
      const { to } = arc;
      if (root.without.has(arc.lag) || ruledOut(compiled, assumed, to) || dead[to] === 1) continue;
      if (certain(compiled, assumed, a, to) && arcCertain(compiled, assumed, arc, to))
        reach(to, forward(root, domains, arc));
    }
    for (const arc of compiled.activities[a].incoming) {
      const { from } = arc;
      if (root.without.has(arc.lag) || ruledOut(compiled, assumed, from) || dead[from] === 1)
        continue;
      if (certain(compiled, assumed, a, from) && arcCertain(compiled, assumed, arc, from))
        reach(from, backward(root, domains, arc));
    }
  }
  return -1;
}
