import type { Schema } from '../../api/client.ts';
import { useYard } from '../../frame/yard.tsx';
import { dayAndClock, longDayOfDate } from '../../show/time.ts';
import { common } from '../../texts/common.ts';
import { sheet as texts } from '../../texts/sheet.ts';
import type { Row, SheetDay, SheetPage } from './pages.ts';
import css from './sheet.module.css';
import { watchWords } from './watch.ts';

type Tasks = ReadonlyMap<string, Schema<'PlanTask'>>;

/** What a builder takes to the bench: days down the page, with room to tick and to write. */
export function PaperPage({
  page,
  plan,
  tasks,
  week,
}: {
  readonly page: SheetPage;
  readonly plan: Schema<'Plan'>;
  readonly tasks: Tasks;
  readonly week: string;
}) {
  const { name: yard, timeZone: zone } = useYard();
  return (
    <article class={css['page']}>
      <header class={css['head']}>
        <h2>{page.name}</h2>
        <p>
          {yard} · {week}
        </p>
        <p class={css['small']}>
          {plan.publishedAt === null && <strong>{texts.notPublished} </strong>}
          {texts.madeAt(dayAndClock(plan.createdAt, zone))}
        </p>
      </header>
      {page.days.map((day) => (
        <Day key={day.date} day={day} name={page.name} tasks={tasks} />
      ))}
      {(page.cautions.length > 0 || plan.caution !== '') && (
        <section class={css['cautions']}>
          <h3>{texts.cautions}</h3>
          <ul>
            {page.cautions.map(({ material, texts: words }) => (
              <li key={material}>
                {material !== '' && <strong>{texts.of(material)} </strong>}
                {words.join(' ')}
              </li>
            ))}
            {plan.caution !== '' && <li>{plan.caution}</li>}
          </ul>
        </section>
      )}
    </article>
  );
}

function Day({
  day,
  name,
  tasks,
}: {
  readonly day: SheetDay;
  readonly name: string;
  readonly tasks: Tasks;
}) {
  return (
    <section
      class={css['day']}
      tabIndex={0}
      aria-label={texts.table(name, longDayOfDate(day.date))}
    >
      <h3>{longDayOfDate(day.date)}</h3>
      <table class={css['table']}>
        <thead>
          <tr>
            <th scope="col">{texts.time}</th>
            <th scope="col">{texts.task}</th>
            <th scope="col">{texts.where}</th>
            <th scope="col">{texts.watch}</th>
            <th scope="col" class={css['tick']}>
              {texts.done}
            </th>
            <th scope="col" class={css['notes']}>
              {texts.notes}
            </th>
          </tr>
        </thead>
        <tbody>
          {day.rows.map((row) => (
            <Line
              key={`${row.taskId} ${row.from}`}
              row={row}
              task={tasks.get(row.taskId)}
              name={name}
            />
          ))}
        </tbody>
      </table>
    </section>
  );
}

function Line({
  row,
  task,
  name,
}: {
  readonly row: Row;
  readonly task: Schema<'PlanTask'> | undefined;
  readonly name: string;
}) {
  const { timeZone: zone } = useYard();
  const more = [
    ...(row.continued ? [texts.continued] : []),
    ...(row.continues ? [texts.continues] : []),
  ];
  const material = task?.mix?.material;
  return (
    <tr>
      <td>{texts.span(row.from, row.to)}</td>
      <td>
        <strong>{row.task}</strong> {row.part}, {row.boat}
        {more.length > 0 && ` (${more.join(', ')})`}
        {material !== undefined && <div>{material}</div>}
      </td>
      <td>
        {row.space} ({common.air[row.air]})
      </td>
      <td>
        {watchWords(row, task, name, zone).map((words) => (
          <div key={words}>{words}</div>
        ))}
      </td>
      <td class={css['tick']}>
        <span class={css['box']} aria-hidden="true" />
      </td>
      <td class={css['notes']} />
    </tr>
  );
}
