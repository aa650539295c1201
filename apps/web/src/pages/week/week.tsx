import { useEffect, useMemo, useRef } from 'preact/hooks';
import { api, asked } from '../../api/client.ts';
import { useResource } from '../../api/resource.ts';
import { useTitle } from '../../frame/title.ts';
import { useYard } from '../../frame/yard.tsx';
import { Busy, ButtonLink, Notice, ProblemNotice, Stack } from '../../looks/looks.tsx';
import { week as texts } from '../../texts/week.ts';
import { useShown } from './address.ts';
import { changesPicture } from './lives.ts';
import { putOut } from './lit.ts';
import { type Model, modelOf } from './model.ts';
import { Shown } from './shown.tsx';

/** The week around the state of the films. */
export default function Week() {
  const { id: yardId } = useYard();
  const [shown, show] = useShown();
  const { plan, from } = shown;
  useTitle(texts.title);
  useEffect(() => putOut, []);
  const query = { days: 7, ...(from === null ? {} : { from }) };
  const picture = useResource(
    `picture ${yardId} ${plan ?? ''} ${from ?? ''}`,
    (signal) =>
      asked(
        plan === null
          ? api.GET('/api/v1/yards/{yardId}/published-plan/picture', {
              params: { path: { yardId }, query },
              signal,
            })
          : api.GET('/api/v1/yards/{yardId}/plans/{id}/picture', {
              params: { path: { yardId, id: plan }, query },
              signal,
            }),
      ),
    { yardId, on: changesPicture },
  );
  const read = useMemo(() => picture.data && modelOf(picture.data), [picture.data]);
  // While other days of the plan are read, those from which they were asked for stay.
  const last = useRef<{ readonly plan: string | null; readonly model: Model }>(undefined);
  if (read !== undefined) last.current = { plan, model: read };
  const kept = last.current?.plan === plan ? last.current.model : undefined;
  const model = read ?? kept;
  if (model !== undefined) {
    return (
      <>
        <ProblemNotice problem={picture.problem} again={picture.again} />
        <Shown model={model} shown={shown} show={show} isBusy={read === undefined} />
      </>
    );
  }
  const { problem } = picture;
  if (problem?.code === 'record.missing') return <NoPlan isAsked={plan !== null} />;
  return (
    <Stack>
      <h1>{texts.title}</h1>
      {problem === undefined ? <Busy /> : <ProblemNotice problem={problem} again={picture.again} />}
    </Stack>
  );
}

function NoPlan({ isAsked }: { readonly isAsked: boolean }) {
  const { id: yardId } = useYard();
  return (
    <Stack>
      <h1>{texts.title}</h1>
      <Notice title={isAsked ? texts.gone : texts.noPlan}>
        <p>{texts.noPlanCure}</p>
        <div>
          <ButtonLink kind="do" to={`/yards/${yardId}/plans`}>
            {texts.toPlans}
          </ButtonLink>
        </div>
      </Notice>
    </Stack>
  );
}
