import { inYard, service } from '#persistence/client.ts';
import { savePlan } from '#persistence/plan/store.ts';
import { loadWorkload } from '#persistence/workload/store.ts';
import { loadYard } from '#persistence/yard/store.ts';
import { compile } from '#planning/compile/compile.ts';
import { makeSheet } from '#planning/decode/make-sheet.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import { solve } from '#scheduling/solve.ts';
import type { TestDatabase } from './database.ts';

/** Plans the yard as it stands, from its own first moment, and publishes that: no queue, no worker. */
export function publishPlan(
  database: Pick<TestDatabase, 'service'>,
  yardId: string,
): Promise<PlanSheet> {
  return inYard(
    database.service,
    service(yardId),
    async (tx) => {
      const yard = await loadYard(tx, yardId);
      const workload = await loadWorkload(tx, yardId);
      const compiled = compile({ yard, workload });
      const result = solve(compiled.problem, { seed: 1, iterations: 64 });
      const sheet = makeSheet({ compiled, result, yard, workload });
      const at = new Date();
      const run = await tx.planRun.create({
        data: { yardId, status: 'finished', startedAt: at, finishedAt: at },
      });
      const planId = await savePlan(tx, {
        yardId,
        runId: run.id,
        problem: compiled.problem,
        map: compiled.map,
        result,
        sheet,
        engineVersion: 'test',
      });
      await tx.publishedPlan.upsert({
        where: { yardId },
        create: { yardId, planId },
        update: { planId },
      });
      await tx.publishing.create({ data: { yardId, planId } });
      return sheet;
    },
    { timeout: 60_000 },
  );
}
