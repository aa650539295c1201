import type { Plan, ProvedBound, RankValues, SearchState } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { incumbent } from '../incumbent.ts';
import type { Search } from '../search.ts';
import { enter, planOf } from './answer.ts';
import { candidatesOf, type Candidate } from './candidates.ts';
import { dive, type Dive } from './dive.ts';
import { copyDomains, emptyDomains, type Domains } from './domains.ts';
import { roomOf, type Room } from './room.ts';
import { branchings } from './world.ts';

const RANKS = 4;

/** A room in the stage of one rank: what the caps leave of it, and the least it can be worth. */
interface Open {
  readonly room: Room;
  readonly root: Domains;
  readonly bound: number;
}

interface Running {
  readonly dive: Dive;
  readonly bound: number;
}

/**
 * Branch and bound over every placement of every activity: decides small problems (`isSmall`),
 * and says so. Four stages, one for each rank with the earlier ones capped; in each, the rooms that
 * the choices leave are looked through one after the other, the most promising first. Complete
 * and deterministic: it uses no chance. An iteration is a node, or a room that is set up. `warm`
 * is a first plan, taken where the problem allows it.
 */
export function completeSearch(problem: Problem, warm: Plan | null): Search {
  const best = incumbent(problem.tolerances);
  const limits = new Float64Array(RANKS).fill(Infinity);
  const bounds: ProvedBound[] = Array.from({ length: RANKS }, () => ({
    bound: 0,
    caps: [],
    proof: 'none',
  }));
  let iterations = 0;
  let stage: 'setup' | 'search' | 'decided' | 'infeasible' = 'setup';
  let rank = 0;
  let candidates: Candidate[][] | null = null;
  let untried: number[][] = [];
  const rooms: Room[] = [];
  let open: Open[] = [];
  let running: Running | null = null;

  const caps = (): number[] => Array.from({ length: rank }, (_, r) => best.cap(r));

  /** The rank at hand has to become less than the best, within the caps. */
  const tighten = (): void => {
    limits.fill(Infinity);
    for (let r = 0; r < rank; r += 1) limits[r] = best.cap(r);
    limits[rank] = best.least[rank] - 1;
  };

  const prove = (at: number, bound: number, under: readonly number[]): void => {
    bounds[at] = { bound, caps: under, proof: 'search' };
  };

  const offer = (room: Room, domains: Domains): void => {
    const values: RankValues = room.values.least(domains);
    best.offer(values, () => planOf(room.world, domains, values));
    tighten();
  };

  const setUp = (branches: readonly number[]): void => {
    candidates ??= problem.activities.map((_, a) => candidatesOf(problem, a));
    const room = roomOf(problem, candidates, branches);
    if (room.root === null) return;
    rooms.push(room);
    const given = warm === null ? null : enter(room, room.root, warm);
    if (given !== null) offer(room, given);
  };

  /** Ranks that nobody has looked into have the bounds of the problem without caps. */
  const first = (): void => {
    const roots = rooms.flatMap(({ root, values }) => (root === null ? [] : [values.least(root)]));
    if (roots.length === 0) return;
    for (let r = 0; r < RANKS; r += 1) prove(r, Math.min(...roots.map((one) => one[r])), []);
  };

  const begin = (): void => {
    stage = 'search';
    tighten();
    open = rooms.flatMap((room) => {
      if (room.root === null) return [];
      const root = emptyDomains(room.world);
      copyDomains(room.root, root);
      if (!room.propagation.settle(root, limits)) return [];
      return [{ room, root, bound: room.values.least(root)[rank] }];
    });
    open.sort((a, b) => a.bound - b.bound);
  };

  const next = (): Running | null => {
    const one = open.shift();
    if (one === undefined) return null;
    const { room, root, bound } = one;
    const found = (domains: Domains): void => {
      offer(room, domains);
    };
    return { dive: dive(room, root, limits, rank, bound, found), bound };
  };

  /** The rank is decided: nothing that is left can be worth less than the best plan. */
  const close = (): void => {
    if (best.plan === null) {
      stage = 'infeasible';
      return;
    }
    prove(rank, best.least[rank], caps());
    rank += 1;
    if (rank < RANKS) begin();
    else stage = 'decided';
  };

  /** One portion of work of at most so many iterations; the iterations it took. */
  const portion = (most: number): number => {
    if (stage === 'setup') {
      const branches = untried.shift();
      if (branches !== undefined) {
        setUp(branches);
        return 1;
      }
      first();
      begin();
      return 0;
    }
    running ??= next();
    if (running === null) {
      close();
      return 0;
    }
    const used = running.dive.run(most);
    if (running.dive.done) running = null;
    return used;
  };

  /** What is proved of the rank at hand: the least of all that is open and of the best plan. */
  const report = (): void => {
    let bound = Math.min(best.least[rank], running?.bound ?? Infinity);
    for (const one of open) bound = Math.min(bound, one.bound);
    if (bound < Infinity) prove(rank, Math.max(bound, bounds[rank].bound), caps());
  };

  const state = (): SearchState => {
    const { plan } = best;
    const sofar = plan === null ? 'unknown' : 'feasible';
    const done = stage === 'decided' || stage === 'infeasible';
    const decided = stage === 'decided' ? 'optimal' : 'infeasible';
    return { status: done ? decided : sofar, plan, bounds: [...bounds], iterations, done };
  };

  untried = branchings(problem);
  return {
    step(count) {
      let left = count;
      while (left > 0 && (stage === 'setup' || stage === 'search')) {
        const used = portion(left);
        left -= used;
        iterations += used;
      }
      if (stage === 'search') report();
      return state();
    },
  };
}
