import { Injectable } from '@nestjs/common';
import { weekStart } from '#calendar/local-date.ts';
import { instantOf, toLocal } from '#calendar/local-time.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { YardStates } from '../../platform/database/yard-states.ts';
import type { PictureQuery, PlanPicture } from './picture.contract.ts';
import { type Drawn, pictureOf } from './picture.mapper.ts';
import { findPlan } from './plans.store.ts';

/** Plans as they are drawn. Where an `id` may be null, null means the published plan. */
@Injectable()
export class PictureService {
  constructor(
    private readonly database: Database,
    private readonly states: YardStates,
  ) {}

  async picture(
    viewer: Viewer,
    id: string | null,
    { from, days }: PictureQuery,
  ): Promise<PlanPicture> {
    const at = new Date();
    const { state, planned } = await this.database.inYard(viewer, async (tx) => {
      const now = await this.states.at(tx, viewer.yardId);
      const published = await tx.publishedPlan.findUnique({ where: { yardId: viewer.yardId } });
      const wanted = id ?? published?.planId;
      // The yard has its published plan at hand.
      if (now.sheet !== null && wanted === now.planId && wanted === published?.planId) {
        return { state: now, planned: { ...now.sheet, planId: wanted, isPublished: true } };
      }
      const { id: planId, publishedAt, ...plan } = await findPlan(tx, viewer.yardId, id);
      return { state: now, planned: { ...plan, planId, isPublished: publishedAt !== null } };
    });
    const { planId, isPublished } = planned;
    const first = from ?? mondayOf(planned, at, state.yard.timeZone);
    const workedAt = isPublished ? at.getTime() : null;
    const picture = pictureOf({ sheet: planned, state, from: first, days, workedAt });
    return { planId, isPublished, at: at.toISOString(), ...picture };
  }
}

/** Of the week of now, or of the plan's first where now is before it, its last where it is over. */
function mondayOf({ origin, horizon }: Drawn['sheet'], at: Date, zone: string): string {
  const now = Math.floor(at.getTime() / 60_000);
  const within = Math.min(Math.max(now, instantOf(origin.at)), instantOf(horizon.at));
  return weekStart(toLocal(within, zone).date);
}
