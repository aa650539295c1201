import { Injectable } from '@nestjs/common';
import { DomainError, fault } from '#kernel/error.ts';
import { loadYard } from '#persistence/yard/store.ts';
import { filmTimes, type FilmPlace } from '#planning/questions/film-times.ts';
import { startFor } from '#planning/questions/start-for.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import type { FilmQuery, FilmTimes, LatestStart, LatestStartQuery } from './film-times.contract.ts';

/** When a film gets where, by the climate of its space as it is known now, outside any plan. */
@Injectable()
export class FilmTimesService {
  constructor(private readonly database: Database) {}

  film(viewer: Viewer, materialId: string, { laidFrom, ...query }: FilmQuery): Promise<FilmTimes> {
    return this.database.inYard(viewer, async (tx) => {
      const yard = await yardWith(tx, viewer.yardId, materialId);
      const laidUntil = query.laidUntil ?? laidFrom;
      const place = placeOf(query);
      const { marks, windows, missing, assumed, horizon } = filmTimes(yard, {
        material: materialId,
        place,
        laidFrom,
        laidUntil,
      });
      return {
        materialId,
        spaceId: 'space' in place ? place.space : null,
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

/** One of the two, and not both. */
function placeOf({ space, celsius }: Pick<FilmQuery, 'space' | 'celsius'>): FilmPlace {
  if (space !== undefined && celsius === undefined) return { space };
  if (celsius !== undefined && space === undefined) return { celsius };
  const words = space === undefined ? 'is missing' : 'is given together with celsius';
  const found = fault('input.field', 'space', words, {
    value: space,
    cure: 'Name a space of the yard, or give `celsius` in its place.',
  });
  throw new DomainError(found.code, `space ${words}`, { cure: found.cure, faults: [found] });
}

async function yardWith(tx: Tx, yardId: string, materialId: string): Promise<Yard> {
  const yard = await loadYard(tx, yardId);
  if (yard.materials.some(({ id }) => id === materialId)) return yard;
  throw new DomainError('record.missing', `There is no material "${materialId}".`);
}
