import { Injectable } from '@nestjs/common';
import { weekStart as mondayOf } from '#calendar/local-date.ts';
import { DomainError } from '#kernel/error.ts';
import type { Candidate as CandidateRow } from '#persistence/generated/client.ts';
import { sinceOffered } from '#persistence/plan/moved-on.ts';
import { publish } from '#persistence/plan/publish.ts';
import { readSheet } from '#persistence/plan/sheet.ts';
import { lockWork } from '#persistence/workload/store.ts';
import { weekOf } from '#planning/decode/week.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import { YardStates } from '../../platform/database/yard-states.ts';
import { newestArgs, toNewestPage } from '../../platform/paging/newest.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import type {
  Plan,
  PlanChains,
  PlanSummary,
  PublishedPlan,
  Publishing,
  Week,
  WeekQuery,
  WholePlan,
} from './plans.contract.ts';
import {
  findPlan,
  listPublishings,
  showPublished,
  showSummary,
  summaryFields,
} from './plans.store.ts';

/** Plans as they were made. Where an `id` may be null, null means the published plan. */
@Injectable()
export class PlansService {
  constructor(
    private readonly database: Database,
    private readonly states: YardStates,
  ) {}

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

  /** What the yard was told to work to when, the newest first. */
  publishings(viewer: Viewer, page: PageRequest): Promise<Page<Publishing>> {
    return this.database.inYard(viewer, (tx) => listPublishings(tx, viewer.yardId, page));
  }

  /**
   * Makes it the plan that the yard works to, in place of the one before. A candidate has to be open,
   * and to know all that has happened.
   */
  publish(viewer: Viewer, planId: string): Promise<PublishedPlan> {
    const { yardId, memberId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      // What is judged now stays so until it is published.
      await lockWork(tx, yardId);
      const known = isUuid(planId)
        ? await tx.plan.findUnique({
            where: { yardId_id: { yardId, id: planId } },
            select: { published: true, candidate: true, sheet: true },
          })
        : null;
      if (!known) throw new DomainError('record.missing', `There is no plan "${planId}".`);
      if (known.published) return showPublished(known.published);
      const { candidate, sheet } = known;
      if (candidate !== null) {
        assertOpen(candidate);
        const state = await this.states.at(tx, yardId);
        const offered = { ...candidate, sheet: readSheet(sheet) };
        assertSeen(await sinceOffered(tx, offered, state, new Date()));
      }
      return showPublished(await publish(tx, { yardId, planId, memberId }));
    });
  }
}

function assertOpen({ state }: Pick<CandidateRow, 'state'>): void {
  if (state === 'open') return;
  throw new DomainError('candidate.state', `This candidate is ${state}.`, {
    cure: 'Publish the open candidate, or ask for one of now.',
  });
}

/** What the foreman was shown would not be what is published. */
function assertSeen(since: readonly string[]): void {
  if (since.length === 0) return;
  const rest = since.length > 1 ? ` (and ${String(since.length - 1)} more)` : '';
  throw new DomainError(
    'candidate.state',
    `This candidate does not know what has happened since it was made: ${since[0]}${rest}`,
    { cure: 'Look at the candidate that takes its place, or ask for one of now.' },
  );
}
