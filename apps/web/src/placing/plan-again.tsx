import { useLocation } from 'preact-iso/router';
import { useRef, useState } from 'preact/hooks';
import { api, asked, once } from '../api/client.ts';
import { type Problem, problemOf } from '../api/problem.ts';
import { Sending } from '../form/sending.ts';
import { useYard } from '../frame/yard.tsx';
import { Button, ProblemNotice } from '../looks/looks.tsx';
import { placing as texts } from '../texts/placing.ts';

/** A plan of the yard as it is now, and to where it is in the making. */
async function planAgain(yardId: string, isPublished: boolean, key: string): Promise<string> {
  const path = { yardId };
  // Where people work to a plan, one that disturbs them as little as can be.
  const runId = isPublished
    ? (await asked(api.POST('/api/v1/yards/{yardId}/candidates', { params: { path } }))).runId
    : (
        await asked(
          api.POST('/api/v1/yards/{yardId}/plan-runs', {
            params: { path },
            headers: once(key),
            body: {},
          }),
        )
      ).id;
  return `/yards/${yardId}/plans/runs/${runId}`;
}

/** Asks for a plan and goes to where it is made; what keeps it from being asked for stands here. */
export function usePlanAgain(isPublished: boolean) {
  const { id: yardId } = useYard();
  const { route } = useLocation();
  const [isBusy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const sending = useRef(new Sending<{ isPublished: boolean }>()).current;
  const ask = (): void => {
    setBusy(true);
    setProblem(undefined);
    sending
      .send({ isPublished }, ({ key }) => planAgain(yardId, isPublished, key))
      .then(route, (error: unknown) => {
        setBusy(false);
        setProblem(problemOf(error));
      });
  };
  return { isBusy, problem, ask };
}

export function PlanAgain({ isPublished }: { readonly isPublished: boolean }) {
  const { isBusy, problem, ask } = usePlanAgain(isPublished);
  return (
    <>
      <div>
        <Button kind="do" isBusy={isBusy} onPress={ask}>
          {texts.planAgain}
        </Button>
      </div>
      <ProblemNotice problem={problem} />
    </>
  );
}
