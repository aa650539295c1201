import { createECDH, randomBytes } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { pushKeys } from '#host/push-keys.ts';
import { faultsOf, testApi } from '../support/api.ts';
import { createBoss } from '#persistence/queue/boss.ts';
import { push } from '../../apps/worker/src/alarms/push.ts';
import { testDatabase } from '../support/database.ts';
import { type Process, startWorkerProcess, testSecretKey } from '../support/processes.ts';
import { ago, alarmYard } from './alarms/alarm-yard.ts';
import {
  type Pushed,
  type PushStandIn,
  pushStandIn,
  type Receiver,
  receiverOf,
  senderOf,
} from './alarms/push-service.ts';

/** The service, a worker as a process of its own, and what stands in for the browsers' push service. */
const database = testDatabase();
const api = testApi(database, { secretKey: testSecretKey, pushToLocal: true });
let pushService: PushStandIn;
let worker: Process;
let token = '';

const newReceiver = (): Receiver => {
  const pair = createECDH('prime256v1');
  pair.generateKeys();
  return receiverOf({ privateKey: pair.getPrivateKey(), auth: randomBytes(16) });
};
const [phone, tablet, gone] = [newReceiver(), newReceiver(), newReceiver()];

beforeAll(async () => {
  pushService = await pushStandIn();
  for (const name of ['ines', 'bram']) await api.addAccount(`${name}@yard.test`);
  token = await api.signIn('ines@yard.test');
  const made = await api.rest('POST', '/yards', { token, body: alarmYard() });
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
  await api.join('small');
  worker = await startWorkerProcess(database.serviceUrl, { PUSH_CONTACT: 'mailto:me@yard.test' });
}, 150_000);
afterAll(async () => {
  await worker.end('SIGKILL');
  await pushService.close();
});

const post = (path: string, body: unknown) => api.rest('POST', path, { token, body });
const subscribe = (path: string, { keys }: Receiver) =>
  post('/push-subscriptions', {
    endpoint: `${pushService.origin}${path}`,
    expirationTime: null,
    keys,
  });

/** Makes an alarm ring for the foreman, whom nobody's plan keeps from it: its id. */
async function ringFor(part: string): Promise<string> {
  const taskId = `${part}.one`;
  const claim = await post(`/yards/small/tasks/${taskId}/claims`, { crew: ['bram'], at: ago(70) });
  const below = `/yards/small/claims/${String(claim.body.id)}`;
  const override = { reason: 'it was so' };
  expect((await post(`${below}/start`, { at: ago(70), override })).status).toBe(200);
  expect((await post(`${below}/finish`, { at: ago(50) })).status).toBe(200);
  const where = { key: `opens:${part}.two`, state: 'rung' };
  await expect.poll(() => database.owner.alarm.count({ where }), { timeout: 60_000 }).toBe(1);
  return (await database.owner.alarm.findFirstOrThrow({ where })).id;
}

const sentTo = (path: string): Pushed[] => pushService.pushed.filter((one) => one.path === path);
const messageSchema = z.object({ tag: z.string(), title: z.string(), body: z.string() }).loose();
const messageFor = (receiver: Receiver, { body }: Pushed) =>
  messageSchema.parse(JSON.parse(receiver.open(body)));

/** A push service that is out of order for a while. */
const away = Array.from({ length: 9 }, () => 503);

/** No job of the queue is left to do. */
const isQuiet = async (): Promise<boolean> => {
  const rows = await database.owner.$queryRaw<{ open: number }[]>`
    SELECT count(*)::int AS open FROM pgboss.job
    WHERE name = 'push' AND state IN ('created', 'active', 'retry')`;
  return rows[0].open === 0;
};

