import type { Random } from '#kernel/random.ts';
import { readUp } from '../../../model/lag-table.ts';
import type { Compiled } from '../compiled/compiled.ts';
import type { Windows } from '../decode/choose.ts';
import { randomBranches, type Genome } from '../decode/genome.ts';

/** Working minutes are about a quarter of all; a rough rate between the two for priorities only. */
const REAL_PER_WORKING = 3;

/** What an activity takes at least, in rough real minutes. */
function rough(compiled: Compiled, a: number): number {
  const { modes } = compiled.activities[a];
  let least = Infinity;
  for (const mode of modes)
    least = Math.min(least, mode.crews === null ? mode.minutes : mode.least * REAL_PER_WORKING);
  return least;
}

/** For each activity, the length of the longest rough path from its start to the end of its successors. */
export function tails(compiled: Compiled): Float64Array {
  const { order, activities, problem } = compiled;
  const tail = new Float64Array(activities.length);
  for (let i = order.topological.length - 1; i >= 0; i -= 1) {
    const a = order.topological[i];
    const own = rough(compiled, a);
    let longest = own;
    for (const arc of activities[a].outgoing) {
      if (!arc.open || arc.toFinish) continue;
      const [fn] = arc.fns;
      const from = arc.fromFinish ? own : 0;
      let wait: number;
      if (fn.kind === 'constant') wait = Math.max(0, fn.minutes);
      else {
        // The wait seen after a quarter of the time stands for all of them.
        const middle = problem.horizon >> 2;
        wait = Math.max(0, readUp(problem.tables[fn.table], middle) - middle);
      }
      longest = Math.max(longest, from + wait + tail[arc.to]);
    }
    tail[a] = longest;
  }
  return tail;
}

/** Crew minutes that each refit takes at least, roughly: what branches hold is counted where it is the first. */
function loadOf({ problem, activities }: Compiled): Float64Array {
  const load = new Float64Array(problem.refits.length);
  activities.forEach(({ refit, modes, choice, branch }, a) => {
    if (refit < 0 || (choice >= 0 && branch > 0)) return;
    const least = modes.map(({ least: minutes }, m) => {
      const heads = problem.activities[a].modes[m].crew.reduce((sum, d) => sum + d.count, 0);
      return minutes * heads;
    });
    load[refit] += Math.min(...least);
  });
  return load;
}

/** Refits, those first that take the least crew time for their weight (Smith, Naval Res. Log. Quart. 3, 1956). */
export function smithOrder(compiled: Compiled): number[] {
  const { refits } = compiled.problem;
  const load = loadOf(compiled);
  const ratio = (r: number): number => load[r] / Math.max(1e-9, refits[r].weight);
  return refits.map((_, r) => r).sort((a, b) => ratio(a) - ratio(b) || a - b);
}

/** Refits by due date, those without one last. */
const dueOrder = ({ problem: { refits }, horizon }: Compiled): number[] =>
  refits
    .map((_, r) => r)
    .sort((a, b) => (refits[a].due ?? horizon) - (refits[b].due ?? horizon) || a - b);

/** The same order with a refit or two moved elsewhere. */
function shuffled(order: readonly number[], random: Random): number[] {
  const next = [...order];
  for (let k = random.below(2); k >= 0 && next.length > 1; k -= 1) {
    const [one] = next.splice(random.below(next.length), 1);
    next.splice(random.below(next.length + 1), 0, one);
  }
  return next;
}

/** What a rule needs to know. */
export interface Rules {
  readonly windows: Windows;
  readonly tail: Float64Array;
  /** The order of refits that gave the best plan so far. */
  readonly order: readonly number[];
  /** Plans are hard to find: as different ones as can be are wanted. */
  readonly failing: boolean;
}

/** How far apart refits begin, in horizons: with 1 they come strictly one after the other. */
const APART = [1, 0.1, 0.05, 0.03, 0.02];

/**
 * Fills a genome by rule and returns the order of refits it follows, null where none: the first few
 * numbers are fixed rules (refits one after the other by Smith's rule, by due date, latest start, longest
 * path), the rest vary the best order of refits and how far apart they begin, or shift refits at random.
 */
export function ruleGenome(
  compiled: Compiled,
  { windows, tail, order, failing }: Rules,
  number: number,
  random: Random,
  genome: Genome,
): readonly number[] | null {
  const { refits } = compiled.problem;
  const { horizon } = compiled;
  const fixed = number < 6;
  const pure = !fixed && !failing && random.below(2) === 0;
  let kind = fixed ? number : random.below(8);
  if (pure) kind = 6 + random.below(2);
  const ordered = kind < 3 || kind > 5;
  let used: readonly number[] = order;
  if (kind === 1) used = dueOrder(compiled);
  if (!fixed) used = shuffled(used, random);
  const apart = fixed ? 0.1 : APART[random.below(APART.length)];
  const place = new Float64Array(refits.length);
  used.forEach((r, i) => {
    place[r] = i * apart * horizon;
  });
  const drift = refits.map(() =>
    fixed ? 0 : random.unit() * horizon * (number % 4 === 0 ? 2 : 0.5),
  );
  const noise = fixed || pure || random.below(2) === 0 ? 0 : 0.3 * random.unit();
  const draws = number % 2 === 1;
  const byStart = kind === 2 || kind === 7;
  compiled.activities.forEach(({ refit, modes }, a) => {
    let base = byStart ? windows.startFrom[a] : -tail[a];
    if (kind === 3) base = windows.startTo[a];
    if (kind === 5) base = windows.startTo[a] + windows.startFrom[a];
    if (ordered) base += refit < 0 ? 0 : place[refit];
    else if (refit >= 0) base += drift[refit];
    genome.keys[a] = base + (random.unit() - 0.5) * noise * Math.max(tail[a], horizon * 0.1);
    genome.crew[a] = -1;
    genome.wait[a] = 0;
    genome.mode[a] = -1;
    if (!fixed && !pure) genome.mode[a] = draws ? random.below(modes.length + 1) - 1 : 0;
  });
  genome.thrift = 0;
  if (compiled.overtime && !fixed && !pure)
    genome.thrift = [0, 0, 0, 60, 480, Infinity][random.below(6)];
  genome.slack = fixed || pure ? 0 : [0, 0, 15, 60, 240][random.below(5)];
  if (fixed || (pure && random.below(2) === 0))
    compiled.branches.forEach((allowed, c) => {
      genome.branch[c] = allowed[fixed ? (number >> 1) % allowed.length : 0];
    });
  else randomBranches(compiled, genome, random);
  return ordered ? used : null;
}

/** What could not be placed, by how often, goes earlier the next time, together with all that leads to it. */
export function hurry({ order, horizon }: Compiled, blamed: Float64Array, genome: Genome): void {
  for (let i = order.topological.length - 1; i >= 0; i -= 1) {
    const a = order.topological[i];
    let pull = blamed[a];
    for (const b of order.after[a]) pull = Math.max(pull, blamed[b] * 0.999);
    blamed[a] = pull;
  }
  for (let a = 0; a < blamed.length; a += 1) genome.keys[a] -= blamed[a] * horizon * 0.02;
}
