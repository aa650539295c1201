import { api, asked } from '../api/client.ts';
import { dropPush, pushOf, subscribePush } from './push.ts';
import { person } from './session.ts';

/**
 * `missing`: the browser has no notifications. `install-first`: it has them for what was put on
 * the home screen. `refused`: whoever has the device said no, which only its settings take back.
 */
export type NotificationState = 'on' | 'off' | 'refused' | 'install-first' | 'missing';

/** What the browser lets a page do, before anybody is asked. */
function allowed(): Exclude<NotificationState, 'on'> {
  const has = 'Notification' in globalThis && 'PushManager' in globalThis;
  if (!has || !('serviceWorker' in navigator)) {
    // Only where a page can stand on the home screen is there such a property.
    const standalone: unknown = Reflect.get(navigator, 'standalone');
    return standalone === false ? 'install-first' : 'missing';
  }
  return Notification.permission === 'denied' ? 'refused' : 'off';
}

/** Whether this device takes notifications for whoever is signed in. */
export async function notificationsOfThisDevice(): Promise<NotificationState> {
  const account = person.peek();
  const state = allowed();
  if (state !== 'off' || !account) return state;
  const id = await pushOf(account.id);
  if (id === null || Notification.permission !== 'granted') return 'off';
  try {
    // A push service that says that an address is gone has it struck off the list.
    const { items } = await asked(api.GET('/api/v1/push-subscriptions'));
    return items.some((one) => one.id === id) ? 'on' : 'off';
  } catch {
    return 'on';
  }
}

/** Asks for the permission, so only ever from a press; throws a `Problem` where the service refuses. */
export async function switchNotificationsOn(): Promise<NotificationState> {
  const account = person.peek();
  const state = allowed();
  if (state !== 'off' || !account) return state;
  if ((await Notification.requestPermission()) !== 'granted') return allowed();
  await subscribePush(account.id);
  return 'on';
}

export async function switchNotificationsOff(): Promise<NotificationState> {
  await dropPush();
  return allowed();
}