describe('the stand-in for a push service', () => {
  test('reads the example of RFC 8291 (5)', () => {
    const from = (text: string): Buffer => Buffer.from(text, 'base64url');
    const receiver = receiverOf({
      privateKey: from('q1dXpw3UpT5VOmu_cf_v6ih07Aems3njxI-JWgLcM94'),
      auth: from('BTBZMqHH6r4Tts7J_aSIgg'),
    });
    const body = from(
      'DGv6ra1nlYgDCS1FRnbzlwAAEABBBP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIgDll6e3vCYLocInmYWAmS6T' +
        'lzAC8wEqKK6PBru3jl7A_yl95bQpu6cVPTpK4Mqgkf1CXztLVBSt2Ks3oZwbuwXPXLWyouBWLVWGNWQexSgSxsj_Qulcy4a-fN',
    );
    expect(receiver.open(body)).toBe('When I grow up, I want to be a watermelon');
    expect(() => phone.open(body)).toThrow();
  });
});

describe('a notification', () => {
  test('goes to every browser of whoever is told, encrypted for it alone and signed by the service', async () => {
    const { publicKey } = pushKeys(testSecretKey);
    expect((await api.rest('GET', '/push-key', { token })).body).toEqual({ publicKey });
    for (const [path, receiver] of [
      ['/phone', phone],
      ['/tablet', tablet],
      ['/gone', gone],
    ] as const) {
      const made = await subscribe(path, receiver);
      expect(made).toMatchObject({
        status: 201,
        body: { service: new URL(pushService.origin).host },
      });
    }
    // Once more is the same subscription.
    expect((await subscribe('/phone', phone)).status).toBe(201);
    expect((await api.rest('GET', '/push-subscriptions', { token })).body.items).toHaveLength(3);
    pushService.answer('/gone', 410);
    pushService.answer('/tablet', 503);
    const id = await ringFor('locker');
    await expect.poll(() => sentTo('/tablet').length, { timeout: 60_000 }).toBe(2);
    await expect.poll(isQuiet, { timeout: 60_000 }).toBe(true);

    const [sent] = sentTo('/phone');
    const alarm = await database.owner.alarm.findFirstOrThrow({ where: { id } });
    const message = messageFor(phone, sent);
    const { id: accountId } = await database.owner.account.findFirstOrThrow({
      where: { email: 'ines@yard.test' },
    });
    expect(message).toMatchObject({
      tag: id,
      accountId,
      alarmId: id,
      yardId: 'small',
      kind: 'opens',
      title: 'Small yard',
      body: alarm.words,
    });
    expect(() => tablet.open(sent.body)).toThrow();
    expect(sent.headers).toMatchObject({
      'content-encoding': 'aes128gcm',
      urgency: 'high',
      topic: id.replaceAll('-', ''),
    });
    expect(Number(sent.headers['ttl'])).toBeGreaterThan(60);
    const { publicKey: signer, claims } = senderOf(String(sent.headers['authorization']));
    expect(signer).toBe(publicKey);
    expect(claims).toMatchObject({ aud: pushService.origin, sub: 'mailto:me@yard.test' });
    // RFC 8292, 2: no longer than a day.
    const left = Number(claims['exp']) - Date.now() / 1000;
    expect(left).toBeGreaterThan(0);
    expect(left).toBeLessThanOrEqual(86_400);

    // What was not taken is sent again, and shows once: it has the same tag.
    expect(sentTo('/phone')).toHaveLength(1);
    expect(new Set(sentTo('/tablet').map((one) => messageFor(tablet, one).tag))).toEqual(
      new Set([id]),
    );
    const left2 = await api.rest('GET', '/push-subscriptions', { token });
    expect(z.array(z.object({ lastSentAt: z.string() })).parse(left2.body.items)).toHaveLength(2);
    expect(sentTo('/gone')).toHaveLength(1);
  });

  test('is not sent again once it was shown', async () => {
    pushService.answer('/phone', ...away);
    pushService.answer('/tablet', ...away);
    const id = await ringFor('bench');
    const sent = (): number =>
      [
        ...sentTo('/phone').map((one) => messageFor(phone, one)),
        ...sentTo('/tablet').map((one) => messageFor(tablet, one)),
      ].filter(({ tag }) => tag === id).length;
    await expect.poll(sent, { timeout: 60_000 }).toBeGreaterThan(0);
    const shown = await post(`/yards/small/alarms/${id}/shown`, {});
    expect(shown.body.first).toBe(true);
    const before = sent();
    await expect.poll(isQuiet, { timeout: 60_000 }).toBe(true);
    // None was taken; those under way at that moment came to their end, and nothing was tried again.
    expect(sent() - before).toBeLessThanOrEqual(2);
    expect(sent()).toBeLessThan(2 * away.length);
    pushService.answer('/phone');
    pushService.answer('/tablet');
  });
});

