import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { loadYard } from '#persistence/yard/store.ts';
import { filmTimes } from '#planning/questions/film-times.ts';
import { startFor } from '#planning/questions/start-for.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import type { FilmQuery, FilmTimes, LatestStart, LatestStartQuery } from './film-times.contract.ts';

/** When a film gets where, by the climate of its space as it is known now, outside any plan. */
@Injectable()
export class FilmTimesService {
  constructor(private readonly database: Database) {}

  film(
    viewer: Viewer,
    materialId: string,
    { space, laidFrom, ...query }: FilmQuery,
  ): Promise<FilmTimes> {
    return this.database.inYard(viewer, async (tx) => {
      const yard = await yardWith(tx, viewer.yardId, materialId);
      const laidUntil = query.laidUntil ?? laidFrom;
      const { marks, windows, missing, assumed, horizon } = filmTimes(yard, {
        material: materialId,
        space,
        laidFrom,
        laidUntil,
      });
      return {
        materialId,
        spaceId: space,
        marks: [...marks],
        windows: [...windows],
        missing: [...missing],
        assumed,
        horizon,
      };
    });
  }

  latestStart(viewer: Viewer, materialId: string, query: LatestStartQuery): Promise<LatestStart> {
    return this.database.inYard(viewer, async (tx) => {
      const yard = await yardWith(tx, viewer.yardId, materialId);
      const { space, milestone } = query;
      return {
        materialId,
        spaceId: space,
        milestone,
        ...startFor(yard, { material: materialId, ...query }),
      };
    });
  }
}

async function yardWith(tx: Tx, yardId: string, materialId: string): Promise<Yard> {
  const yard = await loadYard(tx, yardId);
  if (yard.materials.some(({ id }) => id === materialId)) return yard;
  throw new DomainError('record.missing', `There is no material "${materialId}".`);
}
