import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { loadYard } from '#persistence/yard/store.ts';
import { climateHours } from '#planning/questions/climate-hours.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import type { ClimateQuery, SpaceClimate } from './climate.contract.ts';

/** Spaces hour by hour, as readings and forecast have them now. */
@Injectable()
export class ClimateService {
  constructor(private readonly database: Database) {}

  hours(viewer: Viewer, spaceId: string, query: ClimateQuery): Promise<SpaceClimate> {
    return this.database.inYard(viewer, async (tx) => {
      const yard = await loadYard(tx, viewer.yardId);
      if (!yard.spaces.some(({ id }) => id === spaceId))
        throw new DomainError('record.missing', `There is no space "${spaceId}".`);
      const material = query.material ?? null;
      const { from, until } = query;
      const hours = climateHours(yard, { space: spaceId, from, until, material });
      return {
        spaceId,
        materialId: material,
        hours: hours.map((hour) => ({
          ...hour,
          reasons: [...hour.reasons],
          mouldingShop: [...hour.mouldingShop],
        })),
      };
    });
  }
}
