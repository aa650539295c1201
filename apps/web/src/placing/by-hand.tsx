import { useMemo } from 'preact/hooks';
import { api, asked, type Schema } from '../api/client.ts';
import { everyPage, type Resource, useResource } from '../api/resource.ts';
import { useYard } from '../frame/yard.tsx';
import { Busy, Panel, ProblemNotice } from '../looks/looks.tsx';
import { placing as texts } from '../texts/placing.ts';
import { handsFor } from './hands.ts';
import { SetByHand } from './set-by-hand.tsx';
import type { Wish } from './try-placement.ts';

type Planned = Schema<'TaskOfPlan'>;

/** The foreman's hand on a task: what waits can be set, what has begun says so. */
export function ByHand({ planned, trial }: { readonly planned: Planned; readonly trial: Wish }) {
  const { id: yardId } = useYard();
  const { id } = planned.task;
  // Not live: what somebody else changes meanwhile is told when this is saved, by its revision.
  const task = useResource(`hand ${id}`, (signal) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/tasks/{id}', {
        params: { path: { yardId, id } },
        signal,
      }),
    ),
  );
  const people = useResource('people', (signal) =>
    everyPage((after) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/people', {
          params: { path: { yardId }, query: after === undefined ? {} : { after } },
          signal,
        }),
      ),
    ),
  );
  const isRead = task.data !== undefined && people.data !== undefined;
  // A plan keeps what the yard has taken out since.
  if (task.problem?.code === 'record.missing') {
    return (
      <Panel title={texts.hand} level={3}>
        <p>{texts.notInYard}</p>
      </Panel>
    );
  }
  return (
    <Panel title={texts.hand} level={3}>
      <ProblemNotice problem={task.problem} again={task.again} />
      <ProblemNotice problem={people.problem} again={people.again} />
      {(isRead || (task.problem === undefined && people.problem === undefined)) && (
        <Loaded task={task} people={people.data} planned={planned} trial={trial} />
      )}
    </Panel>
  );
}

function Loaded({
  task,
  people,
  planned,
  trial,
}: {
  readonly task: Resource<Schema<'Task'>>;
  readonly people: readonly Schema<'Person'>[] | undefined;
  readonly planned: Planned;
  readonly trial: Wish;
}) {
  const { data, put, again } = task;
  const hands = useMemo(
    () => (data === undefined || people === undefined ? undefined : handsFor(data, people)),
    [data, people],
  );
  if (data === undefined || hands === undefined) return <Busy />;
  if (data.state !== 'waiting') return <p>{texts.notWaiting(texts.state[data.state])}</p>;
  if (data.stands === 'claimed') return <p>{texts.held}</p>;
  return (
    <SetByHand
      key={data.id}
      task={data}
      hands={hands}
      planned={planned}
      trial={trial}
      onTask={put}
      onStale={again}
    />
  );
}
