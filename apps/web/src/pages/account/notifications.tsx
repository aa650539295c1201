import { useEffect, useState } from 'preact/hooks';
import { api, asked } from '../../api/client.ts';
import { useResource } from '../../api/resource.ts';
import { useForm } from '../../form/form.ts';
import { Busy, Button, Panel, ProblemNotice } from '../../looks/looks.tsx';
import {
  type NotificationState,
  notificationsOfThisDevice,
  switchNotificationsOff,
  switchNotificationsOn,
} from '../../session/notifications.ts';
import { dayAndClock } from '../../show/time.ts';
import { account as texts } from '../../texts/account.ts';
import css from './account.module.css';
import { deviceWords } from './device-words.ts';
import { RemoveButton } from './remove-button.tsx';

/** Whether this device tells what cannot wait, and which others do. */
export function Notifications({ zone }: { readonly zone: string }) {
  const [state, setState] = useState<NotificationState>();
  const list = useResource('push subscriptions', (signal) =>
    asked(api.GET('/api/v1/push-subscriptions', { signal })),
  );
  const look = async (): Promise<void> => setState(await notificationsOfThisDevice());
  useEffect(() => void look(), []);
  const changed = (now: NotificationState): void => {
    setState(now);
    list.again();
  };
  const on = useForm({}, async () => changed(await switchNotificationsOn()));
  const off = useForm({}, async () => changed(await switchNotificationsOff()));
  return (
    <Panel title={texts.notifications}>
      {state === undefined ? <Busy /> : <p role="status">{texts.notificationState[state]}</p>}
      <ProblemNotice problem={on.problem ?? off.problem} />
      {state === 'off' && (
        <div>
          <Button isBusy={on.isBusy} onPress={on.submit}>
            {texts.switchOn}
          </Button>
        </div>
      )}
      {state === 'on' && (
        <div>
          <Button isBusy={off.isBusy} onPress={off.submit}>
            {texts.switchOff}
          </Button>
        </div>
      )}
      {list.data !== undefined && list.data.items.length > 0 && (
        <>
          <h3>{texts.otherDevices}</h3>
          <ul class={css['list']}>
            {list.data.items.map(({ id, agent, lastSentAt }) => (
              <li key={id}>
                <span>{deviceWords(agent)}</span>
                <span class={css['small']}>
                  {lastSentAt === null
                    ? texts.neverSent
                    : texts.lastSent(dayAndClock(lastSentAt, zone))}
                </span>
                <RemoveButton
                  label={texts.removeOf(deviceWords(agent))}
                  remove={async () => {
                    const params = { path: { id } };
                    await asked(api.DELETE('/api/v1/push-subscriptions/{id}', { params }));
                    list.again();
                    await look();
                  }}
                />
              </li>
            ))}
          </ul>
        </>
      )}
    </Panel>
  );
}
