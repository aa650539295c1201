import { runSolve } from '#host/run-solve.ts';
import { withoutPassedStarts } from '#live/disturbance/passed.ts';
import type { Edited } from '#live/edits/apply.ts';
import { priceOf } from '#live/price/price-of.ts';
import type { Price } from '#live/price/price.ts';
import { compile, type Compiled } from '#planning/compile/compile.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import { incumbent } from '#scheduling/search/incumbent.ts';
import { outcomeOf, outcomeOfError } from '../plan-runs/outcome.ts';
import { carried } from './carry.ts';
import { NoPrice, type TakenProposal } from './take-up.ts';

export interface Planner {
  readonly say: (line: string) => void;
  /** Of each search: as much effort for the one as for the other, as long as the time suffices for it. */
  readonly iterations: number;
  readonly seconds: number;
  readonly threads: number;
  readonly memoryMB: number | null;
  /** Ends the searches; their outcome is then of no use. */
  readonly signal: AbortSignal;
}

const minuteMs = 60_000;
const dayMs = 24 * 60 * minuteMs;

/** From when on something can be begun; undefined: the yard is planned from its beginning. */
function nowOf({ yard }: Edited, at: Date): string | undefined {
  const begin = Date.parse(yard.planFrom);
  const now = Math.ceil(at.getTime() / minuteMs) * minuteMs;
  const isWithin = now > begin && now < begin + yard.horizonDays * dayMs;
  return isWithin ? new Date(now).toISOString() : undefined;
}

/** The yard without the change and with it, and what people have been told. */
type Asked = Pick<TakenProposal, 'without' | 'changed' | 'published'>;

/** One of the two yards, ready to be planned. */
interface Side extends Edited {
  readonly compiled: Compiled;
}

function sideOf(
  { yard, workload: whole }: Edited,
  now: string | undefined,
  published: Asked['published'],
): Side {
  const { workload } = withoutPassedStarts(yard, whole, now ?? yard.planFrom);
  const compiled = compile({ yard, workload, now, published: published ?? undefined });
  return { yard, workload, compiled };
}

/** The yard with the plan that was found for it. */
interface Made extends Side {
  readonly plan: Plan;
  readonly sheet: PlanSheet;
}

type Found = Made | { readonly why: readonly string[] };

/** Searched for from what was found for the other yard, or from nothing. */
async function plan(
  side: Side,
  from: Made | null,
  { iterations, seconds, threads, memoryMB, signal }: Planner,
): Promise<Found> {
  const { compiled } = side;
  const result = await runSolve(compiled.problem, {
    seed: 1,
    iterations,
    seconds,
    threads,
    signal,
    warmStart: from && carried(from.plan, from.compiled, compiled),
    ...(memoryMB === null ? {} : { memoryMB }),
  });
  const outcome = outcomeOf(side, compiled, result, false);
  if (outcome.status === 'finished') return { ...side, plan: outcome.plan, sheet: outcome.sheet };
  if (outcome.status === 'infeasible') return { why: outcome.why.lines };
  return {
    why: [`No plan was found in ${String(seconds)} seconds of search; none was ruled out either.`],
  };
}

/** The better by the engine's own ranks; the one that was known before where they are alike. */
function better(known: Made, found: Found): Made {
  if ('why' in found) return known;
  const best = incumbent(known.compiled.problem.tolerances);
  best.offer(known.plan.values, () => known.plan);
  best.offer(found.plan.values, () => found.plan);
  return best.plan === found.plan ? found : known;
}

/** A search that could only better what is known: one that fails takes nothing of that away. */
async function polished(known: Made, from: Made, planner: Planner): Promise<Made> {
  try {
    return better(known, await plan(known, from, planner));
  } catch (error) {
    if (planner.signal.aborted) throw error;
    const fault = error instanceof Error ? (error.stack ?? error.message) : String(error);
    planner.say(`a search to better a price failed, so it stays as it is: ${fault}`);
    return known;
  }
}

/** A plan of the one yard; throws `NoPrice` with the heading and the reasons where there is none. */
async function made(heading: string, { say }: Planner, work: () => Promise<Found>): Promise<Made> {
  const found = await work().catch((error: unknown): Found => {
    const outcome = outcomeOfError(error, say);
    if (outcome.status !== 'failed') throw error;
    const faults = outcome.why?.faults.map(({ message, cure }) => `${message}. ${cure}`) ?? [];
    return { why: faults.length > 0 ? faults : [outcome.error] };
  });
  if ('why' in found) throw new NoPrice([heading, ...found.why]);
  return found;
}

const asIs = 'The yard has no plan as it is, so nobody can say what this would change.';
const withIt = 'With this the yard has no plan.';

/**
 * What the edits cost: two plans from the same moment, with the published plan as what people have been
 * told. They are to differ by what the edits make of them and not by luck: each search starts from what
 * the other found, so that whatever is found in one yard and holds in the other is in both.
 * Throws `NoPrice` with the reasons where one of the two cannot be made.
 */
export async function planBoth(asked: Asked, at: Date, planner: Planner): Promise<Price> {
  const now = nowOf(asked.without, at);
  const first = await made(asIs, planner, async () =>
    plan(sideOf(asked.without, now, asked.published), null, planner),
  );
  const next = await made(withIt, planner, async () =>
    plan(sideOf(asked.changed, now, asked.published), first, planner),
  );
  const before = await polished(first, next, planner);
  // Otherwise nothing was found that the other had not started from.
  const after = before === first ? next : await polished(next, before, planner);
  return priceOf(after.yard, before, after);
}
