import { afterEach, describe, expect, test, vi } from 'vitest';
import { openPasswordReset } from '#persistence/access/accounts.ts';
import { asAccount } from '#persistence/client.ts';
import { withDefaults } from '../../../apps/api/src/platform/config/defaults.ts';
import { LimitStore } from '../../../apps/api/src/platform/limits/limit-store.ts';
import { SignInLimits } from '../../../apps/api/src/platform/limits/sign-in-limits.ts';
import { Throttled } from '../../../apps/api/src/platform/limits/throttled.ts';
import { testPassword } from '../../support/api.ts';
import { freePort } from '../../support/npm-start.ts';
import { people, smallYardApi } from '../../support/small-yard-api.ts';
import { ask, posted, type Sent, strictApi } from './ask.ts';

const { database } = smallYardApi();
const attempts = 3;
const strict = strictApi(database, { signInAttempts: attempts, trustProxy: 1 });

/** From an address of its own, as a proxy in front tells it. */
const signIn = (from: string, email: string, password = 'not the password'): Promise<Sent> =>
  ask(`${strict.url}/api/v1/sessions`, posted({ email, password }, { 'x-forwarded-for': from }));

describe('signing in', () => {
  test('has so many attempts, whether or not there is such an account', async () => {
    for (const [from, email] of [
      ['192.0.2.1', people.builder],
      ['192.0.2.2', 'nobody@yard.test'],
    ]) {
      for (let n = 0; n < attempts; n += 1) {
        expect(await signIn(from, email)).toMatchObject({
          status: 401,
          code: 'access.credentials',
        });
      }
      // The right password opens nothing either, or the limit would be no limit.
      const refused = await signIn(from, email, testPassword);
      expect(refused).toMatchObject({ status: 429, code: 'access.often' });
      expect(refused.headers.get('retry-after')).toBe('30');
      expect(refused.text).toContain('Wait 30 seconds');
    }
  });

  test('counts attempts that come at once', async () => {
    const all = Array.from({ length: 20 }, () => signIn('192.0.2.3', people.owner));
    const statuses = (await Promise.all(all)).map(({ status }) => status);
    expect(statuses.filter((status) => status === 401)).toHaveLength(attempts);
    expect(statuses.filter((status) => status === 429)).toHaveLength(20 - attempts);
  });

  test('counts those of GraphQL, and says so in the same words', async () => {
    const one = (n: number) =>
      `a${String(n)}: signIn(input: {email: "graph@yard.test", password: "not the password"}) { __typename }`;
    const query = `mutation { ${Array.from({ length: 5 }, (_, n) => one(n)).join(' ')} }`;
    const send = () =>
      ask(`${strict.url}/graphql`, posted({ query }, { 'x-forwarded-for': '192.0.2.4' }));
    for (let n = 0; n < attempts; n += 1) {
      // Mutations run one after the other, and none after one that failed.
      const { text } = await send();
      expect(text.match(/"code":"[\w.]+"/g)).toEqual(['"code":"access.credentials"']);
    }
    const answer = await send();
    expect(answer.code).toBe('access.often');
    expect(answer.text).toContain('"retryAfter":30');
    expect(answer.headers.get('retry-after')).toBe('30');
  });

  test('is not shut to whom it belongs by guesses from elsewhere', async () => {
    const [home, elsewhere] = ['198.51.100.1', '198.51.100.2'];
    expect((await signIn(home, people.foreman, testPassword)).status).toBe(201);
    for (let n = 0; n <= attempts; n += 1) await signIn(elsewhere, people.foreman);
    expect((await signIn(elsewhere, people.foreman, testPassword)).status).toBe(429);
    expect((await signIn('198.51.100.3', people.foreman, testPassword)).status).toBe(429);
    expect((await signIn(home, people.foreman, testPassword)).status).toBe(201);
    // Nor does that give the others more.
    expect((await signIn(elsewhere, people.foreman)).status).toBe(429);
  });

  test('is open again from where a mailed link was used', async () => {
    const [shutOut, guesser] = ['198.51.100.7', '198.51.100.8'];
    for (let n = 0; n <= attempts; n += 1) await signIn(guesser, people.owner);
    expect((await signIn(shutOut, people.owner, testPassword)).status).toBe(429);
    const where = { email: people.owner };
    const { id } = await database.owner.account.findUniqueOrThrow({ where });
    const token = await asAccount(database.service, id, (tx) => openPasswordReset(tx, id));
    const set = posted({ token, password: testPassword }, { 'x-forwarded-for': shutOut });
    const path = '/api/v1/password-resets/complete';
    expect((await ask(`${strict.url}${path}`, set)).status).toBe(204);
    expect((await signIn(shutOut, people.owner, testPassword)).status).toBe(201);
    // From here on it has a count of its own, and the guesses go on beside it.
    for (let n = 0; n <= attempts; n += 1) await signIn(guesser, people.owner);
    expect((await signIn(guesser, people.owner, testPassword)).status).toBe(429);
    expect((await signIn(shutOut, people.owner, testPassword)).status).toBe(201);
  });

  test('is counted by address over all accounts; signing in to an own one clears nothing', async () => {
    const from = '203.0.113.1';
    const statuses: number[] = [];
    for (let n = 0; n < 10 * attempts + 2; n += 1) {
      if (n % 5 === 0) await signIn(from, people.stranger, testPassword);
      statuses.push((await signIn(from, `victim-${String(n)}@yard.test`)).status);
    }
    const [allowed, refused] = [statuses.indexOf(429), statuses.slice(statuses.indexOf(429))];
    expect(allowed).toBe(10 * attempts);
    expect(new Set(refused)).toEqual(new Set([429]));
  });

  test('leaves neither addresses nor e-mails in the table', async () => {
    const rows = await database.owner.rateLimit.findMany();
    expect(rows.length).toBeGreaterThan(10);
    expect(rows.map(({ key }) => key).join(' ')).not.toMatch(/yard\.test|192\.0\.2|198\.51|203\.0/);
  });
});

