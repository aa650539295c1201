import type { RootProof } from '../../bounds/root.ts';
import { createBounds } from '../../bounds/search.ts';
import { createRefuter } from '../../explanation/conflict/refute.ts';
import type { Compiled } from '../crew/compiled/compiled.ts';
import { crewSearch } from '../crew/search/search.ts';
import { createWholeNeighbourhood } from '../whole/neighbourhood.ts';
import { createWhole } from '../whole/whole.ts';
import { LATER, roundAfter, SOON } from './rounds.ts';
import type { Seat } from './seat.ts';

/** The branches that propagation has not ruled out. */
function narrowed(compiled: Compiled, { analysis }: RootProof): Compiled {
  const branches = analysis.assumed.possible.map((possible) =>
    [...possible].flatMap((ok, b) => (ok === 1 ? [b] : [])),
  );
  return { ...compiled, branches };
}

const crew = (n: number, share: number, from = 0): Seat => ({
  name: 'crew',
  from,
  share,
  cost: 5 + 4 * n + 0.012 * n * n,
  open: ({ problem, seed, warm, compiled, root }) => {
    const { analysis, bounds } = root();
    return crewSearch(problem, seed, warm, {
      compiled: narrowed(compiled(), root()),
      windows: analysis.domains,
      bounds,
    });
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
  cost: 60 + 10 * n,
  open: ({ problem, seed, warm, root, limits }) => createWhole(problem, seed, warm, root(), limits),
});

/** Of no use once there is a plan, and then it leaves. */
const refuter = (share: number): Seat => ({
  name: 'refuter',
  from: REFUTE,
  share,
  cost: 200,
  open: ({ problem, warm, root, limits }) => createRefuter(problem, warm, root(), limits),
});

const bounds = (share: number): Seat => ({
  name: 'bounds',
  from: LATER,
  share,
  cost: 3_000,
  open: ({ problem, seed, warm, root }) => createBounds(problem, seed, warm, root()),
});

/** The cost, a part's setting-up in pieces included, hardly depends on the yard: measured at 40 to 800 tasks. */
const neighbourhood = (share: number): Seat => ({
  name: 'neighbourhood',
  from: IMPROVE,
  share,
  cost: 2_500,
  open: ({ problem, seed, warm, root, limits }) =>
    createWholeNeighbourhood(problem, seed, warm, root(), limits),
});

/**
 * Searchers of a problem with people, windows or choices: decodes first, then whoever can decide,
 * then those that improve plans. A second search by decodes has chances of its own.
 */
export function wholeSeats(n: number): readonly Seat[] {
  if (n <= TINY) return [crew(n, 0.1), whole(n, 0, 0.9), crew(n, 0.3, IMPROVE), bounds(0.2)];
  if (n <= FEW)
    return [
      crew(n, 0.3),
      whole(n, SOON, 0.7),
      neighbourhood(0.5),
      crew(n, 0.3, IMPROVE),
      bounds(0.2),
    ];
  const later = n <= MANY ? whole(n, LATER, 0.5) : crew(n, 0.5, IMPROVE);
  return [crew(n, 1), later, neighbourhood(0.5), bounds(0.3), refuter(0.3)];
}
