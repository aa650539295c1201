import { useLocation, useRoute } from 'preact-iso/router';
import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../api/client.ts';
import { useResource } from '../../api/resource.ts';
import { ChoiceField } from '../../form/fields.tsx';
import { useTitle } from '../../frame/title.ts';
import { useYard } from '../../frame/yard.tsx';
import { Busy, Button, ButtonLink, ProblemNotice, Row, Stack } from '../../looks/looks.tsx';
import { dateIn, dayOfDate } from '../../show/time.ts';
import { sheet as texts } from '../../texts/sheet.ts';
import { daysOn, pagesOf } from './pages.ts';
import { PaperPage } from './paper-page.tsx';
import css from './sheet.module.css';

type Plan = Schema<'Plan'>;

/** Unless told, the week of now where the plan has it, else the plan's first. */
function usualFrom({ origin, horizon }: Plan, zone: string): string | undefined {
  const now = new Date().toISOString();
  return now > origin.at && now < horizon.at ? monday(dateIn(now, zone)) : undefined;
}

function monday(date: string): string {
  const weekday = new Date(`${date}T12:00:00Z`).getUTCDay();
  return daysOn(date, -((weekday + 6) % 7));
}

/** The week on paper, one page a builder. */
export default function Sheet() {
  useTitle(texts.title);
  const { params, query } = useRoute();
  const { id: yardId, timeZone: zone } = useYard();
  const planId = params['planId'] ?? '';
  const { from: wanted } = query as Readonly<Partial<Record<string, string>>>;
  const read = useResource(`sheet ${planId} ${wanted ?? ''}`, async (signal) => {
    const path = { yardId, id: planId };
    const plan = await asked(
      api.GET('/api/v1/yards/{yardId}/plans/{id}', { params: { path }, signal }),
    );
    const from = wanted ?? usualFrom(plan, zone);
    const week = await asked(
      api.GET('/api/v1/yards/{yardId}/plans/{id}/week', {
        params: { path, query: { by: 'builder', ...(from === undefined ? {} : { from }) } },
        signal,
      }),
    );
    return { plan, week };
  });
  const { data, problem, again } = read;
  return (
    <Stack>
      <h1 class={css['screen']}>{texts.title}</h1>
      <ProblemNotice problem={problem} again={again} />
      {data === undefined && problem === undefined && <Busy />}
      {data !== undefined && <Pages plan={data.plan} week={data.week} />}
    </Stack>
  );
}

function Pages({ plan, week }: { readonly plan: Plan; readonly week: Schema<'Week'> }) {
  const { path } = useLocation();
  const [whom, setWhom] = useState('');
  const tasks = new Map(plan.tasks.map((task) => [task.id, task]));
  const all = pagesOf(week.groups, tasks);
  const pages = all.filter(({ id }) => whom === '' || id === whom);
  // The end of a week is the first day that is no more in it.
  const last = daysOn(week.weekStart, 6);
  return (
    <>
      <div class={css['screen']}>
        <Stack>
          <p>{texts.hint}</p>
          <strong>{texts.week(dayOfDate(week.weekStart), dayOfDate(last))}</strong>
          <Row>
            <ButtonLink to={`${path}?from=${daysOn(week.weekStart, -7)}`}>
              {texts.before}
            </ButtonLink>
            <ButtonLink to={`${path}?from=${daysOn(week.weekStart, 7)}`}>{texts.after}</ButtonLink>
          </Row>
          <Row apart>
            <ChoiceField
              label={texts.whom}
              value={whom}
              onValue={setWhom}
              options={[
                { value: '', label: texts.everybody },
                ...all.map(({ id, name }) => ({ value: id, label: name })),
              ]}
            />
            <Button
              kind="do"
              disabled={pages.length === 0}
              onPress={() => {
                print();
              }}
            >
              {texts.print}
            </Button>
          </Row>
        </Stack>
      </div>
      {pages.length === 0 && <p>{texts.nobody}</p>}
      {pages.map((page) => (
        <PaperPage
          key={page.id}
          page={page}
          plan={plan}
          tasks={tasks}
          week={texts.week(dayOfDate(week.weekStart), dayOfDate(last))}
        />
      ))}
    </>
  );
}
