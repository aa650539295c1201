import { useEffect } from 'preact/hooks';
import { api, asked, type Schema } from '../../../api/client.ts';
import { problemOf } from '../../../api/problem.ts';
import { useYard } from '../../../frame/yard.tsx';
import { useKeptResource } from '../../../offline/kept-resource.ts';
import { dateIn, dayOfDate } from '../../../show/time.ts';
import { now as texts } from '../../../texts/now.ts';
import { useTick } from '../moments.ts';
import css from '../now.module.css';

type Week = Schema<'Week'>;
type Row = Week['groups'][number]['rows'][number];

/** Seven days from today on, as the published plan has them for one person. */
export function MyWeek({ memberId }: { readonly memberId: string }) {
  const { id: yardId, timeZone } = useYard();
  const today = dateIn(useTick(60_000), timeZone);
  const week = useKeptResource<readonly Row[] | null>(
    `week ${yardId}`,
    async (signal) => {
      const path = { yardId };
      const read = await asked(
        api.GET('/api/v1/yards/{yardId}/published-plan/week', {
          params: { path, query: { by: 'builder', from: today } },
          signal,
        }),
      ).catch((error: unknown) => {
        if (problemOf(error).status === 404) return null;
        throw error;
      });
      return read === null ? null : rowsOf(read, memberId);
    },
    { yardId, on: ({ subject }) => subject === 'plan' },
  );
  const { again } = week;
  useEffect(() => {
    if (week.asOf !== undefined && dateIn(week.asOf, timeZone) !== today) again();
  }, [today, again]);
  const rows = week.data;
  if (rows === undefined) return null;
  return (
    <section class={css['section']}>
      <h2>{texts.week.title}</h2>
      {rows === null && <p>{texts.week.none}</p>}
      {rows?.length === 0 && <p>{texts.week.free}</p>}
      {rows !== null && rows.length > 0 && <Days rows={rows} today={today} />}
    </section>
  );
}

const rowsOf = ({ groups }: Week, memberId: string): readonly Row[] =>
  groups.find(({ id }) => id === memberId)?.rows ?? [];

function Days({ rows, today }: { readonly rows: readonly Row[]; readonly today: string }) {
  const days = [...new Set(rows.map(({ date }) => date))].sort();
  return (
    <ol class={css['days']}>
      {days.map((day) => (
        <li key={day}>
          <h3>
            {dayOfDate(day)} {day === today && <span class={css['soft']}>{texts.week.today}</span>}
          </h3>
          <ul class={css['rows']}>
            {rows
              .filter(({ date }) => date === day)
              .sort((a, b) => a.from.localeCompare(b.from))
              .map((row) => (
                <li key={`${row.taskId} ${row.from}`} class={css['row']}>
                  <span class={css['hours']}>{texts.week.fromTo(row.from, row.to)}</span>
                  <span>
                    <strong>{row.task}</strong>{' '}
                    {row.continued && <span class={css['soft']}>({texts.week.continued})</span>}
                    <br />
                    {[row.part, row.boat, row.space].join(' · ')}
                    {row.people.length > 1 && (
                      <span class={css['soft']}> {texts.with(row.people)}</span>
                    )}
                  </span>
                </li>
              ))}
          </ul>
        </li>
      ))}
    </ol>
  );
}
