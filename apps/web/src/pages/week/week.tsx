import { useSignalEffect } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { api, asked } from '../../api/client.ts';
import { useResource } from '../../api/resource.ts';
import { useTitle } from '../../frame/title.ts';
import { useYard } from '../../frame/yard.tsx';
import { Busy, ButtonLink, Notice, ProblemNotice, Stack } from '../../looks/looks.tsx';
import { week as texts } from '../../texts/week.ts';
import { type Shown as Address, useShown } from './address.ts';
import { putOut } from './lit.ts';
import { type Model, modelOf } from './model.ts';
import { present } from './present.ts';
import { changesPicture, isOutlived } from './reports.ts';
import { Shown } from './shown.tsx';

/** The week around the state of the films. */
export default function Week() {
  const { id: yardId } = useYard();
  const [shown, show] = useShown();
  const { plan, from } = shown;
  useTitle(texts.title);
  useEffect(() => putOut, []);
  const query = { days: 7, ...(from === null ? {} : { from }) };
  const drawn = useRef<Model>(undefined);
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
    { yardId, on: (event) => changesPicture(event, drawn.current) },
  );
  const read = useMemo(() => picture.data && modelOf(picture.data), [picture.data]);
  drawn.current = read;
  useSignalEffect(() => {
    const moment = present.value;
    if (drawn.current !== undefined && isOutlived(drawn.current, moment)) picture.again();
  });
  // While other days of the plan are read, those from which they were asked for stay.
  const last = useRef<{ readonly plan: string | null; readonly model: Model }>(undefined);
  if (read !== undefined) last.current = { plan, model: read };
  const kept = last.current?.plan === plan ? last.current.model : undefined;
  const model = read ?? kept;
  const { problem } = picture;
  // Days that could not be read are read again when they are asked for again.
  const ask = (change: Partial<Address>): void => {
    if (problem !== undefined && change.from === from) picture.again();
    else show(change);
  };
  if (model !== undefined) {
    const other = problem === undefined ? 'coming' : 'unread';
    return (
      <>
        <ProblemNotice problem={problem} again={picture.again} />
        <Shown
          model={model}
          shown={shown}
          show={ask}
          other={read === undefined ? other : undefined}
        />
      </>
    );
  }
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
