import { useState } from 'preact/hooks';
import { api, asked } from '../api/client.ts';
import { useResource } from '../api/resource.ts';
import { useYard } from '../frame/yard.tsx';
import { Busy, Button, Panel, ProblemNotice } from '../looks/looks.tsx';
import { dayAndClock } from '../show/time.ts';
import { placing as texts } from '../texts/placing.ts';
import css from './placing.module.css';
import type { PlanTask } from './plan-task.ts';

/** What keeps it where the plan has it, everything else as planned; asked when wanted. */
export function Why({ task, planId }: { readonly task: PlanTask; readonly planId: string }) {
  const { id: yardId, timeZone: zone } = useYard();
  const [isAsked, setAsked] = useState(false);
  const why = useResource(isAsked ? `why ${planId} ${task.id}` : null, (signal) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/plans/{id}/tasks/{taskId}/why-not-earlier', {
        params: { path: { yardId, id: planId, taskId: task.id } },
        signal,
      }),
    ),
  );
  if (task.state !== 'waiting') return null;
  const { data } = why;
  return (
    <Panel title={texts.why} level={3}>
      {!isAsked && (
        <div>
          <Button onPress={() => setAsked(true)}>{texts.askWhy}</Button>
        </div>
      )}
      <ProblemNotice problem={why.problem} again={why.again} />
      <div role="status">
        {isAsked && data === undefined && why.problem === undefined && <Busy />}
        {data?.steps.length === 0 && <p>{texts.nothingHolds}</p>}
        {data !== undefined && data.steps.length > 0 && (
          <>
            <p>{texts.whyOf(dayAndClock(data.asked.at, zone))}</p>
            <ol class={css['steps']}>
              {data.steps.map(({ text }) => (
                <li key={text}>{text}</li>
              ))}
            </ol>
          </>
        )}
      </div>
    </Panel>
  );
}
