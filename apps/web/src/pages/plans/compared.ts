import { api, asked, type Schema } from '../../api/client.ts';
import { problemOf } from '../../api/problem.ts';
import { type Resource, useResource } from '../../api/resource.ts';
import { useYard } from '../../frame/yard.tsx';
import { onPlans, readPublished } from './readings.ts';

/** A plan held against another, or a first one alone. */
export interface Compared {
  readonly plan: Schema<'Plan'>;
  /** The plan that people work to; null: none yet. */
  readonly publishedId: string | null;
  readonly candidate: Schema<'CandidateView'> | null;
  /** Null where there is nothing to hold it against. */
  readonly difference: Schema<'PlanDifference'> | null;
  readonly before: Schema<'Plan'> | null;
}

const readPlan = (yardId: string, id: string, signal: AbortSignal): Promise<Schema<'Plan'>> =>
  asked(api.GET('/api/v1/yards/{yardId}/plans/{id}', { params: { path: { yardId, id } }, signal }));

/** Most plans are no candidates. */
async function readCandidate(
  yardId: string,
  planId: string,
  signal: AbortSignal,
): Promise<Schema<'CandidateView'> | null> {
  try {
    return await asked(
      api.GET('/api/v1/yards/{yardId}/candidates/{planId}', {
        params: { path: { yardId, planId } },
        signal,
      }),
    );
  } catch (error) {
    if (problemOf(error).status === 404) return null;
    throw error;
  }
}

async function read(
  yardId: string,
  planId: string,
  fromId: string | null,
  signal: AbortSignal,
): Promise<Compared> {
  const [plan, published, candidate] = await Promise.all([
    readPlan(yardId, planId, signal),
    readPublished(yardId, signal),
    readCandidate(yardId, planId, signal),
  ]);
  const publishedId = published?.planId ?? null;
  const from = fromId ?? (publishedId === planId ? null : publishedId);
  if (from === null) return { plan, publishedId, candidate, difference: null, before: null };
  const [difference, before] = await Promise.all([
    asked(
      api.GET('/api/v1/yards/{yardId}/plans/{id}/difference', {
        params: { path: { yardId, id: planId }, query: { from } },
        signal,
      }),
    ),
    readPlan(yardId, from, signal),
  ]);
  return { plan, publishedId, candidate, difference, before };
}

export function useCompared(planId: string, fromId: string | null): Resource<Compared> {
  const { id: yardId } = useYard();
  return useResource(
    `compared ${planId} ${fromId ?? ''}`,
    (signal) => read(yardId, planId, fromId, signal),
    onPlans(yardId),
  );
}
