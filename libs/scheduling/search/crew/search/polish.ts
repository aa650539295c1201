import type { Random } from '#kernel/random.ts';
import type { Published } from '../../../model/problem.ts';
import type { Incumbent } from '../../incumbent.ts';
import type { Compiled } from '../compiled/compiled.ts';
import type { Decoder } from '../decode/decode.ts';
import { copyGenome, emptyGenome, type Genome } from '../decode/genome.ts';
import { settle } from './moves.ts';
import type { Worth } from './worth.ts';

/** The rank that a stretch of search is after; the second comes with the first. */
export type Goal = 1 | 2 | 3;

/** A minute of lateness counts as so many minutes of finish while the search is guided. */
const LATE = 20;
/** Going over a cap by this share of it weighs as much as all of the rank looked at. */
const EXCESS = 0.01;

/** The fewest decodes for a rank, of a problem whose whole decodes are dear. */
export const FEW_POLISHING = 8;
/** Of the activities looked at while improving such a problem, the share for each rank that is polished. */
const POLISHED = 0.1;

/** Decodes for a rank after so many activities looked at for the earlier ones, `most` at most. */
export const polishingAfter = (looks: number, activities: number, most: number): number =>
  Math.min(most, Math.max(FEW_POLISHING, Math.round((POLISHED * looks) / activities)));

/** What a plan adds to the energy of ranks 1 and 2; lateness counts past `target`. */
export const promised = ({ values }: Worth, target: number): number =>
  LATE * Math.max(0, values[0] - target) + values[1];

/** Energy of a plan while rank 3 or 4 is looked at: the earlier ranks weigh only past their caps. */
export function polishEnergy(goal: Goal, { values }: Worth, best: Incumbent): number {
  const over = (rank: number, scale: number): number =>
    Math.max(0, values[rank] - best.cap(rank)) / (EXCESS * Math.max(1, scale));
  let excess = over(0, best.least[1] / LATE) + over(1, best.least[1]);
  if (goal === 3) excess += over(2, best.least[2]);
  return values[goal] + excess * Math.max(1, best.least[goal]);
}

/** As `settle`, and whatever the decode chose or came to ask for is asked for the next time. */
export function settleWhole(decoder: Decoder, genome: Genome): void {
  settle(decoder, genome);
  const { state, present, raised } = decoder;
  for (let a = 0; a < present.length; a += 1) {
    if (present[a] === 0) continue;
    genome.mode[a] = state.mode[a];
    genome.crew[a] = state.crew[a];
    if (raised.start[a] > 0 || raised.finish[a] > 0) genome.wait[a] = state.start[a];
  }
}

/** A cheaper way for the activity: fewer or other people, no overtime, another mode, or another moment. */
function cheapen({ compiled, state }: Decoder, genome: Genome, random: Random, a: number): void {
  const { modes } = compiled.activities[a];
  if (modes.length > 1 && random.below(3) === 0) {
    genome.mode[a] = random.below(modes.length);
    genome.crew[a] = -1;
    return;
  }
  const { crews } = modes[state.mode[a]];
  genome.mode[a] = state.mode[a];
  if (crews === null || crews.length < 2) {
    genome.wait[a] = random.below(2) === 0 ? 0 : state.start[a] + random.below(1440);
    return;
  }
  const now = crews[Math.max(0, state.crew[a])];
  const c = random.below(crews.length);
  // One in four may be any: what is dear here may make room for what is cheap there.
  for (let k = 0; k < crews.length; k += 1) {
    const other = (c + k) % crews.length;
    const option = crews[other];
    const cheaper =
      option.pay < now.pay || (now.overtime && !option.overtime && option.pay <= now.pay);
    if (!cheaper && random.below(4) > 0) continue;
    genome.crew[a] = other;
    return;
  }
}

/** The crew of exactly these builders; -1 where the mode has none. */
function crewOfBuilders(
  compiled: Compiled,
  a: number,
  m: number,
  names: readonly number[],
): number {
  return (compiled.activities[a].modes[m].crews ?? []).findIndex(
    ({ builders }) => builders.length === names.length && names.every((b) => builders.includes(b)),
  );
}

/** One published task back to its people or its time. */
function restore(
  { compiled, state, present }: Decoder,
  published: Published,
  genome: Genome,
  random: Random,
): void {
  const { tasks, tolerance } = published;
  const first = random.below(tasks.length);
  for (let k = 0; k < tasks.length; k += 1) {
    const { activity: a, start, builders } = tasks[(first + k) % tasks.length];
    if (present[a] === 0) continue;
    const m = compiled.activities[a].modes.findIndex(
      (_, other) => crewOfBuilders(compiled, a, other, builders) >= 0,
    );
    const moved = Math.abs(state.start[a] - start) > tolerance;
    const c = m >= 0 ? crewOfBuilders(compiled, a, m, builders) : -1;
    const others = m >= 0 && (state.mode[a] !== m || state.crew[a] !== c);
    if (!moved && !others) continue;
    if (others) {
      genome.mode[a] = m;
      genome.crew[a] = c;
    }
    if (!moved) return;
    if (state.start[a] > start) genome.keys[a] -= random.unit() * present.length * 0.3;
    genome.wait[a] = Math.max(0, start - (random.below(2) === 0 ? 0 : tolerance));
    return;
  }
}

/** A neighbour of a genome that may be better in rank 3 or 4. */
export function polishMove(
  decoder: Decoder,
  goal: Goal,
  from: Genome,
  to: Genome,
  random: Random,
): void {
  copyGenome(from, to);
  const { compiled, present } = decoder;
  const { published } = compiled.problem;
  if (goal === 3 && published !== null) {
    restore(decoder, published, to, random);
    return;
  }
  for (let k = random.below(3); k >= 0; k -= 1) {
    const a = random.below(present.length);
    if (present[a] === 1 && compiled.activities[a].frozen === null) cheapen(decoder, to, random, a);
  }
  if (compiled.branches.length > 0 && random.below(6) === 0) {
    const c = random.below(compiled.branches.length);
    to.branch[c] = compiled.branches[c][random.below(compiled.branches[c].length)];
  }
  if (random.below(8) === 0) to.thrift = Infinity;
}

/** The genome of the published plan: every task waits for its start, with its people. */
export function publishedGenome(compiled: Compiled, published: Published): Genome {
  const genome = emptyGenome(compiled);
  const { order } = compiled;
  for (const a of order.topological) {
    const task = published.tasks.find(({ activity }) => activity === a);
    // What was not published goes where its predecessors put it.
    genome.keys[a] = order.before[a].reduce((key, b) => Math.max(key, genome.keys[b]), 0);
    if (!task) continue;
    genome.keys[a] = task.start;
    genome.wait[a] = Math.max(0, task.start);
    compiled.activities[a].modes.forEach((_, m) => {
      const crew = crewOfBuilders(compiled, a, m, task.builders);
      if (crew < 0) return;
      genome.mode[a] = m;
      genome.crew[a] = crew;
    });
  }
  return genome;
}
