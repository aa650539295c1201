import type { RootProof } from '../../bounds/root.ts';
import { createBounds } from '../../bounds/search.ts';
import { createRefuter } from '../../explanation/conflict/refute.ts';
import type { Problem } from '../../model/problem.ts';
import type { Compiled } from '../crew/compiled/compiled.ts';
import { speedFor } from '../crew/compiled/crews.ts';
import { crewSearch } from '../crew/search/search.ts';
import type { Search } from '../search.ts';
import { createWholeNeighbourhood } from '../whole/neighbourhood.ts';
import { createWhole, type CountedSearch } from '../whole/whole.ts';
import { LATER, roundAfter, SOON } from './rounds.ts';
import type { Seat } from './seat.ts';

/** The branches that propagation has not ruled out. */
function narrowed(compiled: Compiled, { analysis }: RootProof): Compiled {
  const branches = analysis.assumed.possible.map((possible) =>
    [...possible].flatMap((ok, b) => (ok === 1 ? [b] : [])),
  );
  return { ...compiled, branches };
}

/**
 * Microseconds of an activity looked at, of a start tried for it with each builder who might do it, and
 * of a rise of a bound: measured on yards of 40 to 800 tasks and on multi-skill files, within a
 * factor of two.
 */
const LOOK = 5;
const TRY = 0.2;
const RISE = 6;
/** Of an iteration of the learning core, whatever it raises. */
const CONFLICT = 100;
/** Of bounds on finishes: a piece of setting up a part, and a look at caps by energy for each activity. */
const PIECE = 600;
const REFUTATION = 3;

/** Builders who might fill a place of a mode's crew, of all its places together, on the average. */
function candidates(problem: Problem): number {
  const { activities, builders } = problem;
  const counts = activities.flatMap(({ modes }) =>
    modes.map(({ crew }) =>
      crew.reduce(
        (sum, demand) => sum + builders.filter((_, b) => speedFor(problem, b, demand) > 0).length,
        0,
      ),
    ),
  );
  return Math.max(1, counts.reduce((sum, one) => sum + one, 0) / Math.max(1, counts.length));
}

/** The searcher with its effort counted. */
const counting = (search: Search, effort: () => number): Search => ({
  step: (iterations) => search.step(iterations),
  receive(plan, bounds) {
    search.receive(plan, bounds);
  },
  leading: () => search.leading?.() ?? [],
  effort,
});

const countingRises = (search: CountedSearch): Search =>
  counting(
    search,
    () => RISE * search.counts().propagations + CONFLICT * search.step(0).iterations,
  );

const crew = (n: number, share: number, from = 0): Seat => ({
  name: 'crew',
  from,
  share,
  proves: false,
  needsPlan: false,
  cost: 5 + 4 * n + 0.012 * n * n,
  open: ({ problem, seed, warm, compiled, root }) => {
    const { analysis, bounds } = root();
    const search = crewSearch(problem, seed, warm, {
      compiled: narrowed(compiled(), root()),
      windows: analysis.domains,
      bounds,
    });
    const trying = TRY * candidates(problem);
    return counting(search, () => LOOK * search.counts().looks + trying * search.counts().tries);
  },
});

/** Activities up to which the learning core takes the whole problem at once, early on, and at all. */
const TINY = 12;
const FEW = 60;
const MANY = 100;
/** By then there is a plan that is worth improving, if any. */
const IMPROVE = LATER + 2;
/** By then most problems that have plans have one. */
const REFUTE = roundAfter(400_000);

const whole = (n: number, from: number, share: number): Seat => ({
  name: 'whole',
  from,
  share,
  proves: true,
  needsPlan: false,
  cost: 60 + 10 * n,
  open: ({ problem, seed, warm, root, limits }) =>
    countingRises(createWhole(problem, seed, warm, root(), limits)),
});

/** Of no use once there is a plan, and then it leaves. */
const refuter = (share: number): Seat => ({
  name: 'refuter',
  from: REFUTE,
  share,
  proves: true,
  needsPlan: false,
  cost: 200,
  open: ({ problem, warm, root, limits }) => createRefuter(problem, warm, root(), limits),
});

/** Small yards are looked at by the learning core in parts, some conflicts an iteration; large ones by energy. */
const bounds = (n: number, share: number): Seat => ({
  name: 'bounds',
  from: LATER,
  share,
  proves: false,
  needsPlan: true,
  cost: n <= MANY ? 5_000 : 300 + 2 * n,
  open: ({ problem, seed, warm, root }) => {
    const search = createBounds(problem, seed, warm, root());
    return counting(search, () => {
      const { conflicts, propagations, pieces, refutations } = search.counts();
      const parts = CONFLICT * conflicts + RISE * propagations + PIECE * pieces;
      return parts + REFUTATION * n * refutations;
    });
  },
});

/** The cost, mostly of setting up parts in pieces, hardly depends on the yard: measured at 40 to 800 tasks. */
const neighbourhood = (share: number): Seat => ({
  name: 'neighbourhood',
  from: IMPROVE,
  share,
  proves: false,
  needsPlan: true,
  cost: 900,
  open: ({ problem, seed, warm, root, limits }) =>
    createWholeNeighbourhood(problem, seed, warm, root(), limits),
});

/**
 * Searchers of a problem with people, windows or choices: decodes first, then whoever can decide,
 * then those that improve plans. Where the core cannot hold the problem, a second search by decodes
 * has chances of its own; on yards of 40 tasks and fewer it never was the one to find anything.
 */
export function wholeSeats(n: number): readonly Seat[] {
  if (n <= TINY) return [crew(n, 0.1), whole(n, 0, 0.9), bounds(n, 0.2)];
  if (n <= FEW) return [crew(n, 0.3), whole(n, SOON, 0.7), neighbourhood(0.5), bounds(n, 0.2)];
  const later = n <= MANY ? whole(n, LATER, 0.5) : crew(n, 0.5, IMPROVE);
  return [crew(n, 1), later, neighbourhood(0.5), bounds(n, 0.3), refuter(0.3)];
}
