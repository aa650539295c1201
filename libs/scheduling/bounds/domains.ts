import type { Problem } from '../model/problem.ts';
import type { Compiled } from '../search/crew/compiled/compiled.ts';
import { arcsOf, boundFrom, boundTo, ownersOf, type Arc, type Owners } from './arc.ts';
import { groundOf } from './ground.ts';
import type { Fit } from './solo.ts';
import { earliestOf, latestOf, waysOf, type Way } from './ways.ts';

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
  readonly problem: Problem;
  readonly compiled: Compiled;
  readonly owners: Owners;
  readonly arcs: readonly Arc[];
  readonly incoming: readonly (readonly Arc[])[];
  readonly outgoing: readonly (readonly Arc[])[];
  readonly ways: readonly (readonly Way[])[];
  /** By activity, the modes that have a way; all of frozen work. */
  readonly modes: readonly (readonly number[])[];
  /** By activity, the way that was best when last asked, which is asked first: it spares the others. */
  readonly hints: { readonly earliest: Int32Array; readonly latest: Int32Array };
}

/** Propagation stops (soundly, with weaker bounds) after so many visits to one activity. */
const VISITS = 400;

const isPotLife = ({ lags }: Problem, { lagChoice }: Owners, l: number): boolean =>
  lags[l].from === lags[l].to &&
  lags[l].bound === 'close' &&
  lags[l].fromAnchor === 'start' &&
  lags[l].toAnchor === 'finish' &&
  lagChoice[l] < 0;

export function rootOf(compiled: Compiled): Root {
  const { problem } = compiled;
  const owners = ownersOf(problem);
  const ground = groundOf(problem);
  const potLives: number[][] = problem.activities.map(() => []);
  problem.lags.forEach(({ from }, l) => {
    if (isPotLife(problem, owners, l)) potLives[from].push(l);
  });
  const ways = problem.activities.map((activity, a) =>
    activity.fixed?.kind === 'frozen' ? [] : waysOf(ground, compiled, a, potLives[a]),
  );
  const modes = problem.activities.map((activity, a) =>
    activity.fixed?.kind === 'frozen'
      ? activity.modes.map((_, m) => m)
      : [...new Set(ways[a].map(({ mode }) => mode))],
  );
  const arcs = arcsOf(problem, owners, modes);
  const incoming: Arc[][] = problem.activities.map(() => []);
  const outgoing: Arc[][] = problem.activities.map(() => []);
  for (const arc of arcs) {
    if (arc.from === arc.to) continue;
    incoming[arc.to].push(arc);
    outgoing[arc.from].push(arc);
  }
  const n = problem.activities.length;
  const hints = { earliest: new Int32Array(n), latest: new Int32Array(n) };
  return { problem, compiled, owners, arcs, incoming, outgoing, ways, modes, hints };
}

