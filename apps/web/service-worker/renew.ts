import { keepPush, openedFor, pushOf } from './owner.ts';

declare const self: ServiceWorkerGlobalScope;

/**
 * The browser has given up the address that notices came to. Whoever it was for gets a fresh one, as
 * long as it is they who are signed in here: without this, windows would open and shut in silence.
 */
export async function renew(): Promise<void> {
  const owner = await openedFor();
  const old = owner === null ? null : await pushOf(owner.accountId);
  if (owner === null || old === null) return;
  const me = await ask('GET', 'me');
  if (me['id'] !== owner.accountId) return;
  const proof = { 'x-csrf-token': String(me['csrf']) };
  const { publicKey } = await ask('GET', 'push-key');
  const { pushManager } = self.registration;
  const made = await pushManager.subscribe({
    userVisibleOnly: true,
    applicationServerKey: String(publicKey),
  });
  const { endpoint, keys } = made.toJSON();
  let id: string;
  try {
    id = String((await ask('POST', 'push-subscriptions', proof, { endpoint, keys }))['id']);
    await keepPush(owner.accountId, id);
  } catch (error) {
    await made.unsubscribe();
    throw error;
  }
  // Gone from the browser it is dead: the service strikes it off at the next sending, if not now.
  if (id !== old) {
    await ask('DELETE', `push-subscriptions/${old}`, proof).catch(() => undefined);
  }
}

async function ask(
  method: string,
  path: string,
  headers: Readonly<Record<string, string>> = {},
  body?: object,
): Promise<Readonly<Record<string, unknown>>> {
  const answer = await fetch(`/api/v1/${path}`, {
    method,
    headers: body === undefined ? headers : { ...headers, 'content-type': 'application/json' },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  if (!answer.ok) throw new Error(`${method} ${path} was answered with ${String(answer.status)}`);
  const told: unknown = answer.status === 204 ? {} : await answer.json();
  return typeof told === 'object' && told !== null ? { ...told } : {};
}
