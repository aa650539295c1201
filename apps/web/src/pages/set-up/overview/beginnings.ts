import { api, asked } from '../../../api/client.ts';
import { problemOf } from '../../../api/problem.ts';
import { lists } from '../lists/lists.ts';
import type { Beginnings } from './missing.ts';

/** What the overview is made of. */
export async function readBeginnings(yardId: string, signal: AbortSignal): Promise<Beginnings> {
  const published = asked(
    api.GET('/api/v1/yards/{yardId}/published-plan', { params: { path: { yardId } }, signal }),
  ).then(
    () => true,
    (error: unknown) => {
      if (problemOf(error).status === 404) return false;
      throw error;
    },
  );
  const [people, spaces, procedures, skills, boats, isPublished] = await Promise.all([
    lists.people(yardId, signal),
    lists.spaces(yardId, signal),
    lists.procedures(yardId, signal),
    lists.skills(yardId, signal),
    lists.boats(yardId, signal),
    published,
  ]);
  return { people, spaces, procedures, skills, boats, isPublished };
}

/** The day after which the outdoor table says nothing; null: there is no table. */
export async function readOutdoorEnd(yardId: string, signal: AbortSignal): Promise<number | null> {
  try {
    const { from, celsius } = await asked(
      api.GET('/api/v1/yards/{yardId}/outdoor', { params: { path: { yardId } }, signal }),
    );
    return Date.parse(from) + celsius.length * 3_600_000;
  } catch (error) {
    if (problemOf(error).status === 404) return null;
    throw error;
  }
}
