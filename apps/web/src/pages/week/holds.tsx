import { useYard } from '../../frame/yard.tsx';
import { Notice } from '../../looks/looks.tsx';
import { day, dayAndClock, span } from '../../show/time.ts';
import { week as texts } from '../../texts/week.ts';
import { useNow } from './axis.tsx';
import { type Holding, holdingOf, holds } from './holding.ts';
import type { Lives } from './lives.ts';
import type { Model, Work } from './model.ts';
import css from './week.module.css';

const most = 3;

const names = (works: readonly Work[]): string[] => {
  const first = works.slice(0, most).map(({ task }) => texts.taskOn(task.name, task.part));
  return works.length > most ? [...first, texts.more(works.length - most)] : first;
};

/** Whether the week holds, in a few sentences. */
export function Holds({ model, lives }: { readonly model: Model; readonly lives: Lives }) {
  const { timeZone } = useYard();
  const now = useNow();
  const holding = holdingOf(model, (taskId) => lives.of(taskId)?.value, now);
  const { isPublished, boats } = model.picture;
  const isWell = holds(holding);
  const title = isPublished ? (isWell ? texts.holds : texts.holdsNot) : texts.planned;
  return (
    <Notice tone={isWell ? 'well' : 'heed'} title={title}>
      <ul class={css['plain']}>
        {holding.late.length === 0 && boats.length > 0 && <li>{texts.keeps(boats.length)}</li>}
        {sentences(holding, timeZone).map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </Notice>
  );
}

function sentences({ late, behind, overdue, shutting }: Holding, zone: string): string[] {
  return [
    ...late.map(({ boat, lateMinutes, finish }) =>
      texts.late(boat, span(lateMinutes), day(finish, zone)),
    ),
    ...(behind.length > 0 ? [texts.behind(behind.length, names(behind))] : []),
    ...(overdue.length > 0 ? [texts.overdue(overdue.length, names(overdue))] : []),
    ...shutting
      .slice(0, most)
      .map(({ work, window: { toName, closes } }) =>
        texts.shutting(texts.taskOn(toName, work.task.part), dayAndClock(closes ?? 0, zone)),
      ),
  ];
}
