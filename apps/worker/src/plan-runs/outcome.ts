import { randomUUID } from 'node:crypto';
import type { RunResult } from '#host/run-solve.ts';
import { DomainError } from '#kernel/error.ts';
import { asJson } from '#persistence/rows.ts';
import { type WhyNot, whyNotSchema } from '#persistence/run/why.ts';
import type { Compiled } from '#planning/compile/compile.ts';
import { hopelessLinks } from '#planning/decode/explain/hopeless.ts';
import { whyNot } from '#planning/decode/explain/infeasible.ts';
import { makeSheet } from '#planning/decode/make-sheet.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import { check } from '#scheduling/checker/check.ts';
import type { TakenRun } from './take-up.ts';

/** A run that has a plan to show. */
export interface Planned {
  readonly status: 'finished' | 'stopped';
  readonly compiled: Compiled;
  readonly result: RunResult;
  readonly plan: Plan;
  readonly sheet: PlanSheet;
}

/** How a run ends. */
export type Outcome =
  | Planned
  /** Stopped before there was a plan. */
  | { readonly status: 'stopped'; readonly result: RunResult; readonly sheet: null }
  | {
      readonly status: 'infeasible';
      readonly why: WhyNot;
      /** Links whose windows nobody can keep: giving up any one of them may let there be a plan. */
      readonly hopeless: readonly string[];
    }
  | { readonly status: 'failed'; readonly error: string; readonly why: WhyNot | null };

export function outcomeOf(
  { yard, workload }: Pick<TakenRun, 'yard' | 'workload'>,
  compiled: Compiled,
  result: RunResult,
  stopped: boolean,
): Outcome {
  const { plan } = result;
  if (plan !== null) {
    const violations = check(compiled.problem, plan).map(({ message }) => message);
    if (violations.length > 0) {
      const error = 'The checker rejects the plan that was found, so it is not kept.';
      return { status: 'failed', error, why: { lines: violations.slice(0, 50), faults: [] } };
    }
    const sheet = makeSheet({ compiled, result, yard, workload });
    return { status: stopped ? 'stopped' : 'finished', compiled, result, plan, sheet };
  }
  if (result.status === 'infeasible') {
    const lines = result.infeasibility
      ? whyNot(compiled, result.infeasibility)
      : ['No plan exists: proved, without a shorter explanation.'];
    const hopeless = result.infeasibility ? hopelessLinks(compiled, result.infeasibility) : [];
    return { status: 'infeasible', why: { lines, faults: [] }, hopeless };
  }
  if (stopped) return { status: 'stopped', result, sheet: null };
  const error = 'No plan was found in the time; none was ruled out either. Give it longer.';
  return { status: 'failed', error, why: null };
}

/** What was thrown while planning: faults of the yard, or one of this program, told by an id. */
export function outcomeOfError(thrown: unknown, say: (line: string) => void): Outcome {
  if (thrown instanceof DomainError) {
    const { message, cure, code, faults } = thrown;
    const all = faults.length > 0 ? faults : [{ code, path: '', message, cure }];
    const why = whyNotSchema.parse(asJson({ lines: [], faults: all }));
    return { status: 'failed', error: message, why };
  }
  const id = randomUUID();
  say(`${id} ${thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown)}`);
  const error = `Something went wrong in the planner. The fault is logged as ${id}.`;
  return { status: 'failed', error, why: null };
}
