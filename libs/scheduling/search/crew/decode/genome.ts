import type { Random } from '#kernel/random.ts';
import type { Compiled } from '../compiled/compiled.ts';

/** What a decode is told: smaller keys first; -1 leaves mode or crew to the decode. */
export interface Genome {
  readonly keys: Float64Array;
  readonly mode: Int16Array;
  readonly crew: Int16Array;
  readonly branch: Int16Array;
  /** Not before this minute though it could be: what an earliest placement alone can never do. */
  readonly wait: Float64Array;
  /** Minutes by which a crew of more sought-after people must finish earlier to be taken. */
  slack: number;
  /** Minutes by which a crew must finish earlier for its overtime to be taken, unless asked for. */
  thrift: number;
  /** What misses its window goes ahead of what is in its way there, instead of its opener being raised. */
  ahead: boolean;
  /** Which of the placing orders. */
  order: number;
}

export const emptyGenome = (compiled: Compiled): Genome => ({
  keys: new Float64Array(compiled.activities.length),
  mode: new Int16Array(compiled.activities.length).fill(-1),
  crew: new Int16Array(compiled.activities.length).fill(-1),
  branch: Int16Array.from(compiled.branches, (allowed) => allowed[0] ?? 0),
  wait: new Float64Array(compiled.activities.length),
  slack: 0,
  thrift: 0,
  ahead: false,
  order: 0,
});

export function copyGenome(from: Genome, to: Genome): void {
  to.keys.set(from.keys);
  to.mode.set(from.mode);
  to.crew.set(from.crew);
  to.branch.set(from.branch);
  to.wait.set(from.wait);
  to.slack = from.slack;
  to.thrift = from.thrift;
  to.ahead = from.ahead;
  to.order = from.order;
}

export function randomBranches(compiled: Compiled, genome: Genome, random: Random): void {
  compiled.branches.forEach((allowed, c) => {
    genome.branch[c] = allowed[random.below(allowed.length)];
  });
}
