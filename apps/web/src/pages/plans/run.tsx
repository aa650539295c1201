import { useRoute } from 'preact-iso/router';
import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../api/client.ts';
import { type Problem, problemOf } from '../../api/problem.ts';
import { useTitle } from '../../frame/title.ts';
import { useYard } from '../../frame/yard.tsx';
import { Busy, Button, ButtonLink, Panel, ProblemNotice, Row, Stack } from '../../looks/looks.tsx';
import { dayAndClock } from '../../show/time.ts';
import { plans as texts } from '../../texts/plans.ts';
import { RunChart } from './chart.tsx';
import { Figures } from './figures.tsx';
import css from './plans.module.css';
import { standings, type Progress } from './progress.ts';
import { RunEnd } from './run-end.tsx';
import { standingOf, useRun } from './use-run.ts';

/** A plan in the making: how good it is so far, how good it can be at most, and what came of it. */
export default function Run() {
  const { params } = useRoute();
  useTitle(texts.runTitle);
  const { run, told } = useRun(params['runId'] ?? '');
  return (
    <Stack>
      <h1>{texts.runTitle}</h1>
      <ProblemNotice problem={run.problem} again={run.again} />
      {run.data === undefined && run.problem === undefined && <Busy />}
      {run.data !== undefined && (
        <Followed run={run.data} told={told} now={standingOf(run.data, told)} />
      )}
    </Stack>
  );
}

function Followed({
  run,
  told,
  now,
}: {
  readonly run: Schema<'PlanRun'>;
  readonly told: readonly Progress[];
  readonly now: Progress;
}) {
  const { id: yardId, timeZone: zone } = useYard();
  const isUnderWay = now.status === 'queued' || now.status === 'running';
  const late = standings(told, 'lateness');
  const isLate = late.some(({ best, bound }) => (best ?? 0) > 0 || (bound ?? 0) > 0);
  return (
    <Stack>
      <p>{texts.runOf(dayAndClock(run.createdAt, zone))}</p>
      {run.cause.length > 0 && (
        <ul aria-label={texts.cause}>
          {run.cause.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      )}
      <Panel title={texts.status[now.status]}>
        <p role="status">
          {now.stopRequested && isUnderWay ? (
            texts.stopping
          ) : (
            <span class="said">{texts.status[now.status]}</span>
          )}
        </p>
        <Figures now={now} isUnderWay={isUnderWay} />
        {isUnderWay && <Stop runId={run.id} now={now} />}
      </Panel>
      {!isUnderWay && <RunEnd run={run} now={now} />}
      {(isUnderWay || (told.length > 1 && now.bestFinish !== null)) && (
        <Panel>
          {isLate && <RunChart title={texts.latenessChart} standings={late} />}
          <RunChart title={texts.finishesChart} standings={standings(told, 'finishes')} />
        </Panel>
      )}
      <Row>
        <ButtonLink to={`/yards/${yardId}/plans`}>{texts.backToPlans}</ButtonLink>
      </Row>
    </Stack>
  );
}

function Stop({ runId, now }: { readonly runId: string; readonly now: Progress }) {
  const { id: yardId } = useYard();
  const [isBusy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const stop = (): void => {
    setBusy(true);
    setProblem(undefined);
    asked(
      api.POST('/api/v1/yards/{yardId}/plan-runs/{id}/stop', {
        params: { path: { yardId, id: runId } },
      }),
    )
      .catch((error: unknown) => {
        // It ended just now: that is told already.
        const refusal = problemOf(error);
        if (refusal.code !== 'run.state') setProblem(refusal);
      })
      .finally(() => setBusy(false));
  };
  return (
    <div class={css['form']}>
      <div>
        <Button isBusy={isBusy || now.stopRequested} onPress={stop}>
          {now.bestFinish === null ? texts.stopEmpty : texts.stop}
        </Button>
      </div>
      <ProblemNotice problem={problem} />
    </div>
  );
}
