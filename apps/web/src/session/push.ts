import { api, asked } from '../api/client.ts';
import { inTurn } from '../offline/in-turn.ts';
import { database, openedFor } from '../offline/store.ts';

/**
 * The subscription of this browser as the service knows it, kept on the device: whose it is, and
 * its id there. The address itself is a secret that the service does not tell again.
 */
interface DevicePush {
  readonly accountId: string;
  readonly id: string;
}

const name = 'push';

async function devicePush(): Promise<DevicePush | null> {
  const kept = await (await database()).get('device', name);
  if (kept === undefined) return null;
  const [accountId, id] = kept.split(' ');
  return { accountId, id };
}

const workerOfThisPage = async (): Promise<ServiceWorkerRegistration | undefined> =>
  'serviceWorker' in navigator ? navigator.serviceWorker.getRegistration() : undefined;

/** Browsers without push have registrations without a manager. */
const managerOf = (worker: ServiceWorkerRegistration | undefined): PushManager | undefined =>
  worker !== undefined && 'pushManager' in worker ? worker.pushManager : undefined;

/** The id at the service of this browser's subscription for the account; null: there is none. */
export async function pushOf(accountId: string): Promise<string | null> {
  const known = await devicePush();
  if (known === null || known.accountId !== accountId) return null;
  const manager = managerOf(await workerOfThisPage());
  const here = await manager?.getSubscription();
  return here ? known.id : null;
}

/** Subscribes this browser for the account under a fresh address; gives its id. Throws where it cannot. */
export async function subscribePush(accountId: string): Promise<string> {
  const manager = managerOf(await workerOfThisPage());
  if (manager === undefined) throw new Error('this page has no worker that takes notifications');
  const { publicKey } = await asked(api.GET('/api/v1/push-key'));
  await (await manager.getSubscription())?.unsubscribe();
  const made = await manager.subscribe({ userVisibleOnly: true, applicationServerKey: publicKey });
  const { endpoint = '', keys = {} } = made.toJSON();
  try {
    const { id } = await asked(
      api.POST('/api/v1/push-subscriptions', {
        body: { endpoint, keys: { p256dh: keys['p256dh'], auth: keys['auth'] } },
      }),
    );
    await (await database()).put('device', `${accountId} ${id}`, name);
    return id;
  } catch (error) {
    await made.unsubscribe();
    throw error;
  }
}

/** Of several pages, and the worker, one subscribes at a time (`service-worker/renew.ts`). */
const lock = 'curewright-push';

/**
 * The browser has given up the address, and the worker could not get a fresh one when it was told: notices
 * that are wanted would come no more, in silence.
 */
export function renewPush(accountId: string): Promise<void> {
  return inTurn(lock, async () => {
    const known = await devicePush();
    if (known === null || known.accountId !== accountId) return;
    if (!('Notification' in globalThis) || Notification.permission !== 'granted') return;
    const manager = managerOf(await workerOfThisPage());
    if (manager === undefined || (await manager.getSubscription()) !== null) return;
    const id = await subscribePush(accountId);
    // Whoever it is for may have signed out meanwhile.
    if ((await openedFor()) !== accountId) await dropPush();
    // Gone from the browser it is dead: the service strikes it off at the next sending, if not now.
    if (id !== known.id) await strikeOff(known.id).catch(() => undefined);
  });
}

const strikeOff = (id: string) =>
  asked(api.DELETE('/api/v1/push-subscriptions/{id}', { params: { path: { id } } }));

/** No more notifications to this browser, whoever they were for. */
export async function dropPush(): Promise<void> {
  const known = await devicePush();
  if (known === null) return;
  const { id } = known;
  // Gone from the browser the address is dead: the service forgets it at the next sending, if not now.
  await managerOf(await workerOfThisPage())
    ?.getSubscription()
    .then((here) => here?.unsubscribe());
  await (await database()).delete('device', name);
  await strikeOff(id).catch(() => undefined);
}

/** Somebody has signed in: what comes to this browser is not for whoever had it before. */
export async function dropPushOfOthers(accountId: string): Promise<void> {
  const known = await devicePush();
  if (known !== null && known.accountId !== accountId) await dropPush();
}
