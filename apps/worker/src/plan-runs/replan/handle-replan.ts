import { setImmediate } from 'node:timers/promises';
import type { Job, PgBoss } from 'pg-boss';
import type { KeptThread } from '#host/threads/kept.ts';
import { differenceOf } from '#live/difference/difference.ts';
import { withoutPassedStarts } from '#live/disturbance/passed.ts';
import type { YardStates } from '#persistence/live/yard-states.ts';
import { packProblem } from '#persistence/plan/problem.ts';
import { toldBy } from '#persistence/plan/published.ts';
import type { PlanRunJob } from '#persistence/queue/plan-runs.ts';
import { isoOf } from '#persistence/rows.ts';
import { FIRST_PLAN_MS, isFirstStage } from '#persistence/run/replans.ts';
import { compile, type Compiled } from '#planning/compile/compile.ts';
import { prepareSheet } from '#planning/decode/make-sheet.ts';
import type { Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import type { Surroundings } from '../handle.ts';
import { outcomeOf, outcomeOfError } from '../outcome.ts';
import { search, type SearchSurroundings } from '../search.ts';
import { giveBack } from '../settle.ts';
import { type Ended, settleReplan } from './settle-replan.ts';
import { standingPlan } from './standing-plan.ts';
import { type KnownPlan, type TakenReplan, takeUpReplan } from './take-up-replan.ts';

export interface ReplanSurroundings extends Omit<Surroundings, 'kept'> {
  readonly states: YardStates;
  readonly boss: PgBoss;
  /** Leads first stages, which are over in a moment. */
  readonly standBy: KeptThread;
}

/**
 * Takes a run for what happened from the queue to its end, and its plan to the foreman, or where the
 * yard allows it to everybody. Throws where it should be tried again, as `handlePlanRun` does.
 */
export async function handleReplan(
  surroundings: ReplanSurroundings,
  job: Pick<Job<PlanRunJob>, 'data' | 'signal'>,
): Promise<void> {
  const { prisma, states, say, shutdown, rule } = surroundings;
  if (shutdown.aborted) throw new Error('This worker ends; the run goes back into the queue.');
  const taken = await takeUpReplan(prisma, states, job.data, rule);
  if (taken === null) return;
  const { run } = taken;
  const ended = await replan({ ...surroundings, lost: job.signal }, taken);
  if (ended === 'lost') {
    say(`run ${run.id}: another worker has it`);
  } else if (ended === 'shutdown') {
    await giveBack(prisma, run);
    throw new Error('This worker ends; the run goes back into the queue.');
  } else {
    const became = await settleReplan(surroundings, taken, ended);
    say(`run ${run.id} of ${run.yardId}: ${became ?? 'another worker has it'}`);
  }
}

async function replan(
  { standBy, ...surroundings }: SearchSurroundings & Pick<ReplanSurroundings, 'standBy'>,
  taken: TakenReplan,
): Promise<Ended | 'lost' | 'shutdown'> {
  const { run, state, base, open } = taken;
  if (base === null) {
    return { kind: 'quiet', why: 'No plan is published that could be planned anew.', open: null };
  }
  const enough = new AbortController();
  try {
    const { yard } = state;
    const now = run.notBefore === null ? yard.planFrom : isoOf(run.notBefore);
    const { workload, words } = withoutPassedStarts(yard, state.workload, now);
    const compiled = compile({ yard, workload, now, published: toldBy(base.placed) });
    const standing = (plan: KnownPlan | null): Plan | null =>
      plan === null ? null : standingPlan(compiled, plan);

    const isFirst = isFirstStage(run);
    const warmStart = isFirst ? null : standing(open);
    const searching = search(
      {
        ...surroundings,
        warmStart,
        enough: enough.signal,
        firstPlanMs: isFirst ? FIRST_PLAN_MS : null,
        ...(isFirst ? { kept: standBy } : {}),
      },
      run,
      compiled.problem,
    );
    // Awaited below, after what can be done meanwhile.
    searching.catch(() => undefined);
    const openStands = isFirst ? standing(open) : warmStart;
    const baseStands = standing(base);
    const quiet = isFirst ? quietEnd(taken, openStands, baseStands) : null;
    if (quiet !== null) enough.abort();
    else await beforehand(compiled, yard, workload);
    const { result, endedBy } = await searching;
    if (endedBy === 'lost' || endedBy === 'shutdown') return endedBy;
    if (endedBy === 'enough' && quiet !== null) return quiet;
    const outcome = outcomeOf({ yard, workload }, compiled, result, endedBy === 'stop');
    if (!('sheet' in outcome) || outcome.sheet === null) return { kind: 'outcome', outcome };
    const difference = differenceOf(base.sheet, outcome.sheet, { now });
    return { kind: 'planned', outcome, difference, baseStands, openStands, passed: words };
  } catch (error) {
    // Nobody waits for the search any more.
    enough.abort();
    return { kind: 'outcome', outcome: outcomeOfError(error, surroundings.say) };
  }
}

/** Between two turns of others, ms. */
const turnMs = 20;

/** What the end would wait for, while the threads search; others get their turn in between. */
async function beforehand(compiled: Compiled, yard: Yard, workload: Workload): Promise<void> {
  packProblem(compiled.problem);
  await setImmediate();
  const steps = prepareSheet({ compiled, yard, workload });
  let begun = performance.now();
  while (steps.next().done !== true) {
    if (performance.now() - begun < turnMs) continue;
    await setImmediate();
    begun = performance.now();
  }
}

/** Where nobody asked, and what people were told or the foreman is shown goes on as it is. */
function quietEnd(
  { run, open, newRecords }: TakenReplan,
  openStands: Plan | null,
  baseStands: Plan | null,
): Ended | null {
  // With other people, tools or work more may be possible than before.
  if (run.requestedById !== null || newRecords) return null;
  if (open !== null) {
    if (openStands === null) return null;
    return { kind: 'quiet', why: 'The candidate plan still stands.', open: open.planId };
  }
  if (baseStands === null) return null;
  return { kind: 'quiet', why: 'The published plan still stands.', open: null };
}