describe('the limits', () => {
  const stores: LimitStore[] = [];
  afterEach(async () => {
    vi.useRealTimers();
    await Promise.all(stores.splice(0).map((store) => store.onApplicationShutdown()));
  });
  const limitsOver = (databaseUrl: string): SignInLimits => {
    const config = withDefaults({ databaseUrl, signInAttempts: attempts });
    const store = new LimitStore(config);
    stores.push(store);
    return new SignInLimits(store, config);
  };
  /** Seconds to wait; 0 where the attempt may be made. */
  const waitOf = async (work: Promise<void>): Promise<number> => {
    try {
      await work;
      return 0;
    } catch (error) {
      if (error instanceof Throttled) return error.retryAfterSeconds;
      throw error;
    }
  };

  test('back off twice as long each time, to a quarter of an hour, and forget after a quiet day', async () => {
    vi.useFakeTimers({ toFake: ['Date'] });
    const limits = limitsOver(database.serviceUrl);
    const waits: number[] = [];
    const useUp = async (): Promise<void> => {
      for (let n = 0; n < attempts; n += 1)
        expect(await waitOf(limits.attempt('slow@yard.test', '192.0.2.9'))).toBe(0);
      const wait = await waitOf(limits.attempt('slow@yard.test', '192.0.2.9'));
      expect(await waitOf(limits.attempt('slow@yard.test', '192.0.2.9'))).toBe(wait);
      waits.push(wait);
      vi.setSystemTime(Date.now() + wait * 1000 + 1);
    };
    for (let n = 0; n < 7; n += 1) await useUp();
    expect(waits).toEqual([30, 60, 120, 240, 480, 900, 900]);
    vi.setSystemTime(Date.now() + 24 * 60 * 60 * 1000);
    await useUp();
    expect(waits.at(-1)).toBe(30);
  });

  test('are one for all processes of the service', async () => {
    const [one, other] = [limitsOver(database.serviceUrl), limitsOver(database.serviceUrl)];
    for (let n = 0; n < attempts; n += 1) {
      expect(await waitOf((n % 2 === 0 ? one : other).attempt('two@yard.test', '192.0.2.8'))).toBe(
        0,
      );
    }
    expect(await waitOf(one.attempt('two@yard.test', '192.0.2.8'))).toBe(30);
    expect(await waitOf(other.attempt('two@yard.test', '192.0.2.8'))).toBeGreaterThan(28);
  });

  test('hold in each process while their store is gone: nobody guesses for free, nobody is shut out', async () => {
    const nowhere = `postgresql://nobody:x@127.0.0.1:${String(await freePort())}/none`;
    const limits = limitsOver(nowhere);
    for (let n = 0; n < attempts; n += 1) {
      expect(await waitOf(limits.attempt('down@yard.test', '192.0.2.7'))).toBe(0);
    }
    expect(await waitOf(limits.attempt('down@yard.test', '192.0.2.7'))).toBe(30);
    expect(await waitOf(limits.attempt('other@yard.test', '192.0.2.7'))).toBe(0);
    await limits.succeeded('other@yard.test', '192.0.2.7');
  });

  test('also count what gives no account, and mails asked for', async () => {
    const limits = limitsOver(database.serviceUrl);
    for (let n = 0; n < 10 * attempts; n += 1) await limits.attempt(null, '2001:db8::1');
    // Another address of the same customer's network.
    expect(await waitOf(limits.attempt(null, '2001:db8::ffff'))).toBe(30);
    expect(await waitOf(limits.attempt(null, '2001:db8:0:1::1'))).toBe(0);
    for (let n = 0; n < 20; n += 1) await limits.mailed('192.0.2.6');
    expect(await waitOf(limits.mailed('192.0.2.6'))).toBe(30);
  });

  test('also count the invitations that an account mails, over all of its yards', async () => {
    const limits = limitsOver(database.serviceUrl);
    const [busy, other] = [crypto.randomUUID(), crypto.randomUUID()];
    for (let n = 0; n < 120; n += 1) await limits.invited(busy);
    const wait = await waitOf(limits.invited(busy));
    expect(wait).toBeGreaterThan(3_500);
    expect(wait).toBeLessThanOrEqual(3_600);
    expect(await waitOf(limits.invited(other))).toBe(0);
  });
});
