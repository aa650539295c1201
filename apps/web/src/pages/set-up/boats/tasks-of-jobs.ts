import { api, asked, type Schema } from '../../../api/client.ts';
import { everyPage, pageAfter, useResource } from '../../../api/resource.ts';
import { useYard } from '../../../frame/yard.tsx';

export type Task = Schema<'Task'>;
/** Undefined: not read yet. */
export type TasksOfJobs = ReadonlyMap<string, readonly Task[]> | undefined;

/** The tasks that jobs have made, by job, live. */
export function useTasksOfJobs(): TasksOfJobs {
  const { id: yardId } = useYard();
  const { data } = useResource(
    `${yardId} tasks`,
    (signal) =>
      everyPage((after) =>
        asked(
          api.GET('/api/v1/yards/{yardId}/tasks', {
            params: { path: { yardId }, query: pageAfter(after) },
            signal,
          }),
        ),
      ),
    { yardId, on: ({ subject }) => ['task', 'job', 'part', 'refit', 'boat'].includes(subject) },
  );
  return data === undefined ? undefined : Map.groupBy(data, ({ jobId }) => jobId);
}
