import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { EFFORT, runShortening } from '#host/run-shortening.ts';
import { loadPlan, type StoredPlan } from '#persistence/plan/store.ts';
import { rowOf } from '#planning/compile/trace/map.ts';
import { whyNotEarlier } from '#planning/decode/explain/why-not-earlier.ts';
import { check } from '#scheduling/checker/check.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import type {
  PlanCheck,
  WhatShortens,
  WhatShortensQuery,
  WhyNotEarlier,
  WhyNotEarlierQuery,
} from './explanations.contract.ts';
import { PlansService } from './plans.service.ts';

type Explained = StoredPlan & { readonly plan: Plan };

/**
 * Plans explained and checked from what was stored with them: the yard may have changed since,
 * and the plan is judged by what it was made for. Where an `id` may be null, null means the
 * published plan.
 */
@Injectable()
export class ExplanationsService {
  constructor(
    private readonly database: Database,
    private readonly plans: PlansService,
  ) {}

  async whyNotEarlier(
    viewer: Viewer,
    id: string | null,
    task: string,
    { at }: WhyNotEarlierQuery,
  ): Promise<WhyNotEarlier> {
    const { id: planId, plan, problem, map } = await this.#stored(viewer, id);
    const why = whyNotEarlier({ problem, plan, map, task, at });
    if (why === null) {
      throw new DomainError('record.missing', `The plan does not have the task "${task}".`);
    }
    return { planId, taskId: task, asked: why.asked, steps: [...why.steps] };
  }

  async whatShortens(
    viewer: Viewer,
    id: string | null,
    query: WhatShortensQuery,
  ): Promise<WhatShortens> {
    const { id: planId, plan, problem, map } = await this.#stored(viewer, id);
    const refit = query.refit ?? null;
    const order = { problem, plan, map, refit, seed: 1, iterations: EFFORT };
    const found = await runShortening(order);
    if (found === null) {
      throw new DomainError(
        'record.missing',
        `The plan does not have the refit "${String(refit)}": use one of ${map.refits.join(', ')}.`,
      );
    }
    const shortenings = found.map((one) => ({ ...one, refits: [...one.refits] }));
    return { planId, refitId: refit, shortenings };
  }

  async check(viewer: Viewer, id: string | null): Promise<PlanCheck> {
    const {
      id: planId,
      plan,
      problem,
      problemHash,
      problemVersion,
      map,
    } = await this.#stored(viewer, id);
    const violations = check(problem, plan).map(({ kind, message, activities, constraint }) => ({
      kind,
      message,
      taskIds: activities.map((activity) => map.tasks[activity]),
      row: constraint && rowOf(map, problem, constraint),
    }));
    return { planId, problemHash, problemVersion, violations };
  }

  /** Of a plan that the viewer may see. */
  async #stored(viewer: Viewer, id: string | null): Promise<Explained> {
    const { id: planId } = await this.plans.get(viewer, id);
    const stored = await this.database.inYard(viewer, (tx) => loadPlan(tx, viewer.yardId, planId));
    const { plan } = stored.result;
    if (plan === null) throw new Error(`The plan ${planId} is stored without its placements`);
    return { ...stored, plan };
  }
}
