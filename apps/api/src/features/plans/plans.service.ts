import { Injectable } from '@nestjs/common';
import { weekStart as mondayOf } from '#calendar/local-date.ts';
import { DomainError } from '#kernel/error.ts';
import { weekOf } from '#planning/decode/week.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import { newestArgs, toNewestPage } from '../../platform/paging/newest.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import type {
  Plan,
  PlanChains,
  PlanSummary,
  PublishedPlan,
  Week,
  WeekQuery,
  WholePlan,
} from './plans.contract.ts';
import { findPlan, showPublished, showSummary, summaryFields } from './plans.store.ts';

/** Plans as they were made. Where an `id` may be null, null means the published plan. */
@Injectable()
export class PlansService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<PlanSummary>> {
    const { where, ...rest } = newestArgs(page);
    return this.database.inYard(viewer, async (tx) => {
      const rows = await tx.plan.findMany({
        where: { yardId: viewer.yardId, ...where },
        ...rest,
        select: summaryFields,
      });
      return toNewestPage(rows, page, showSummary);
    });
  }

  /** Without what it costs, for a builder: what others earn could be told from it. */
  async get(viewer: Viewer, id: string | null): Promise<Plan> {
    const plan = await this.#whole(viewer, id);
    if (viewer.roles.includes('foreman')) return plan;
    return { ...plan, money: null, ranks: plan.ranks.filter(({ rank }) => rank !== 'money') };
  }

  /** A builder works to the published plan; the others are the foreman's drafts. */
  async #whole(viewer: Viewer, id: string | null): Promise<WholePlan> {
    const plan = await this.database.inYard(viewer, (tx) => findPlan(tx, viewer.yardId, id));
    if (!viewer.roles.includes('foreman') && plan.publishedAt === null) {
      throw new DomainError('access.role', 'This plan is not published.');
    }
    return plan;
  }

  async week(viewer: Viewer, id: string | null, { by, from }: WeekQuery): Promise<Week> {
    const { id: planId, ...sheet } = await this.#whole(viewer, id);
    const weekStart = from ?? mondayOf(sheet.origin.local.slice(0, 10));
    const week = weekOf({ version: 3, ...sheet }, { weekStart, by });
    const groups = week.groups.map(({ id: groupId, name, rows }) => ({
      id: groupId,
      name,
      rows: rows.map((row) => ({ ...row, people: [...row.people] })),
    }));
    return { planId, weekStart: week.weekStart, weekEnd: week.weekEnd, by, groups };
  }

  async chains(viewer: Viewer, id: string | null): Promise<PlanChains> {
    const { id: planId, boats } = await this.get(viewer, id);
    return { planId, boats };
  }

  /** Makes it the plan that the yard works to, in place of the one before. */
  publish(viewer: Viewer, planId: string): Promise<PublishedPlan> {
    const { yardId, memberId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const known = isUuid(planId)
        ? await tx.plan.findUnique({
            where: { yardId_id: { yardId, id: planId } },
            select: { published: true },
          })
        : null;
      if (!known) throw new DomainError('record.missing', `There is no plan "${planId}".`);
      if (known.published) return showPublished(known.published);
      const now = { planId, publishedById: memberId, publishedAt: new Date() };
      const row = await tx.publishedPlan.upsert({
        where: { yardId },
        create: { yardId, ...now },
        update: now,
      });
      await appendEvent(tx, viewer, 'plan-published', 'plan', planId);
      return showPublished(row);
    });
  }
}
