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

function reachable(after: readonly Set<number>[], from: number): Uint8Array {
  const seen = new Uint8Array(after.length);
  const stack = [from];
  for (let a = stack.pop(); a !== undefined; a = stack.pop())
    for (const b of after[a])
      if (!seen[b]) {
        seen[b] = 1;
        stack.push(b);
      }
  return seen;
}

/** Predecessors first; what lies on a circle comes last, in index order. */
function topological(after: readonly Set<number>[]): number[] {
  const pending = after.map(() => 0);
  for (const set of after) for (const b of set) pending[b] += 1;
  const ready = pending.flatMap((count, a) => (count === 0 ? [a] : []));
  const sorted: number[] = [];
  for (let i = 0; i < ready.length; i += 1) {
    sorted.push(ready[i]);
    for (const b of after[ready[i]]) {
      pending[b] -= 1;
      if (pending[b] === 0) ready.push(b);
    }
  }
  for (let a = 0; a < after.length; a += 1) if (pending[a] > 0) sorted.push(a);
  return sorted;
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
  const after = problem.activities.map(() => new Set<number>());
  const before = problem.activities.map(() => new Set<number>());
  const link = (a: number, b: number): void => {
    after[a].add(b);
    before[b].add(a);
  };
  for (const arc of arcs)
    if (orders(arc) && !reachable(after, arc.to)[arc.from]) link(arc.from, arc.to);
  for (const [from, to] of places) if (!reachable(after, to)[from]) link(from, to);
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
    if (reachable(after, to)[from]) continue;
    link(from, to);
    const behind = reachable(after, from);
    const ahead = reachable(before, to);
    for (let b = 0; b < n; b += 1) if (behind[b] && (b === to || ahead[b])) pulled[from].add(b);
    if (variant === 1) continue;
    for (const member of [...pulled[from]])
      for (const p of [...before[member]]) if (p !== from && !behind[p]) link(p, from);
  }
  return {
    before: before.map((set) => [...set]),
    after: after.map((set) => [...set]),
    pulled: pulled.map((set) => [...set]),
    topological: topological(after),
  };
}
