import type { Problem } from '../../../model/problem.ts';
import { energy } from '../../../propagation/energy.ts';
import { clash, type Occupied, type Orders } from './orders.ts';
import { addUsage } from './supplies.ts';
import type { Ground } from './ground.ts';
import type { Steps } from './steps.ts';
import type { Work } from './works.ts';

/** Sets of builders that are looked at for pairs, and those of them that are watched over time. */
const MOST_SETS = 800;
const MOST_WATCHED = 16;
const MOST_ENERGY = 4;

/** Some builders, as bits, and what is asked of nobody but them. */
interface Pool {
  readonly builders: bigint;
  readonly capacity: number;
  readonly asking: readonly Asking[];
  /** Builder-minutes asked for, over the builders. */
  readonly load: number;
}

interface Asking {
  readonly work: Work;
  readonly amount: number;
  readonly tail: number;
  readonly occupied: Occupied;
}

const sizeOf = (set: bigint): number => set.toString(2).split('1').length - 1;

/** By skill, who has it; null where somebody has it who can be in several places. */
function ableOf({ builders, skills }: Problem): (bigint | null)[] {
  return skills.map((_, skill) => {
    let set = 0n;
    for (const [b, { abilities, unlimited }] of builders.entries()) {
      if (!abilities.some((one) => one.skill === skill)) continue;
      if (unlimited) return null;
      set |= 1n << BigInt(b);
    }
    return set;
  });
}

/** Unions of those who have a skill. */
function unionsOf(able: readonly (bigint | null)[]): bigint[] {
  const own = [...new Set(able)].filter((set) => set !== null && set !== 0n);
  const all = new Set<bigint>();
  for (const set of own) {
    for (const other of [...all]) if (all.size < MOST_SETS && set !== null) all.add(other | set);
    if (set !== null) all.add(set);
  }
  return [...all];
}

/** The fewest that any way of the work asks for who can only come from the set. */
function demandOf(
  problem: Problem,
  work: Work,
  able: readonly (bigint | null)[],
  set: bigint,
): number {
  const { modes } = problem.activities[work.activity];
  return Math.min(
    ...work.ways.map(({ mode }) =>
      modes[mode].crew.reduce((sum, { skill, count }) => {
        const own = able[skill];
        return own !== null && (own & ~set) === 0n ? sum + count : sum;
      }, 0),
    ),
  );
}

function poolOf(
  problem: Problem,
  works: readonly Work[],
  able: readonly (bigint | null)[],
  builders: bigint,
): Pool {
  const asking = works.flatMap((work): Asking[] => {
    if (work.frozen || work.ways.length === 0) return [];
    const [{ hours, shifts, cleanDown }] = work.ways;
    if (work.ways.some((way) => way.hours !== hours)) return [];
    const amount = demandOf(problem, work, able, builders);
    if (amount === 0) return [];
    const tail = Math.min(cleanDown, ...work.ways.map((way) => way.cleanDown));
    const least = tail + Math.min(...work.ways.map(({ minutes }) => minutes));
    const inside = work.ways.length === 1 ? shifts : null;
    return [{ work, amount, tail, occupied: { hours, shifts: inside, least } }];
  });
  const capacity = sizeOf(builders);
  const minutes = asking.reduce((sum, { amount, occupied }) => sum + amount * occupied.least, 0);
  return { builders, capacity, asking, load: minutes / capacity };
}

/** By energy, where the work is always there, in one piece and equally long. */
function addEnergy({ draft }: Ground, { capacity, asking }: Pool): void {
  const plain = asking.filter(
    ({ work, occupied }) =>
      occupied.hours === null &&
      occupied.least > 0 &&
      work.present === null &&
      work.ways.every(({ minutes, cleanDown }) => minutes + cleanDown === occupied.least),
  );
  if (plain.length < 3) return;
  const uses = plain.map(({ work, amount, occupied }) => ({
    x: work.start,
    duration: occupied.least,
    amount,
  }));
  draft.rule(energy({ capacity, uses }));
}

/**
 * Redundant: for each set of builders, what can only be asked of them is never more than they are
 * (P. Hall, "On representatives of subsets", J. London Math. Soc. 10 (1935) 26-30). Two works that
 * ask for too many together exclude each other; the sets with most to do are watched over time.
 */
export function* addSkills(ground: Ground, works: readonly Work[], orders: Orders): Steps<void> {
  const { problem, draft } = ground;
  const able = ableOf(problem);
  const pools: Pool[] = [];
  for (const set of unionsOf(able)) {
    yield;
    const pool = poolOf(problem, works, able, set);
    const all = pool.asking.reduce((sum, { amount }) => sum + amount, 0);
    if (pool.asking.length > 1 && all > pool.capacity) pools.push(pool);
  }
  pools.sort((a, b) => b.load - a.load || a.capacity - b.capacity);
  pools.slice(0, MOST_ENERGY).forEach((pool) => {
    addEnergy(ground, pool);
  });
  yield;
  pools.slice(0, MOST_WATCHED).forEach(({ capacity, asking }) => {
    addUsage(
      draft,
      [{ from: 0, capacity }],
      asking.map(({ work: { start, finish }, tail, amount, occupied: { hours } }) => ({
        start,
        finish,
        tail,
        amount,
        times: null,
        hours,
      })),
    );
  });
  for (const { asking, capacity } of pools) {
    yield;
    asking.forEach((one, i) => {
      for (const other of asking.slice(i + 1)) {
        if (one.amount + other.amount <= capacity || orders.areApart(one.work, other.work))
          continue;
        if (!clash(one.occupied, other.occupied, problem.horizon)) continue;
        orders.exclude(
          { work: one.work, to: one.work.finish, gap: one.tail },
          { work: other.work, to: other.work.finish, gap: other.tail },
          null,
        );
      }
    });
  }
}
