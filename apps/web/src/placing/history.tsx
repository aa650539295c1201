import { Fragment } from 'preact';
import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../api/client.ts';
import { useResource } from '../api/resource.ts';
import { useYard } from '../frame/yard.tsx';
import { Busy, Button, Panel, ProblemNotice } from '../looks/looks.tsx';
import { dayAndClock } from '../show/time.ts';
import { listed } from '../texts/language.ts';
import { placing as texts } from '../texts/placing.ts';
import { spanWords } from './plan-task.ts';
import css from './placing.module.css';

type Told = NonNullable<Schema<'TaskHistory'>['planned']>;

const namesOf = (crew: readonly Schema<'CrewMember'>[]): string =>
  listed(crew.map(({ name }) => name));

/** What was told of it by which plan, and what was really done; asked when wanted. */
export function History({ taskId }: { readonly taskId: string }) {
  const { id: yardId } = useYard();
  const [isAsked, setAsked] = useState(false);
  const history = useResource(isAsked ? `history ${taskId}` : null, (signal) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/tasks/{id}/history', {
        params: { path: { yardId, id: taskId } },
        signal,
      }),
    ),
  );
  const { data } = history;
  return (
    <Panel title={texts.history} level={3}>
      {!isAsked && (
        <div>
          <Button onPress={() => setAsked(true)}>{texts.askHistory}</Button>
        </div>
      )}
      <ProblemNotice problem={history.problem} again={history.again} />
      {isAsked && data === undefined && history.problem === undefined && <Busy />}
      {data !== undefined && (
        <dl class={css['facts']}>
          <dt>{texts.told}</dt>
          <dd>{data.planned === null ? texts.neverTold : <ToldWords told={data.planned} />}</dd>
          {data.replanned.map((told) => (
            <Fragment key={told.planId}>
              <dt>{texts.toldAgain}</dt>
              <dd>
                <ToldWords told={told} />
              </dd>
            </Fragment>
          ))}
          <dt>{texts.done}</dt>
          <dd>
            <Done actual={data.actual} />
          </dd>
        </dl>
      )}
    </Panel>
  );
}

function ToldWords({ told }: { readonly told: Told }) {
  const { timeZone: zone } = useYard();
  return (
    <>
      {spanWords(told, zone)}
      {told.crew.length > 0 && ` · ${namesOf(told.crew)}`}
      <div class={css['soft']}>{texts.toldOn(dayAndClock(told.publishedAt, zone))}</div>
    </>
  );
}

function Done({ actual }: Pick<Schema<'TaskHistory'>, 'actual'>) {
  const { timeZone: zone } = useYard();
  if (actual.spans.length === 0) return <>{texts.notBegun}</>;
  return (
    <ul>
      {actual.spans.map(({ start, finish, crew }) => (
        <li key={start.at}>
          {finish === null
            ? texts.span(dayAndClock(start.at, zone), texts.stillAtIt)
            : spanWords({ start, finish }, zone)}
          {crew.length > 0 && ` · ${namesOf(crew)}`}
        </li>
      ))}
    </ul>
  );
}
