import { runSolve } from '#host/run-solve.ts';
import { withoutPassedStarts } from '#live/disturbance/passed.ts';
import type { Edited } from '#live/edits/apply.ts';
import { priceOf } from '#live/price/price-of.ts';
import type { Price } from '#live/price/price.ts';
import { compile } from '#planning/compile/compile.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import { outcomeOf, outcomeOfError } from '../plan-runs/outcome.ts';
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

/** A plan, or the lines that say why there is none. */
type Found = { readonly sheet: PlanSheet } | { readonly why: readonly string[] };

async function plan(
  { yard, workload }: Edited,
  now: string | undefined,
  { published }: TakenProposal,
  { iterations, seconds, threads, memoryMB, signal, say }: Planner,
): Promise<Found> {
  try {
    const compiled = compile({ yard, workload, now, published: published ?? undefined });
    const limits = {
      iterations,
      seconds,
      threads,
      signal,
      ...(memoryMB === null ? {} : { memoryMB }),
    };
    const result = await runSolve(compiled.problem, { seed: 1, ...limits });
    const outcome = outcomeOf({ yard, workload }, compiled, result, false);
    if (outcome.status === 'finished') return outcome;
    if (outcome.status === 'infeasible') return { why: outcome.why.lines };
    return {
      why: [
        `No plan was found in ${String(seconds)} seconds of search; none was ruled out either.`,
      ],
    };
  } catch (error) {
    const outcome = outcomeOfError(error, say);
    if (outcome.status !== 'failed') throw error;
    const faults = outcome.why?.faults.map(({ message, cure }) => `${message}. ${cure}`) ?? [];
    return { why: faults.length > 0 ? faults : [outcome.error] };
  }
}

/**
 * What the edits cost: two plans from the same moment, made in the same way, with the published plan as
 * what people have been told. Throws `NoPrice` with the reasons where one of the two cannot be made.
 */
export async function planBoth(taken: TakenProposal, at: Date, planner: Planner): Promise<Price> {
  const now = nowOf(taken.without, at);
  const [without, changed] = [taken.without, taken.changed].map(({ yard, workload }) => ({
    yard,
    workload: withoutPassedStarts(yard, workload, now ?? yard.planFrom).workload,
  }));
  const before = await plan(without, now, taken, planner);
  if ('why' in before)
    throw new NoPrice([
      'The yard has no plan as it is, so nobody can say what this would change.',
      ...before.why,
    ]);
  const after = await plan(changed, now, taken, planner);
  if ('why' in after) throw new NoPrice(['With this the yard has no plan.', ...after.why]);
  return priceOf(
    changed.yard,
    { workload: without.workload, sheet: before.sheet },
    { workload: changed.workload, sheet: after.sheet },
  );
}
