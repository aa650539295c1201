import { api, asked } from '../api/client.ts';
import { useResource } from '../api/resource.ts';
import { useYard } from '../frame/yard.tsx';
import { Busy, Dialog, Notice, ProblemNotice, Stack } from '../looks/looks.tsx';
import { placing as texts } from '../texts/placing.ts';
import { Cautions } from './cautions.tsx';
import { Facts } from './facts.tsx';
import { Film } from './film.tsx';
import { History } from './history.tsx';
import { Mix } from './mix.tsx';
import type { PlanTask } from './plan-task.ts';
import { ByHand } from './by-hand.tsx';
import type { Wish } from './try-placement.ts';
import { Why } from './why.tsx';

interface TaskPanelProps {
  readonly taskId: string;
  readonly planId: string;
  readonly onClose: () => void;
  /** The foreman's hand begins with this, and it is tried at once. */
  readonly trial?: Wish;
}

/** All about a task of a plan, and the foreman's hand on it. */
export function TaskPanel({ taskId, planId, onClose, trial }: TaskPanelProps) {
  const { id: yardId } = useYard();
  const planned = useResource(`task ${planId} ${taskId}`, (signal) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/plans/{id}/tasks/{taskId}', {
        params: { path: { yardId, id: planId, taskId } },
        signal,
      }),
    ),
  );
  const { data, problem } = planned;
  const isStray = problem?.code === 'record.missing';
  const title =
    data === undefined
      ? texts.someTask
      : texts.taskOf(data.task.name, data.task.part, data.task.boat);
  return (
    <Dialog title={title} onClose={onClose}>
      {data === undefined && problem === undefined && <Busy />}
      {isStray ? (
        <Notice tone="heed" title={texts.notInPlan} isNews>
          <p>{texts.notInPlanCure}</p>
        </Notice>
      ) : (
        <ProblemNotice problem={problem} again={planned.again} />
      )}
      {data !== undefined && (
        <Stack>
          <Facts task={data.task} />
          <Warnings task={data.task} />
          <ByHand planned={data} trial={trial ?? {}} />
          <Cautions cautions={data.task.cautions} also={data.caution} />
          <Why task={data.task} planId={planId} />
          <Film task={data.task} />
          <Mix mix={data.task.mix} />
          <History taskId={taskId} />
        </Stack>
      )}
    </Dialog>
  );
}

function Warnings({ task: { warnings } }: { readonly task: PlanTask }) {
  if (warnings.length === 0) return null;
  return (
    <Notice tone="heed" title={texts.warnings}>
      <ul>
        {warnings.map((warning) => (
          <li key={warning}>{warning}</li>
        ))}
      </ul>
    </Notice>
  );
}
