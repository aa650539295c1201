import { whoseOf } from '#access/judge.ts';
import type { Rule } from '#access/rule.ts';
import { DomainError } from '#kernel/error.ts';
import type { Transaction } from '#persistence/client.ts';
import type { PlanRunJob } from '#persistence/queue/plan-runs.ts';

/**
 * Why whoever asked for the run may not have it (any more): between the asking and the doing they
 * may have lost the role, or the yard. Null: they may, or nobody but the service asked.
 */
export async function refusalOfRequester(
  tx: Transaction,
  { yardId, runId }: PlanRunJob,
  { may }: Pick<Rule, 'may'>,
): Promise<DomainError | null> {
  if (typeof may === 'string') return null;
  const run = await tx.planRun.findUnique({
    where: { yardId_id: { yardId, id: runId } },
    select: { requestedBy: { select: { name: true, roles: true, accountId: true } } },
  });
  const asked = run?.requestedBy;
  if (!asked) return null;
  if (asked.accountId !== null && whoseOf(may, asked.roles) !== null) return null;
  const words = Object.keys(may).join(' or ');
  return new DomainError(
    'access.role',
    `${asked.name} asked for the plan and is no ${words} now.`,
    {
      cure: `Let a ${words} ask for it again.`,
    },
  );
}
