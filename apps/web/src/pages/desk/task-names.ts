import { api, asked } from '../../api/client.ts';
import { problemOf } from '../../api/problem.ts';
import { useResource } from '../../api/resource.ts';
import { desk as texts } from '../../texts/desk.ts';

export type TaskNames = Readonly<Record<string, string>>;

/** What tasks are called, by their ids; one that is gone, or not read yet, is called by its id. */
export function useTaskNames(yardId: string, ids: readonly string[]): TaskNames {
  const wanted = [...new Set(ids)].sort();
  const key = wanted.length === 0 ? null : `task names ${yardId} ${JSON.stringify(wanted)}`;
  const { data } = useResource(key, async (signal) => {
    const found = await Promise.all(
      wanted.map((id) =>
        asked(
          api.GET('/api/v1/yards/{yardId}/tasks/{id}', {
            params: { path: { yardId, id } },
            signal,
          }),
        ).catch((error: unknown) => {
          if (problemOf(error).status === 404) return null;
          throw error;
        }),
      ),
    );
    return Object.fromEntries(
      found.flatMap((task) =>
        task === null ? [] : [[task.id, texts.work(task.name, task.part, task.boat)]],
      ),
    );
  });
  return data ?? {};
}