test('a notification that comes too late to be of use is not sent', async () => {
  const boss = createBoss(database.serviceUrl, { role: 'sender', onError: () => undefined });
  const said: string[] = [];
  const { id: subscriptionId } = await database.owner.pushSubscription.findFirstOrThrow({
    where: { endpoint: `${pushService.origin}/phone` },
  });
  const sendRung = async (minutesAgo: number): Promise<number> => {
    const rungAt = new Date(ago(minutesAgo));
    const opensAt = new Date(rungAt.getTime() + 15 * 60_000).toISOString();
    const { id: alarmId } = await database.owner.alarm.create({
      data: {
        ...{ yardId: 'small', key: `opens:${String(minutesAgo)}`, kind: 'opens', state: 'rung' },
        ...{ audience: ['ines'], words: 'It opens.', dueAt: rungAt, rungAt },
        payload: { kind: 'opens', what: 'It', opensAt },
      },
    });
    const before = sentTo('/phone').length;
    await push(
      {
        ...{ prisma: database.service, boss, say: (line) => void said.push(line) },
        ...{ keys: pushKeys(testSecretKey), contact: 'mailto:me@yard.test', toLocal: true },
        rule: { may: { foreman: 'all' } },
      },
      { yardId: 'small', alarmId, memberId: 'ines', subscriptionId },
    );
    return sentTo('/phone').length - before;
  };
  expect(await sendRung(5)).toBe(1);
  expect(await sendRung(100)).toBe(0);
  expect(said).toEqual([`push ${subscriptionId}: of no more use`]);
});

describe('a subscription', () => {
  test.each([
    ['https://10.0.0.1/x', 'endpoint'],
    ['https://metadata.internal/x', 'endpoint'],
    ['ftp://push.example.com/x', 'endpoint'],
  ])('to %s is refused', async (endpoint, path) => {
    const { status, body } = await post('/push-subscriptions', { endpoint, keys: phone.keys });
    expect([status, faultsOf(body)]).toEqual([422, [[path, 'input.field']]]);
  });

  test('needs keys that can be encrypted for', async () => {
    const endpoint = 'https://push.example.com/x';
    const off = Buffer.from(phone.keys.p256dh, 'base64url');
    off[64] ^= 1;
    const keys = { p256dh: off.toString('base64url'), auth: 'AAAA' };
    const { status, body } = await post('/push-subscriptions', { endpoint, keys });
    expect([status, faultsOf(body)]).toEqual([
      422,
      [
        ['keys.p256dh', 'input.field'],
        ['keys.auth', 'input.field'],
      ],
    ]);
  });

  test('goes to the next account that signs in to the browser, and nobody else takes it', async () => {
    const bram = await api.signIn('bram@yard.test');
    const endpoint = `${pushService.origin}/phone`;
    const asBram = (keys: Receiver['keys']) =>
      api.rest('POST', '/push-subscriptions', { token: bram, body: { endpoint, keys } });
    expect((await asBram(tablet.keys)).body.code).toBe('record.exists');
    expect((await asBram(phone.keys)).status).toBe(201);
    const { body } = await api.rest('GET', '/push-subscriptions', { token });
    expect(body.items).toHaveLength(1);
    const [{ id }] = z.array(z.object({ id: z.string() })).parse(body.items);
    const remove = (by: string) => api.rest('DELETE', `/push-subscriptions/${id}`, { token: by });
    expect((await remove(bram)).status).toBe(404);
    expect((await remove(token)).status).toBe(204);
    expect((await remove(token)).status).toBe(404);
  });
});
