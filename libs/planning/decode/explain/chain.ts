import type { BindingChain } from '#scheduling/model/plan.ts';
import { rowOf } from '../../compile/trace/map.ts';
import { causeOf, taskName, type CauseSite, type Held } from './cause.ts';
import type { Moments } from '../reading/moments.ts';
import { waits } from './sentences.ts';
import type { ChainStep } from '../sheet.ts';

/** A hold-up of a plan as facts and a sentence. */
export function stepOf(
  site: CauseSite,
  held: Held & { readonly until: number },
  at: Moments,
): ChainStep {
  const { problem, map } = site;
  const { from, to, reason, until } = held;
  return {
    fromTask: from === null ? null : map.tasks[from],
    toTask: map.tasks[to],
    until: at.when(until),
    reason: reason.kind === 'lag' ? `lag:${problem.lags[reason.lag].kind}` : reason.kind,
    row: rowOf(map, problem, reason),
    text: waits(causeOf(site, held), {
      to: taskName(map, to),
      from: from === null ? null : taskName(map, from),
      until: at.words(until),
    }),
  };
}

/** Where a chain's first task has no cause: it says so, rather than begin in the middle. */
function looseStart({ map, placed }: CauseSite, chain: BindingChain, at: Moments): ChainStep[] {
  const first = chain.links.at(0)?.from ?? null;
  const placement = first === null ? undefined : placed[first];
  if (first === null || placement === undefined) return [];
  const wait = { to: taskName(map, first), from: null, until: at.words(placement.start) };
  return [
    {
      fromTask: null,
      toTask: map.tasks[first],
      until: at.when(placement.start),
      reason: 'loose',
      row: null,
      text: waits({ kind: 'loose' }, wait),
    },
  ];
}

/** A refit's binding chain, each link as facts and a sentence. */
export const chainSteps = (site: CauseSite, chain: BindingChain, at: Moments): ChainStep[] => [
  ...looseStart(site, chain, at),
  ...chain.links.map((link) => stepOf(site, link, at)),
];
