import { useState } from 'preact/hooks';
import { useYard } from '../../../frame/yard.tsx';
import { Button, Row } from '../../../looks/looks.tsx';
import { dayAndClock } from '../../../show/time.ts';
import { boats } from '../../../texts/boats.ts';
import { common } from '../../../texts/common.ts';
import { nameIn } from '../lists/lists.ts';
import css from '../set-up.module.css';
import { useBoatLists } from './boat-lists.ts';
import { JobDialog } from './job-dialog.tsx';
import { Removing } from './removing.tsx';
import { type Job, type Part, type Refit, removeJob } from './requests.ts';
import type { Task } from './tasks-of-jobs.ts';

const texts = boats.job;
const states = Object.keys(texts.states) as Task['state'][];

/** Where its tasks stand, `2 done, 5 waiting`. */
const standing = (tasks: readonly Task[]): string =>
  states
    .map((state) => [state, tasks.filter((task) => task.state === state).length] as const)
    .filter(([, count]) => count > 0)
    .map(([state, count]) => texts.state(count, texts.states[state]))
    .join(', ');

/** One job: its procedure, what it waits for, and the tasks it has made. */
export function JobLine({
  refit,
  part,
  job,
}: {
  readonly refit: Refit;
  readonly part: Part;
  readonly job: Job;
}) {
  const { id: yardId, timeZone } = useYard();
  const { boats: all = [], procedures, spaces, deliveries, again, ...read } = useBoatLists();
  const tasks = read.tasks === undefined ? undefined : (read.tasks.get(job.id) ?? []);
  const [isOpen, setOpen] = useState(false);
  const jobsOfRefit = refit.parts.flatMap((its) =>
    its.jobs.map((one) => ({ part: its, job: one })),
  );
  const nameOf = (id: string): string => {
    const found = jobsOfRefit.find((one) => one.job.id === id);
    if (found === undefined) return id;
    return texts.of(nameIn(procedures, found.job.procedure), found.part.name);
  };
  const procedure = procedures?.find(({ id }) => id === job.procedure);
  const name = procedure?.name ?? job.procedure;
  const followers = jobsOfRefit.filter((one) => one.job.after.includes(job.id));
  const words = [
    texts.version(job.procedureVersion),
    ...(job.after.length === 0 ? [] : [texts.comesAfter(job.after.map(nameOf))]),
    ...(job.destination === null ? [] : [texts.goesTo(nameIn(spaces, job.destination))]),
    ...(job.joins.length === 0
      ? []
      : [texts.joining(job.joins.map((id) => nameIn(refit.parts, id)))]),
    ...(job.waitsFor.length === 0
      ? []
      : [texts.waitingFor(job.waitsFor.map(({ delivery }) => nameIn(deliveries, delivery)))]),
    ...job.words.map(({ step, expected }) =>
      texts.expecting(nameIn(procedure?.steps, step), dayAndClock(expected, timeZone)),
    ),
  ];
  const full = texts.of(name, part.name);
  return (
    <div class={css['entry']}>
      <div class={css['entryText']}>
        <a href={`/yards/${yardId}/set-up/procedures/${job.procedure}`}>
          <strong>
            <bdi>{name}</bdi>
          </strong>
        </a>
        <span class={css['soft']}>{words.join(', ')}</span>
        {tasks !== undefined && (
          <details>
            <summary>
              {`${texts.tasks(tasks.length)}${tasks.length === 0 ? '' : `: ${standing(tasks)}`}`}
            </summary>
            <ol>
              {tasks.map((task) => (
                <li key={task.id}>
                  <bdi>{task.name}</bdi> <span class={css['soft']}>{texts.states[task.state]}</span>
                </li>
              ))}
            </ol>
          </details>
        )}
      </div>
      <Row>
        <Button label={texts.changing(full)} onPress={() => setOpen(true)}>
          {common.edit}
        </Button>
        <Removing
          name={full}
          keptBy={
            followers.length === 0
              ? null
              : texts.comeAfter(followers.map((one) => nameOf(one.job.id)))
          }
          warning={texts.takes(tasks?.length ?? 0)}
          remove={() => removeJob({ yardId, id: job.id })}
          onRemoved={again}
        />
      </Row>
      {isOpen && (
        <JobDialog
          refit={refit}
          part={part}
          job={job}
          all={all}
          onSaved={() => {
            setOpen(false);
            again();
          }}
          onClose={() => setOpen(false)}
        />
      )}
    </div>
  );
}
