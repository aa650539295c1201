import { firstRoot, type RootProof } from '../../bounds/root.ts';
import type { Plan, SearchState } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { compile, type Compiled } from '../crew/compiled/compiled.ts';
import type { Search } from '../search.ts';
import type { Exchange, Shown } from './board.ts';
import type { Limits, Seat } from './seat.ts';

/** The searchers that one thread keeps, each made when its first round begins. */
export interface Desk {
  readonly root: () => RootProof;
  /** A part of the searcher begins: hands it what all knew at the barrier. */
  begin(seat: number, exchange: Exchange): SearchState;
  /** Goes on with the searcher, which has begun. */
  step(seat: number, iterations: number): SearchState;
  /** What the searcher, which has begun, shows. */
  shown(seat: number): Shown;
  /** Lets the searcher go, with all that it holds; it has nothing more to do from then on. */
  drop(seat: number): void;
}

/** A seed for each searcher, that of the first being the one given. */
const seedOf = (seed: number, seat: number): number => (seed + seat * 0x9e3779b9) >>> 0;

export function deskOf(
  problem: Problem,
  seed: number,
  warm: Plan | null,
  seats: readonly Seat[],
  limits: Limits = {},
): Desk {
  const opened = new Map<number, Search>();
  let compiled: Compiled | null = null;
  let proof: RootProof | null = null;
  const compiledOnce = (): Compiled => (compiled ??= compile(problem));
  const root = (): RootProof => (proof ??= firstRoot(compiledOnce()));

  const open = (seat: number, plan: Plan | null): Search => {
    const materials = { problem, seed: seedOf(seed, seat), warm: plan ?? warm };
    const search = seats[seat].open({ ...materials, compiled: compiledOnce, root, limits });
    opened.set(seat, search);
    return search;
  };

  const begun = (seat: number): Search => {
    const search = opened.get(seat);
    if (search === undefined) throw new Error(`searcher ${String(seat)} has not begun`);
    return search;
  };

  const shown = (seat: number): Shown => {
    const search = begun(seat);
    return {
      state: search.step(0),
      leading: search.leading?.() ?? [],
      effort: search.effort?.() ?? null,
    };
  };

  return {
    root,
    begin(seat, { plan, leading, bounds }) {
      const search = opened.get(seat) ?? open(seat, plan);
      for (const one of leading) search.receive(one, bounds);
      search.receive(plan, bounds);
      return search.step(0);
    },
    step: (seat, iterations) => begun(seat).step(iterations),
    drop(seat) {
      const { state, leading } = shown(seat);
      const last = { ...state, done: true };
      opened.set(seat, { step: () => last, receive: () => undefined, leading: () => leading });
    },
    shown,
  };
}
