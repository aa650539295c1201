import { useYard } from '../../../frame/yard.tsx';
import { span } from '../../../show/time.ts';
import { now as texts } from '../../../texts/now.ts';
import { moment } from '../moments.ts';
import css from '../now.module.css';
import type { WaitingTask } from '../now-data.ts';
import type { Mine } from './mine.ts';

/** What else the service says before it is taken up; also where only words may stand. */
export const Notes = ({ of: task }: { readonly of: Pick<WaitingTask, 'notes'> | null }) => (
  <>
    {task?.notes.map((text) => (
      <span key={text} class={css['note']}>
        {text}
      </span>
    ))}
  </>
);

/** When it has to be begun and why, how much work it is, for how many. */
export function Needed({ mine: { ready } }: { readonly mine: Mine }) {
  const { timeZone } = useYard();
  if (ready === null) return null;
  const { neededBy, because, planned, workMinutes, crewMin, crewMax, closes } = ready;
  const told = [texts.work(span(workMinutes)), texts.crew(crewMin, crewMax)];
  if (planned !== null) told.push(texts.plannedFor(moment(planned.start.at, timeZone)));
  return (
    <div class={css['soft']}>
      {neededBy !== null && closes === null && (
        <p>
          {texts.neededBy(moment(neededBy.at, timeZone))}
          {because !== null && `: ${because}`}
        </p>
      )}
      <p>{told.join(' · ')}</p>
    </div>
  );
}
