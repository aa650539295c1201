import { api, asked, type Schema } from '../../api/client.ts';
import { useResource } from '../../api/resource.ts';
import { useYard } from '../../frame/yard.tsx';
import { ButtonLink, Notice, Panel, ProblemNotice, Row } from '../../looks/looks.tsx';
import { plans as texts } from '../../texts/plans.ts';
import { Ways } from './entry.tsx';
import { Finishes } from './finishes.tsx';
import css from './plans.module.css';
import type { Progress } from './progress.ts';
import { roomOf, whyLine } from './why.ts';

/** What came of a run: the plan and where to go with it, or why there is none. */
export function RunEnd({ run, now }: { readonly run: Schema<'PlanRun'>; readonly now: Progress }) {
  if (now.planId !== null) return <Made planId={now.planId} status={now.status} />;
  // Looked at anew, and found good as it is.
  if (now.status === 'finished') {
    return (
      <Notice tone="well" title={texts.ended.nothing} isNews>
        {run.why.map((words) => (
          <p key={words}>{words}</p>
        ))}
      </Notice>
    );
  }
  return (
    <>
      <Notice tone={now.status === 'stopped' ? 'plain' : 'heed'} title={endOf(now.status)} isNews>
        {now.status === 'failed' && run.faults.length === 0 && (
          <>
            {now.error !== null && <p>{now.error}</p>}
            <p>{texts.failedCure}</p>
          </>
        )}
      </Notice>
      <WhyNone why={run.why} />
      <Faults faults={run.faults} />
    </>
  );
}

const endOf = (status: Progress['status']): string =>
  status === 'stopped'
    ? texts.ended.stoppedEmpty
    : status === 'infeasible'
      ? texts.ended.infeasible
      : texts.ended.failed;

function Made({
  planId,
  status,
}: {
  readonly planId: string;
  readonly status: Progress['status'];
}) {
  const { id: yardId } = useYard();
  const chains = useResource(`chains ${planId}`, (signal) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/plans/{id}/chains', {
        params: { path: { yardId, id: planId } },
        signal,
      }),
    ),
  );
  return (
    <Panel title={status === 'stopped' ? texts.ended.stopped : texts.ended.finished}>
      <ProblemNotice problem={chains.problem} again={chains.again} />
      {chains.data !== undefined && <Finishes boats={chains.data.boats} />}
      <Ways yardId={yardId} planId={planId} isPublished={false} />
    </Panel>
  );
}

/** The words of the contradiction, each with the way to where it can be changed. */
function WhyNone({ why }: { readonly why: readonly string[] }) {
  const { id: yardId } = useYard();
  if (why.length === 0) return null;
  const [head, ...members] = why;
  return (
    <Panel title={texts.whyNone}>
      <p>{head}</p>
      <ul class={css['words']}>
        {members.map(whyLine).map(({ text, room, id }) => (
          <li key={text}>
            {text}{' '}
            {room !== null && (
              <a href={`/yards/${yardId}/set-up/${room}${id === null ? '' : `/${id}`}`}>
                {texts.toRoom}
              </a>
            )}
          </li>
        ))}
      </ul>
    </Panel>
  );
}

function Faults({ faults }: { readonly faults: Schema<'PlanRun'>['faults'] }) {
  const { id: yardId } = useYard();
  if (faults.length === 0) return null;
  return (
    <Panel title={texts.faults}>
      <ul class={css['words']}>
        {faults.map(({ path, message, cure }) => {
          const room = roomOf(path);
          return (
            <li key={`${path} ${message}`}>
              {message} {cure}{' '}
              {room !== null && <a href={`/yards/${yardId}/set-up/${room}`}>{texts.toRoom}</a>}
            </li>
          );
        })}
      </ul>
      <Row>
        <ButtonLink to={`/yards/${yardId}/set-up`}>{texts.toSetUp}</ButtonLink>
      </Row>
    </Panel>
  );
}