export function firstDomains({ problem }: Root): Domains {
  const n = problem.activities.length;
  const domains: Domains = {
    startFrom: new Float64Array(n),
    startTo: new Float64Array(n).fill(problem.horizon),
    finishFrom: new Float64Array(n),
    finishTo: new Float64Array(n).fill(problem.horizon),
    lowerBy: new Int32Array(n).fill(-1),
    upperBy: new Int32Array(n).fill(-1),
  };
  problem.activities.forEach(({ fixed, releases }, a) => {
    if (fixed?.kind === 'frozen') {
      const start = fixed.start ?? 0;
      domains.startFrom[a] = domains.startTo[a] = start;
      domains.finishFrom[a] = domains.finishTo[a] = fixed.finish ?? start;
      return;
    }
    for (const { at } of releases) domains.startFrom[a] = Math.max(domains.startFrom[a], at);
    const { start = null, finish = null } = fixed ?? {};
    if (start !== null) {
      domains.startFrom[a] = Math.max(domains.startFrom[a], start);
      domains.startTo[a] = start;
    }
    if (finish !== null) domains.finishFrom[a] = domains.finishTo[a] = finish;
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

/** The four moments; what set them is left as it is. */
export function setDomains(to: Domains, from: Domains): void {
  to.startFrom.set(from.startFrom);
  to.startTo.set(from.startTo);
  to.finishFrom.set(from.finishFrom);
  to.finishTo.set(from.finishTo);
}

/** What is known or assumed of the choices: the branch taken (-1 where open), and which may be. */
export interface Assumed {
  readonly taken: Int16Array;
  readonly possible: readonly Uint8Array[];
}

/** Whether a record of a branch is there for certain; `given`: an activity that is. */
function sure(
  { owners }: Root,
  assumed: Assumed,
  choice: number,
  branch: number,
  given: number,
): boolean {
  if (choice < 0 || assumed.taken[choice] === branch) return true;
  return owners.activityChoice[given] === choice && owners.activityBranch[given] === branch;
}

/** Whether the activity is present in every plan that keeps to what is assumed. */
export function isCertain({ owners }: Root, assumed: Assumed, a: number): boolean {
  const choice = owners.activityChoice[a];
  return choice < 0 || assumed.taken[choice] === owners.activityBranch[a];
}

/** Whether the branches assumed rule the activity out. */
export function ruledOut({ owners }: Root, assumed: Assumed, a: number): boolean {
  const choice = owners.activityChoice[a];
  if (choice < 0) return false;
  const branch = owners.activityBranch[a];
  const taken = assumed.taken[choice];
  return assumed.possible[choice][branch] === 0 || (taken >= 0 && taken !== branch);
}

/**
 * Narrows one side by the activity's own hours, crews, slots and forbidden moments; false where
 * nothing is left.
 */
function narrowOwn(root: Root, d: Domains, a: number, lower: boolean, fit: Fit): boolean {
  const { problem, ways, hints } = root;
  const open = (): boolean => d.startFrom[a] <= d.startTo[a] && d.finishFrom[a] <= d.finishTo[a];
  if (problem.activities[a].fixed?.kind === 'frozen')
    return open() && d.finishTo[a] <= problem.horizon;
  if (lower) {
    hints.earliest[a] = earliestOf(
      problem,
      ways[a],
      hints.earliest[a],
      d.startFrom[a],
      d.finishFrom[a],
      fit,
    );
    if (fit.start === Infinity) return false;
    d.startFrom[a] = Math.max(d.startFrom[a], fit.start);
    d.finishFrom[a] = Math.max(d.finishFrom[a], fit.finish);
  } else {
    hints.latest[a] = latestOf(problem, ways[a], hints.latest[a], d.startTo[a], d.finishTo[a], fit);
    d.startTo[a] = Math.min(d.startTo[a], fit.start);
    d.finishTo[a] = Math.min(d.finishTo[a], fit.finish);
  }
  return open();
}

/** Narrows the `to` end by the `from` end; true where a bound moved. */
function forward({ problem }: Root, d: Domains, arc: Arc): boolean {
  const { from, to, open } = arc;
  const start = open ? d.startFrom : d.startTo;
  const finish = open ? d.finishFrom : d.finishTo;
  const bound = boundTo(problem, arc, arc.fromFinish ? finish[from] : start[from]);
  const target = arc.toFinish ? finish : start;
  if (open ? bound <= target[to] : bound >= target[to]) return false;
  target[to] = bound;
  (open ? d.lowerBy : d.upperBy)[to] = arc.lag;
  return true;
}

/** Narrows the `from` end by the `to` end; true where a bound moved. */
function backward({ problem }: Root, d: Domains, arc: Arc): boolean {
  const { from, to, open } = arc;
  const start = open ? d.startTo : d.startFrom;
  const finish = open ? d.finishTo : d.finishFrom;
  const bound = boundFrom(problem, arc, arc.toFinish ? finish[to] : start[to]);
  const target = arc.fromFinish ? finish : start;
  if (open ? bound >= target[from] : bound <= target[from]) return false;
  target[from] = bound;
  (open ? d.upperBy : d.lowerBy)[from] = arc.lag;
  return true;
}

/**
 * Propagates all lags and hours to a fixed point from the activities in `changed` (all where
 * null). A bound of `a` holds whenever `a` is present. Returns the activity whose domain is
 * empty, or -1; `emptied` is called for optional ones, whose branch is then impossible, and may
 * return true to go on. Earliest moments follow from earliest ones alone, and latest from latest:
 * the two sides are settled one after the other, each mostly in one sweep of the order.
 */
export function propagate(
  root: Root,
  domains: Domains,
  assumed: Assumed,
  changed: readonly number[] | null,
  emptied: (a: number) => boolean,
): number {
  const { topological } = root.compiled.order;
  const dead = new Uint8Array(topological.length);
  const side = (lower: boolean, queue: number[]): number =>
    settle(root, domains, assumed, lower, queue, dead, emptied);
  const empty = side(true, [...(changed ?? topological)]);
  return empty >= 0 ? empty : side(false, changed ? [...changed] : topological.toReversed());
}

/** The same of latest moments alone. */
export function latestOnly(
  root: Root,
  domains: Domains,
  assumed: Assumed,
  changed: readonly number[] | null,
  emptied: (a: number) => boolean,
): number {
  const { topological } = root.compiled.order;
  const queue = changed ? [...changed] : topological.toReversed();
  return settle(root, domains, assumed, false, queue, new Uint8Array(topological.length), emptied);
}

function settle(
  root: Root,
  domains: Domains,
  assumed: Assumed,
  lower: boolean,
  queue: number[],
  dead: Uint8Array,
  emptied: (a: number) => boolean,
): number {
  const { owners } = root;
  const n = dead.length;
  const queued = new Uint8Array(n);
  const visits = new Int32Array(n);
  for (const a of queue) queued[a] = 1;
  const fit: Fit = { start: 0, finish: 0 };
  const skipped = (a: number): boolean => dead[a] === 1 || ruledOut(root, assumed, a);
  const holds = (arc: Arc, own: number, other: number): boolean =>
    sure(root, assumed, owners.activityChoice[own], owners.activityBranch[own], other) &&
    sure(root, assumed, arc.choice, arc.branch, other);
  const reach = (other: number, moved: boolean): void => {
    if (moved && queued[other] === 0) {
      queued[other] = 1;
      queue.push(other);
    }
  };
  for (let head = 0; head < queue.length; head += 1) {
    const a = queue[head];
    queued[a] = 0;
    if (skipped(a)) continue;
    visits[a] += 1;
    if (visits[a] > VISITS) continue;
    if (!narrowOwn(root, domains, a, lower, fit)) {
      if (!emptied(a)) return a;
      dead[a] = 1;
      continue;
    }
    for (const arc of root.outgoing[a])
      if (arc.open === lower && !skipped(arc.to) && holds(arc, a, arc.to))
        reach(arc.to, forward(root, domains, arc));
    for (const arc of root.incoming[a])
      if (arc.open !== lower && !skipped(arc.from) && holds(arc, a, arc.from))
        reach(arc.from, backward(root, domains, arc));
  }
  return -1;
}
