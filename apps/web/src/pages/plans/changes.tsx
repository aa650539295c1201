import { useState } from 'preact/hooks';
import type { Schema } from '../../api/client.ts';
import { useYard } from '../../frame/yard.tsx';
import { Panel } from '../../looks/looks.tsx';
import { TaskPanel } from '../../placing/task-panel.tsx';
import { clock, dayAndClock, dayOfDate } from '../../show/time.ts';
import { plans as texts } from '../../texts/plans.ts';
import { byDay } from './by-day.ts';
import css from './plans.module.css';

/** Who gets other work, and what is at another time day by day. */
export function Changes({ difference }: { readonly difference: Schema<'PlanDifference'> }) {
  const { planId, people, tasks } = difference;
  const [opened, setOpened] = useState<string>();
  if (tasks.length === 0) return null;
  return (
    <>
      {people.length > 0 && (
        <Panel title={texts.people}>
          {people.map((person) => (
            <details key={person.personId} class={css['day']}>
              <summary>
                {person.name}: {personWords(person)}
              </summary>
              <ul class={css['words']}>
                {tasksOf(person, tasks).map(({ taskId, task, boat, part }) => (
                  <li key={taskId}>
                    {task}, {texts.boatOf(boat, part)}
                  </li>
                ))}
              </ul>
            </details>
          ))}
        </Panel>
      )}
      <Panel title={texts.days}>
        {byDay(tasks).map(({ date, tasks: ofDay }, k) => (
          <details key={date} class={css['day']} open={k === 0}>
            <summary>{texts.dayCount(dayOfDate(date), ofDay.length)}</summary>
            <ul class={css['words']}>
              {ofDay.map((task) => (
                <Change key={task.taskId} task={task} onOpen={() => setOpened(task.taskId)} />
              ))}
            </ul>
          </details>
        ))}
      </Panel>
      {opened !== undefined && (
        <TaskPanel taskId={opened} planId={planId} onClose={() => setOpened(undefined)} />
      )}
    </>
  );
}

/** By time, as the tasks are. */
const tasksOf = (
  { moves, takes, leaves }: Schema<'PersonDifference'>,
  tasks: readonly Schema<'TaskDifference'>[],
): Schema<'TaskDifference'>[] => {
  const own = new Set([...moves, ...takes, ...leaves]);
  return tasks.filter(({ taskId }) => own.has(taskId));
};

function personWords({ moves, takes, leaves }: Schema<'PersonDifference'>): string {
  return [
    ...(moves.length === 0 ? [] : [texts.moves(moves.length)]),
    ...(takes.length === 0 ? [] : [texts.takes(takes.length)]),
    ...(leaves.length === 0 ? [] : [texts.leaves(leaves.length)]),
  ].join(', ');
}

function Change({
  task,
  onOpen,
}: {
  readonly task: Schema<'TaskDifference'>;
  readonly onOpen: () => void;
}) {
  const { timeZone: zone } = useYard();
  const { from, to, kind, peopleBefore, peopleAfter } = task;
  const names = (crew: readonly Schema<'CrewMember'>[]): string =>
    texts.withPeople(crew.map(({ name }) => name));
  const [before, after] = [names(peopleBefore), names(peopleAfter)];
  return (
    <li>
      {kind === 'gone' ? (
        <strong>{task.task}</strong>
      ) : (
        <button type="button" class="opens" onClick={onOpen}>
          {task.task}
        </button>
      )}
      <div>
        {texts.boatOf(task.boat, task.part)} ({texts.kind[kind]})
      </div>
      <div class={css['soft']}>
        {kind === 'moved' && from !== null && to !== null && (
          <>{texts.fromTo(dayAndClock(from.at, zone), clockOrDay(from.at, to.at, zone))}; </>
        )}
        {before === after ? after : texts.fromTo(before, after)}
      </div>
    </li>
  );
}

/** The time alone where the day is the same. */
const clockOrDay = (before: string, after: string, zone: string): string =>
  dayAndClock(before, zone).slice(0, -5) === dayAndClock(after, zone).slice(0, -5)
    ? clock(after, zone)
    : dayAndClock(after, zone);
