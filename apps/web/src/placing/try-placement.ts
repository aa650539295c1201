import { api, asked, type Schema } from '../api/client.ts';

/** Where a task would be put: an ISO moment, ids of its whole crew; as planned where left out. */
export interface Wish {
  readonly start?: string | undefined;
  readonly crew?: readonly string[] | undefined;
}

export type Tried = Schema<'TriedPlacement'>;

/** What the plan would be with this one task there, all others left where they are. Saves nothing. */
export function tryPlacement(
  yardId: string,
  planId: string,
  taskId: string,
  { start, crew }: Wish,
  signal?: AbortSignal,
): Promise<Tried> {
  return asked(
    api.POST('/api/v1/yards/{yardId}/plans/{id}/tasks/{taskId}/placements', {
      params: { path: { yardId, id: planId, taskId } },
      body: {
        ...(start === undefined ? {} : { start }),
        ...(crew === undefined ? {} : { crew: [...crew] }),
      },
      ...(signal === undefined ? {} : { signal }),
    }),
  );
}
