import { useState } from 'preact/hooks';
import { api, asked } from '../../api/client.ts';
import { everyPage, useResource } from '../../api/resource.ts';
import { useForm } from '../../form/form.ts';
import { Busy, Button, Notice, Panel, ProblemNotice, Row } from '../../looks/looks.tsx';
import { signOutEverywhere } from '../../session/session.ts';
import { dayAndClock } from '../../show/time.ts';
import { account as texts } from '../../texts/account.ts';
import css from './account.module.css';
import { deviceWords } from './device-words.ts';
import { RemoveButton } from './remove-button.tsx';

/** Every open session of the account, each with a way to end it. */
export function Sessions({ zone }: { readonly zone: string }) {
  const [closed, setClosed] = useState<number>();
  const list = useResource('sessions', (signal) =>
    everyPage((after) =>
      asked(
        api.GET('/api/v1/sessions', {
          params: { query: { first: 100, ...(after === undefined ? {} : { after }) } },
          signal,
        }),
      ),
    ),
  );
  const others = useForm({}, async () => {
    setClosed((await asked(api.DELETE('/api/v1/sessions/others'))).closed);
    list.again();
  });
  const everywhere = useForm({}, signOutEverywhere);
  return (
    <Panel title={texts.sessions}>
      {list.data === undefined && list.problem === undefined && <Busy />}
      <ProblemNotice problem={list.problem} again={list.again} />
      <ul class={css['list']}>
        {list.data?.map(({ id, agent, createdAt, lastSeenAt, secondFactorAt, current }) => (
          <li key={id}>
            <span>
              {deviceWords(agent)} {current && <strong>({texts.thisOne})</strong>}
            </span>
            <span class={css['small']}>
              {texts.opened(dayAndClock(createdAt, zone))},{' '}
              {texts.seen(dayAndClock(lastSeenAt, zone))}
              {secondFactorAt !== null && <>, {texts.shownFactor}</>}
            </span>
            {!current && (
              <RemoveButton
                label={texts.closeOf(deviceWords(agent))}
                words={texts.close}
                remove={async () => {
                  const params = { path: { id } };
                  await asked(api.DELETE('/api/v1/sessions/{id}', { params }));
                  list.again();
                }}
              />
            )}
          </li>
        ))}
      </ul>
      {closed !== undefined && (
        <Notice tone="well" isNews>
          <p>{texts.closed(closed)}</p>
        </Notice>
      )}
      <ProblemNotice problem={others.problem ?? everywhere.problem} />
      <Row>
        <Button isBusy={others.isBusy} onPress={others.submit}>
          {texts.closeOthers}
        </Button>
        <Button kind="harm" isBusy={everywhere.isBusy} onPress={everywhere.submit}>
          {texts.everywhere}
        </Button>
      </Row>
    </Panel>
  );
}
