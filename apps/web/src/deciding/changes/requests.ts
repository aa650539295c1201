import { api, asked, type once, type Schema } from '../../api/client.ts';

type Change = Schema<'Change'>;

const params = (yardId: string, id: string) => ({ path: { yardId, id } });

export const accept = (
  yardId: string,
  id: string,
  proposalId: string,
  note: string,
): Promise<Change> =>
  asked(
    api.POST('/api/v1/yards/{yardId}/changes/{id}/accept', {
      params: params(yardId, id),
      body: { proposalId, note },
    }),
  );

export const refuse = (
  yardId: string,
  id: string,
  how: 'decline' | 'withdraw',
  note: string,
): Promise<Change> =>
  asked(
    how === 'decline'
      ? api.POST('/api/v1/yards/{yardId}/changes/{id}/decline', {
          params: params(yardId, id),
          body: { note },
        })
      : api.POST('/api/v1/yards/{yardId}/changes/{id}/withdraw', {
          params: params(yardId, id),
          body: { note },
        }),
  );

export const reprice = (yardId: string, id: string): Promise<Change> =>
  asked(api.POST('/api/v1/yards/{yardId}/changes/{id}/reprice', { params: params(yardId, id) }));

export const ask = (
  yardId: string,
  change: Schema<'ChangeOfInput'>,
  words: string,
  headers: ReturnType<typeof once>,
): Promise<Change> =>
  asked(
    api.POST('/api/v1/yards/{yardId}/changes', {
      params: { path: { yardId } },
      headers,
      body: { change, words },
    }),
  );
