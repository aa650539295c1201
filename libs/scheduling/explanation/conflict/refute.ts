import type { RootProof } from '../../bounds/root.ts';
import type { Plan, SearchState } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { compile } from '../../search/crew/compiled/compiled.ts';
import { firstRoot } from '../../bounds/root.ts';
import type { Search } from '../../search/search.ts';
import { createWhole, type WholeOptions } from '../../search/whole/whole.ts';
import { constraintsOf } from './subject.ts';
import { tightGroups, within } from './tight.ts';
import { part } from './verdict.ts';

/** Iterations for one group. */
const PATIENCE = 2_000;

/**
 * Looks for a few activities that have no plan by themselves: then the problem has none either,
 * however large it is. The groups are those with the least room to move, each given to the
 * learning core; a plan for a group says nothing. Has nothing to do once any plan is known.
 * Deterministic; it uses no chance.
 */
export function createRefuter(
  problem: Problem,
  warm: Plan | null,
  root: RootProof,
  limits: WholeOptions,
): Search {
  const groups = tightGroups(root.analysis);
  let plan = warm;
  let search: Search | null = null;
  let spent = 0;
  let iterations = 0;
  let isRefuted = root.infeasible;

  const next = (): Search | null => {
    const group = groups.shift();
    if (group === undefined) return null;
    spent = 0;
    const all = constraintsOf(problem);
    const of = part(problem, within(problem, all, group), group);
    return createWhole(of, 1, null, firstRoot(compile(of)), limits);
  };

  const advance = (): void => {
    search ??= next();
    if (search === null) return;
    const { status, done, plan: found } = search.step(1);
    spent += 1;
    if (status === 'infeasible') isRefuted = true;
    if (done || found !== null || spent >= PATIENCE) search = null;
  };

  const isIdle = (): boolean => plan !== null || (search === null && groups.length === 0);

  const state = (): SearchState => {
    const refuted = isRefuted && plan === null;
    const sofar = plan === null ? 'unknown' : 'feasible';
    const status = refuted ? 'infeasible' : sofar;
    return { status, plan, bounds: root.bounds, iterations, done: refuted || isIdle() };
  };

  return {
    step(count) {
      for (let k = 0; k < count && !isRefuted && !isIdle(); k += 1) {
        iterations += 1;
        advance();
      }
      return state();
    },
    receive(known) {
      plan = known ?? plan;
    },
  };
}
