import { random as seeded } from '#kernel/random.ts';
import type { Problem } from '../../../model/problem.ts';
import type { Arc } from './arc.ts';
import type { Precedence } from './places.ts';

/**
 * In which order a decode may place activities. `before[a]`: those to be placed first.
 * `pulled[a]`: those to be placed right after `a`, because a window closes behind it.
 */
export interface Order {
  readonly before: readonly (readonly number[])[];
  readonly after: readonly (readonly number[])[];
  readonly pulled: readonly (readonly number[])[];
  /** All activities, predecessors first. */
  readonly topological: readonly number[];
}

/** An opening that makes its successor start or finish later: not a maximum lag in disguise. */
function orders(arc: Arc): boolean {
  if (!arc.open || arc.from === arc.to) return false;
  if (arc.fns.every((fn) => fn.kind === 'constant' && fn.minutes < 0)) return false;
  return !(arc.toFinish && !arc.fromFinish);
}

/** Who precedes whom, as it is added to. */
interface Graph {
  readonly after: Set<number>[];
  readonly before: Set<number>[];
}

function link({ after, before }: Graph, a: number, b: number): void {
  after[a].add(b);
  before[b].add(a);
}

/** All that is reached along `next`, `from` itself not counted unless on a circle. */
function reachedFrom(next: readonly Set<number>[], from: number): Set<number> {
  const seen = new Set<number>();
  const stack = [from];
  for (let a = stack.pop(); a !== undefined; a = stack.pop())
    for (const b of next[a])
      if (!seen.has(b)) {
        seen.add(b);
        stack.push(b);
      }
  return seen;
}

/** What orders of itself, lags first; what would close a circle is left out. */
function graphOf(n: number, arcs: readonly Arc[], places: readonly Precedence[]): Graph {
  const empty = (): Graph => ({
    after: Array.from({ length: n }, () => new Set<number>()),
    before: Array.from({ length: n }, () => new Set<number>()),
  });
  const wanted: Precedence[] = [
    ...arcs.filter(orders).map(({ from, to }): Precedence => [from, to]),
    ...places,
  ];
  const whole = empty();
  for (const [a, b] of wanted) link(whole, a, b);
  if (sortedOf(whole.after).length === n) return whole;
  const graph = empty();
  for (const [a, b] of wanted) if (!reachedFrom(graph.after, b).has(a)) link(graph, a, b);
  return graph;
}

/** Predecessors first; what lies on a circle, or follows one, is missing. */
function sortedOf(after: readonly Set<number>[]): number[] {
  const pending = after.map(() => 0);
  for (const set of after) for (const b of set) pending[b] += 1;
  const sorted = pending.flatMap((count, a) => (count === 0 ? [a] : []));
  for (let i = 0; i < sorted.length; i += 1)
    for (const b of after[sorted[i]]) {
      pending[b] -= 1;
      if (pending[b] === 0) sorted.push(b);
    }
  return sorted;
}

/** Predecessors first; what lies on a circle comes last, in index order. */
function topological(after: readonly Set<number>[]): number[] {
  const sorted = sortedOf(after);
  if (sorted.length === after.length) return sorted;
  const seen = new Set(sorted);
  return [...sorted, ...after.flatMap((_, a) => (seen.has(a) ? [] : [a]))];
}

function shuffle(list: Arc[], seed: number): void {
  const random = seeded(seed);
  for (let i = list.length - 1; i > 0; i -= 1) {
    const k = random.below(i + 1);
    [list[i], list[k]] = [list[k], list[i]];
  }
}

/**
 * The placing order from the lags. An activity whose window opens a race (a closing lag
 * to `j`) waits until everything else that `j` needs is placed; then `j` and what lies
 * between follow at once, so that a window that cannot be met is found while little
 * has been placed after its opener. Arcs that would close a circle are left out. Which those are
 * is a matter of taste where windows overlap: variant 1 leaves openers free, others take the windows
 * in a random order, each the same every time.
 */
export function orderOf(
  problem: Problem,
  arcs: readonly Arc[],
  places: readonly Precedence[] = [],
  variant = 0,
): Order {
  const n = problem.activities.length;
  const graph = graphOf(n, arcs, places);
  const { after, before } = graph;
  const pulled = problem.activities.map(() => new Set<number>());
  const rank = new Int32Array(n);
  topological(after).forEach((a, i) => {
    rank[a] = i;
  });
  const closing = arcs.filter((arc) => !arc.open && arc.from !== arc.to);
  closing.sort((a, b) => rank[b.to] - rank[a.to] || rank[b.from] - rank[a.from]);
  if (variant > 1) shuffle(closing, variant);
  for (const { from, to } of closing) {
    if (problem.activities[from].fixed?.kind === 'frozen') continue;
    if (to === from || reachedFrom(after, to).has(from)) continue;
    link(graph, from, to);
    const behind = reachedFrom(after, from);
    const ahead = reachedFrom(before, to);
    for (const b of [...behind].sort((x, y) => x - y))
      if (b === to || ahead.has(b)) pulled[from].add(b);
    if (variant === 1) continue;
    for (const member of [...pulled[from]])
      for (const p of [...before[member]]) if (p !== from && !behind.has(p)) link(graph, p, from);
  }
  return {
    before: before.map((set) => [...set]),
    after: after.map((set) => [...set]),
    pulled: pulled.map((set) => [...set]),
    topological: topological(after),
  };
}
