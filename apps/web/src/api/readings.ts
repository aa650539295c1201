import { api, asked, type Schema } from './client.ts';
import { everyPage, pageAfter } from './resource.ts';

/** What thermometers said, the oldest first: of a space, since an instant; undefined narrows nothing. */
export const readingsOf = (
  yardId: string,
  { space, from }: { readonly space: string | undefined; readonly from: string | undefined },
  signal: AbortSignal,
): Promise<Schema<'Reading'>[]> =>
  everyPage((after) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/readings', {
        params: {
          path: { yardId },
          query: {
            ...pageAfter(after),
            ...(space === undefined ? {} : { space }),
            ...(from === undefined ? {} : { from }),
          },
        },
        signal,
      }),
    ),
  );
