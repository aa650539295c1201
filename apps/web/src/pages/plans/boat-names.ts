import { api, asked, type Schema } from '../../api/client.ts';
import { everyPage } from '../../api/resource.ts';
import { plans as texts } from '../../texts/plans.ts';

/** What refits are called, by id: a list of plans names them by id only. */
export type BoatNames = ReadonlyMap<string, string>;

export const refitNames = (boats: readonly Schema<'Boat'>[]): BoatNames =>
  new Map(
    boats.flatMap(({ name, refits }) =>
      refits.map((refit): [string, string] => [refit.id, texts.boatOf(name, refit.name)]),
    ),
  );

export const readBoats = (yardId: string, signal: AbortSignal): Promise<Schema<'Boat'>[]> =>
  everyPage((after) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/boats', {
        params: {
          path: { yardId },
          query: { first: 200, ...(after === undefined ? {} : { after }) },
        },
        signal,
      }),
    ),
  );
