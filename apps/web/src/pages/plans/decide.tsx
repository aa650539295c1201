import { useState } from 'preact/hooks';
import { api, asked } from '../../api/client.ts';
import { type Problem, problemOf } from '../../api/problem.ts';
import { useYard } from '../../frame/yard.tsx';
import {
  Button,
  ButtonLink,
  Dialog,
  Notice,
  ProblemNotice,
  Row,
  Stack,
} from '../../looks/looks.tsx';
import { common } from '../../texts/common.ts';
import { plans as texts } from '../../texts/plans.ts';
import type { Compared } from './compared.ts';
import css from './plans.module.css';

/** Publish or discard. */
export function Decide({
  data,
  onDecided,
}: {
  readonly data: Compared;
  readonly onDecided: () => void;
}) {
  const { id: yardId } = useYard();
  const { plan, candidate, publishedId } = data;
  const [isAsking, setAsking] = useState(false);
  const [isBusy, setBusy] = useState(false);
  const [isDone, setDone] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const isOpen = candidate === null || candidate.state === 'open';
  const isStale = (candidate?.since.length ?? 0) > 0;
  const send = (call: Promise<unknown>, isPublishing: boolean): void => {
    setBusy(true);
    setProblem(undefined);
    call
      .then(
        () => {
          setDone(isPublishing);
          setAsking(false);
          onDecided();
        },
        (error: unknown) => {
          setProblem(problemOf(error));
          onDecided();
        },
      )
      .finally(() => setBusy(false));
  };
  if (publishedId === plan.id) {
    return isDone ? (
      <Notice tone="well" title={texts.published} isNews>
        <div>
          <ButtonLink to={`/yards/${yardId}/week`}>{texts.toWeek}</ButtonLink>
        </div>
      </Notice>
    ) : null;
  }
  const publish = (): void =>
    send(
      asked(
        api.POST('/api/v1/yards/{yardId}/plans/{id}/publish', {
          params: { path: { yardId, id: plan.id } },
        }),
      ),
      true,
    );
  const discard = (): void =>
    send(
      asked(
        api.POST('/api/v1/yards/{yardId}/candidates/{planId}/discard', {
          params: { path: { yardId, planId: plan.id } },
        }),
      ),
      false,
    );
  return (
    <Stack>
      {candidate !== null && candidate.state !== 'open' && (
        <Notice title={texts.state[candidate.state]} />
      )}
      <Row>
        {isOpen && (
          <Button kind="do" disabled={isStale} onPress={() => setAsking(true)}>
            {texts.publish}
          </Button>
        )}
        {candidate?.state === 'open' && (
          <Button isBusy={isBusy} onPress={discard}>
            {texts.discard}
          </Button>
        )}
        {candidate?.state === 'open' && <span class={css['soft']}>{texts.discardHint}</span>}
      </Row>
      {!isAsking && <ProblemNotice problem={problem} />}
      {isAsking && (
        <Dialog title={texts.publishTitle} onClose={() => setAsking(false)}>
          <p>{texts.publishAll}</p>
          {data.difference !== null && data.difference.fromPlanId === publishedId && (
            <p>{texts.publishFor(data.difference.people.map(({ name }) => name))}</p>
          )}
          <ProblemNotice problem={problem} />
          <Row>
            <Button kind="do" isBusy={isBusy} onPress={publish}>
              {texts.publish}
            </Button>
            <Button onPress={() => setAsking(false)}>{common.cancel}</Button>
          </Row>
        </Dialog>
      )}
    </Stack>
  );
}
