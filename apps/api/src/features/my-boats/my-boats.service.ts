import { Injectable } from '@nestjs/common';
import { weekStart } from '#calendar/local-date.ts';
import { toLocal } from '#calendar/local-time.ts';
import { DomainError } from '#kernel/error.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import type { MyBoat, MyBoats } from './my-boats.contract.ts';
import { ownBoats, takenInWeek } from './my-boats.store.ts';
import { ownerSpacesOf } from './owner-spaces.ts';
import { ownerRefitOf } from './owner-words.ts';

/**
 * What an owner sees: the own boats, without anything of other boats, and without people unless
 * the yard shows them.
 */
@Injectable()
export class MyBoatsService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer): Promise<MyBoats> {
    const now = Math.floor(Date.now() / 60_000);
    return this.database.inYard(viewer, async (tx) => {
      const own = await ownBoats(tx, viewer.yardId, viewer.memberId);
      const monday = weekStart(toLocal(now, own.timeZone).date);
      const taken = await takenInWeek(tx, monday, own.timeZone);
      return {
        items: own.boats.map(({ id, name, refits }) => ({
          id,
          name,
          weekStart: monday,
          refits: refits.map((refit) => ownerRefitOf(refit, own, monday)),
          spaces: ownerSpacesOf(id, own, taken),
        })),
      };
    });
  }

  async get(viewer: Viewer, id: string): Promise<MyBoat> {
    const { items } = await this.list(viewer);
    const boat = items.find((own) => own.id === id);
    if (!boat) throw new DomainError('record.missing', `You have no boat "${id}" here.`);
    return boat;
  }
}
