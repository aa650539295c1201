import type { Job } from 'pg-boss';
import type { Rule } from '#access/rule.ts';
import { packProblem } from '#persistence/plan/problem.ts';
import type { PlanRunJob } from '#persistence/queue/plan-runs.ts';
import { isoOf } from '#persistence/rows.ts';
import { compile } from '#planning/compile/compile.ts';
import { type Outcome, outcomeOf, outcomeOfError } from './outcome.ts';
import { search, type SearchSurroundings } from './search.ts';
import { giveBack, settle } from './settle.ts';
import { takeUp, type TakenRun } from './take-up.ts';

export interface Surroundings extends Omit<SearchSurroundings, 'lost'> {
  /** Who may have a plan made, by the table of access. */
  readonly rule: Pick<Rule, 'may'>;
}

/**
 * Takes a run from the queue to its end. Throws where the run should be tried again, here or by
 * another worker; a yard that cannot be planned is an end, not a failure of the job.
 */
export async function handlePlanRun(
  surroundings: Surroundings,
  job: Pick<Job<PlanRunJob>, 'data' | 'signal'>,
): Promise<void> {
  const { prisma, say, shutdown, rule } = surroundings;
  if (shutdown.aborted) throw new Error('This worker ends; the run goes back into the queue.');
  const taken = await takeUp(prisma, job.data, rule);
  if (taken === null) return;
  const { run } = taken;
  const ended = await plan({ ...surroundings, lost: job.signal }, taken);
  if (ended === 'lost') {
    say(`run ${run.id}: another worker has it`);
  } else if (ended === 'shutdown') {
    await giveBack(prisma, run);
    throw new Error('This worker ends; the run goes back into the queue.');
  } else if (await settle(prisma, run, ended)) {
    say(`run ${run.id} of ${run.yardId}: ${ended.status}`);
  } else {
    say(`run ${run.id}: another worker has it`);
  }
}

async function plan(
  surroundings: SearchSurroundings,
  taken: TakenRun,
): Promise<Outcome | 'lost' | 'shutdown'> {
  const { run, yard, workload, published } = taken;
  try {
    const now = run.notBefore === null ? undefined : isoOf(run.notBefore);
    const compiled = compile({ yard, workload, now, published: published ?? undefined });
    const searching = search(surroundings, run, compiled.problem);
    // While the thread searches, so that the end need not wait for it.
    packProblem(compiled.problem);
    const { result, endedBy } = await searching;
    if (endedBy === 'lost' || endedBy === 'shutdown') return endedBy;
    return outcomeOf(taken, compiled, result, endedBy === 'stop');
  } catch (error) {
    return outcomeOfError(error, surroundings.say);
  }
}
