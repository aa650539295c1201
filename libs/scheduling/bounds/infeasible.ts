import type { Infeasibility } from '../model/plan.ts';
import { compile, type Compiled } from '../search/crew/compiled.ts';
import { crewSearch } from '../search/crew/search.ts';
import { analyse, type Analysis } from './critical-path.ts';
import { positiveCircle } from './cycles.ts';
import { reasonOf } from './reason.ts';
import { restrict } from './restrict.ts';

/** Propagations spent on making an explanation smaller, and decodes on showing that it cannot be smaller. */
const PROPAGATIONS = 400;
const DECODES = 200;

const all = (n: number): Set<number> => new Set(Array.from({ length: n }, (_, i) => i));

/** Whether some activities with some lags are already impossible, by propagation. */
function fails(compiled: Compiled, only: ReadonlySet<number>, lags: ReadonlySet<number>): boolean {
  const part = compile(restrict(compiled.problem, only, lags).problem);
  const analysis = analyse(part);
  return (
    analysis.empty >= 0 ||
    analysis.deadChoice >= 0 ||
    positiveCircle(part, analysis.assumed) !== null
  );
}

/** Whether they have a plan: true only if one was found. */
function works(compiled: Compiled, only: ReadonlySet<number>, lags: ReadonlySet<number>): boolean {
  const part = compile(restrict(compiled.problem, only, lags).problem);
  const analysis = analyse(part);
  if (analysis.empty >= 0 || analysis.deadChoice >= 0) return false;
  const root = { compiled: part, windows: analysis.domains, bounds: [0, 0] as const };
  const search = crewSearch(part.problem, 1, null, root);
  for (let done = 0; done < DECODES; done += 10) if (search.step(10).plan !== null) return true;
  return false;
}

/** Leaves out whatever the failure does not need: halves, quarters and so on, down to single items. */
function shrink(
  items: readonly number[],
  stillFails: (kept: ReadonlySet<number>) => boolean,
  budget: { left: number },
): Set<number> {
  const kept = new Set(items);
  for (
    let size = Math.ceil(kept.size / 2);
    size >= 1 && budget.left > 0;
    size = size === 1 ? 0 : Math.ceil(size / 2)
  ) {
    const list = [...kept];
    for (let i = 0; i < list.length && budget.left > 0; i += size) {
      const block = list.slice(i, i + size);
      const rest = new Set([...kept].filter((x) => !block.includes(x)));
      budget.left -= 1;
      if (stillFails(rest)) for (const x of block) kept.delete(x);
    }
  }
  return kept;
}

/**
 * Why there is no plan, or null where propagation leaves one possible. Lags, then activities, are
 * left out as long as propagation still fails. The rest is called irreducible only if for each
 * of its lags, and each of its activities, a plan was found without it.
 */
export function explain(compiled: Compiled, analysis: Analysis): Infeasibility | null {
  const { problem } = compiled;
  const circle =
    analysis.empty < 0 && analysis.deadChoice < 0
      ? positiveCircle(compiled, analysis.assumed)
      : null;
  if (analysis.empty < 0 && analysis.deadChoice < 0 && !circle) return null;
  const budget = { left: PROPAGATIONS };
  let only: ReadonlySet<number> = all(problem.activities.length);
  let lags: ReadonlySet<number> = all(problem.lags.length);
  if (circle && fails(compiled, new Set(circle.activities), new Set(circle.lags))) {
    only = new Set(circle.activities);
    lags = new Set(circle.lags);
  }
  lags = shrink([...lags], (kept) => fails(compiled, only, kept), budget);
  const ends = new Set([...lags].flatMap((l) => [problem.lags[l].from, problem.lags[l].to]));
  if (ends.size > 0 && fails(compiled, ends, lags)) only = ends;
  only = shrink([...only], (kept) => fails(compiled, kept, lags), budget);
  lags = new Set(
    [...lags].filter((l) => only.has(problem.lags[l].from) && only.has(problem.lags[l].to)),
  );
  const without = (set: ReadonlySet<number>, x: number): Set<number> =>
    new Set([...set].filter((y) => y !== x));
  const irreducible =
    budget.left > 0 &&
    [...lags].every((l) => works(compiled, only, without(lags, l))) &&
    [...only].every((a) => only.size === 1 || works(compiled, without(only, a), lags));
  const activities = [...only].sort((a, b) => a - b);
  return {
    irreducible,
    activities,
    lags: [...lags].sort((a, b) => a - b),
    reason: reasonOf(problem, only, lags),
  };
}
