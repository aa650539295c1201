import { api, asked, type Schema } from '../../api/client.ts';
import { type Live, type Resource, useResource } from '../../api/resource.ts';
import { useYard } from '../../frame/yard.tsx';
import { type BoatNames, readBoats, refitNames } from './boat-names.ts';

export interface Published {
  readonly planId: string;
  readonly at: string;
  readonly boats: readonly Schema<'PlanBoat'>[];
}

/** What the list of plans is made of. */
export interface PlansRead {
  readonly plans: readonly Schema<'PlanSummary'>[];
  /** The plan that the yard works to. */
  readonly published: Published | null;
  readonly candidates: readonly Schema<'Candidate'>[];
  /** Runs that have not ended. */
  readonly runs: readonly Schema<'PlanRun'>[];
  readonly boats: BoatNames;
  readonly nextCursor: string | null;
}

/** Of runs, candidates and publishing. */
export const onPlans = (yardId: string): Live => ({
  yardId,
  on: ({ kind }) => /^(plan|candidate)/.test(kind),
});

const readPlans = (yardId: string, after: string | undefined, signal?: AbortSignal) =>
  asked(
    api.GET('/api/v1/yards/{yardId}/plans', {
      params: { path: { yardId }, query: { first: 20, ...(after === undefined ? {} : { after }) } },
      ...(signal === undefined ? {} : { signal }),
    }),
  );

export const olderPlans = (yardId: string, after: string) => readPlans(yardId, after);

/** Null where nothing is published yet. */
export async function readPublished(
  yardId: string,
  signal: AbortSignal,
): Promise<Published | null> {
  const { items } = await asked(
    api.GET('/api/v1/yards/{yardId}/publishings', {
      params: { path: { yardId }, query: { first: 1 } },
      signal,
    }),
  );
  if (items.length === 0) return null;
  const [{ planId, publishedAt }] = items;
  const { boats } = await asked(
    api.GET('/api/v1/yards/{yardId}/plans/{id}/chains', {
      params: { path: { yardId, id: planId } },
      signal,
    }),
  );
  return { planId, at: publishedAt, boats };
}

async function read(yardId: string, signal: AbortSignal): Promise<PlansRead> {
  const path = { yardId };
  const [plans, candidates, runs, boats] = await Promise.all([
    readPlans(yardId, undefined, signal),
    asked(
      api.GET('/api/v1/yards/{yardId}/candidates', {
        params: { path, query: { first: 100 } },
        signal,
      }),
    ),
    asked(
      api.GET('/api/v1/yards/{yardId}/plan-runs', {
        params: { path, query: { first: 20 } },
        signal,
      }),
    ),
    readBoats(yardId, signal),
  ]);
  return {
    plans: plans.items,
    published: await readPublished(yardId, signal),
    candidates: candidates.items,
    runs: runs.items.filter(({ status }) => status === 'queued' || status === 'running'),
    boats: refitNames(boats),
    nextCursor: plans.nextCursor,
  };
}

export function usePlans(): Resource<PlansRead> {
  const { id: yardId } = useYard();
  return useResource(`plans ${yardId}`, (signal) => read(yardId, signal), onPlans(yardId));
}
