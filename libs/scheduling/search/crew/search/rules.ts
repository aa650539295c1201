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

/**
 * Fills a genome by rule: the first few numbers are fixed rules (latest start, longest path
 * first, latest start by due date, one refit after the other), the rest the same with random
 * shifts of whole refits and noise on single activities.
 */
export function ruleGenome(
  compiled: Compiled,
  windows: Windows,
  tail: Float64Array,
  number: number,
  random: Random,
  genome: Genome,
): void {
  const { refits } = compiled.problem;
  const { horizon } = compiled;
  const fixed = number < 5;
  const kind = fixed ? number : random.below(6);
  const deadline = refits.map(({ due }) => due ?? horizon);
  const byDue = refits.map((_, r) => r).sort((a, b) => deadline[a] - deadline[b] || a - b);
  const shift = refits.map((_, r) => {
    const drift = fixed ? 0 : random.unit() * horizon * (number % 4 === 0 ? 2 : 0.5);
    return drift + (kind === 2 ? deadline[r] : 0) + (kind === 3 ? byDue.indexOf(r) * horizon : 0);
  });
  const noise = fixed ? 0 : 0.3 * random.unit();
  compiled.activities.forEach(({ refit, modes }, a) => {
    let base = (refit < 0 ? horizon : shift[refit]) - tail[a];
    if (kind === 0) base = windows.startTo[a];
    if (kind === 4) base = windows.startTo[a] + windows.startFrom[a];
    genome.keys[a] = base + (random.unit() - 0.5) * noise * Math.max(tail[a], horizon * 0.1);
    genome.crew[a] = -1;
    genome.wait[a] = 0;
    genome.mode[a] =
      number % 2 === 0 || modes.length === 1 ? 0 : random.below(modes.length + 1) - 1;
  });
  genome.thrift = 0;
  if (compiled.overtime && !fixed) genome.thrift = [0, 0, 0, 60, 480, Infinity][random.below(6)];
  genome.slack = fixed ? 0 : [0, 0, 15, 60, 240][random.below(5)];
  if (fixed)
    compiled.branches.forEach(
      (allowed, c) => (genome.branch[c] = allowed[number % allowed.length]),
    );
  else randomBranches(compiled, genome, random);
}
