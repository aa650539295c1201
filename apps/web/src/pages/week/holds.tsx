import { useYard } from '../../frame/yard.tsx';
import { Notice } from '../../looks/looks.tsx';
import { day, dayAndClock, span } from '../../show/time.ts';
import { week as texts } from '../../texts/week.ts';
import { holdingOf, holds } from './holding.ts';
import type { Lives } from './lives.ts';
import { isOfNow, type Model, type Work } from './model.ts';
import { present } from './present.ts';
import css from './week.module.css';
import { timesOf } from './words.ts';

interface HoldsProps {
  readonly model: Model;
  readonly lives: Lives;
  readonly onOpen: (taskId: string) => void;
}

const most = 3;

/** Whether the week holds, in a few sentences; what is off its time leads to its task, whenever that is. */
export function Holds({ model, lives, onOpen }: HoldsProps) {
  const { timeZone } = useYard();
  const holding = holdingOf(model, (taskId) => lives.of(taskId)?.value, present.value);
  const { late, behind, overdue, ahead, shutting } = holding;
  const { boats } = model.picture;
  const isWell = holds(holding);
  // Of other weeks it cannot be said: what is left from before is told in the days of now only.
  const told = isWell ? texts.holds : texts.holdsNot;
  const title = isOfNow(model, present.value) ? told : texts.planned;
  return (
    <Notice tone={isWell ? 'well' : 'heed'} title={title}>
      <ul class={css['plain']}>
        {late.length === 0 && boats.length > 0 && <li>{texts.keeps(boats.length)}</li>}
        {late.map(({ refitId, boat, lateMinutes, finish }) => (
          <li key={refitId}>{texts.late(boat, span(lateMinutes), day(finish, timeZone))}</li>
        ))}
        <Off words={texts.behind(behind.length)} works={behind} onOpen={onOpen} />
        <Off words={texts.overdue(overdue.length)} works={overdue} onOpen={onOpen} />
        <Off words={texts.ahead(ahead.length)} works={ahead} onOpen={onOpen} />
        {shutting.slice(0, most).map(({ work, window: { toTask, toName, closes } }) => (
          <li key={`${work.task.id} ${toTask}`}>
            {texts.shutting(
              texts.taskOn(toName, work.task.part),
              dayAndClock(closes ?? 0, timeZone),
            )}
          </li>
        ))}
      </ul>
    </Notice>
  );
}

interface OffProps extends Pick<HoldsProps, 'onOpen'> {
  readonly words: string;
  readonly works: readonly Work[];
}

function Off({ words, works, onOpen }: OffProps) {
  if (works.length === 0) return null;
  const [first, rest] = [works.slice(0, most), works.slice(most)];
  return (
    <li>
      {words}
      <Ones works={first} onOpen={onOpen} />
      {rest.length > 0 && (
        <details>
          <summary>{texts.more(rest.length)}</summary>
          <Ones works={rest} onOpen={onOpen} />
        </details>
      )}
    </li>
  );
}

function Ones({ works, onOpen }: Omit<OffProps, 'words'>) {
  const { timeZone } = useYard();
  return (
    <ul class={css['plain']}>
      {works.map((work) => (
        <li key={work.task.id} class={css['late']}>
          <button type="button" class="opens" onClick={() => onOpen(work.task.id)}>
            {texts.taskOn(work.task.name, work.task.part)}
          </button>
          <span>{texts.plannedFor(timesOf(work, timeZone), work.crew)}</span>
        </li>
      ))}
    </ul>
  );
}
