import { api, asked, type Schema } from '../../api/client.ts';
import { everyPage } from '../../api/resource.ts';
import { type KeptResource, useKeptResource } from '../../offline/kept-resource.ts';
import { useBoatWord } from './boat-word.ts';

export type MyBoat = Schema<'MyBoat'>;
export type Change = Schema<'Change'>;
export type Snag = Schema<'Snag'>;

/** One boat with all that hangs on it. */
export interface Whole {
  readonly boat: MyBoat;
  /** What it is made of; a change is asked for about one of its parts. */
  readonly refits: Schema<'Boat'>['refits'];
  readonly changes: readonly Change[];
  readonly snags: readonly Snag[];
}

const most = 100;

async function read(yardId: string, signal: AbortSignal): Promise<readonly Whole[]> {
  const path = { yardId };
  const query = (after: string | undefined) => ({
    first: most,
    ...(after === undefined ? {} : { after }),
  });
  const [mine, boats, changes, snags] = await Promise.all([
    asked(api.GET('/api/v1/yards/{yardId}/my-boats', { params: { path }, signal })),
    everyPage((after) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/boats', { params: { path, query: query(after) }, signal }),
      ),
    ),
    everyPage((after) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/changes', {
          params: { path, query: query(after) },
          signal,
        }),
      ),
    ),
    everyPage((after) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/snags', { params: { path, query: query(after) }, signal }),
      ),
    ),
  ]);
  return mine.items.map((boat) => {
    const refits = boats.find(({ id }) => id === boat.id)?.refits ?? [];
    const isOf = ({ refitId }: { readonly refitId: string }): boolean =>
      refits.some(({ id }) => id === refitId);
    return {
      boat,
      refits,
      changes: changes.filter(isOf),
      // Whoever is builder besides reads all of them; here stands what an owner is shown.
      snags: snags.filter((snag) => snag.shownToOwner && isOf(snag)),
    };
  });
}

/** The own boats, kept for when the yard cannot be reached; read again when something changes. */
export function useMyBoats(yardId: string): KeptResource<readonly Whole[]> {
  const boats = useKeptResource(`my-boats ${yardId}`, (signal) => read(yardId, signal));
  useBoatWord(yardId, boats.again);
  return boats;
}

export const spans = { week: 7, month: 31, quarter: 92 } as const;
export type Span = keyof typeof spans;

const dayMs = 24 * 60 * 60_000;
/** The service refuses what is longer ago; its clock and this one may differ by so much. */
const slackMs = 10 * 60_000;

/** What has become of a boat; read again with `boat`. */
export function useHistory(
  yardId: string,
  boat: MyBoat,
  span: Span,
): KeptResource<Schema<'MyBoatHistory'>> {
  return useKeptResource(`my-boat ${yardId} ${boat.id} ${span}`, (signal) => {
    const since = new Date(Date.now() - spans[span] * dayMs + slackMs).toISOString();
    return asked(
      api.GET('/api/v1/yards/{yardId}/my-boats/{id}/history', {
        params: { path: { yardId, id: boat.id }, query: { since } },
        signal,
      }),
    );
  });
}
