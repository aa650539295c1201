import { createECDH, randomBytes } from 'node:crypto';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { testApi, testPassword } from '../support/api.ts';
import { testScreens } from '../support/browser.ts';
import { testDatabase } from '../support/database.ts';
import { makeYard } from '../support/plan-runs.ts';
import { publishPlan } from '../support/published-plan.ts';
import { twoBoats } from '../support/two-boats.ts';
import { type Held, held, shown } from './shared-phone/held.ts';
import { givenUp, givenUpUnheard, listening, pushing, standing } from './shared-phone/notices.ts';

/** One telephone lies in the yard's office, and goes from hand to hand: Bram's first, then Anke's. */
const database = testDatabase();
const api = testApi(database);
const screens = testScreens(api);
const emailOf = (name: string): string => `${name}@yard.test`;
const phone = { width: 360 } as const;
/** Not to time anything. */
const soon = { timeout: 30_000 } as const;
const now = '/yards/small/now';
/** Names that only Bram is shown: in the bar, and his account. */
const ofBram = /\bbram\b/i;

beforeAll(async () => {
  for (const name of ['ines', 'bram', 'anke']) await api.addAccount(emailOf(name));
  const token = await api.signIn(emailOf('ines'));
  await makeYard(api, twoBoats(new Date().toISOString().slice(0, 10)), token);
  await publishPlan(database, 'small');
});

const accountOf = async (name: string): Promise<string> =>
  (await database.owner.account.findUniqueOrThrow({ where: { email: emailOf(name) } })).id;

/** Bram's day: he has read what there is for him to do, and the device keeps it. */
async function usedByBram(): Promise<Page> {
  const page = await screens.signedIn(emailOf('bram'), phone);
  await page.goto(now);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  const bram = await accountOf('bram');
  await expect
    .poll(
      async () => (await held(page)).readings.filter((one) => one.startsWith(bram)).length,
      soon,
    )
    .toBeGreaterThan(2);
  expect(await shown(page)).toMatch(ofBram);
  return page;
}

/** Nothing that was read for somebody else than `owner` lies on the device. */
function expectNothingBut(
  owner: string | null,
  { openedFor, readings, cached, stores }: Held,
): void {
  expect(openedFor).toBe(owner);
  expect(readings.filter((one) => owner === null || !one.startsWith(owner))).toEqual([]);
  // What the service says is in no cache at all.
  expect(cached.filter((path) => path !== '/' && !path.startsWith('/assets/'))).toEqual([]);
  expect(stores).not.toMatch(ofBram);
}

/** Of the door; a page of somebody's account has fields for passwords too. */
const signInButton = (page: Page) => page.getByRole('button', { name: /^sign in$/i });

const signInThere = async (page: Page, name: string): Promise<void> => {
  await page.getByLabel(/e-mail/i).fill(emailOf(name));
  await page.getByLabel(/^password/i).fill(testPassword);
  await signInButton(page).click();
};

describe('a shared telephone', () => {
  test('forgets whoever signs out', async () => {
    const page = await usedByBram();
    await page.goto('/account');
    await page.getByRole('button', { name: 'Sign out', exact: true }).click();
    await signInButton(page).waitFor();
    expectNothingBut(null, await held(page));
    expect(await shown(page)).not.toMatch(ofBram);
    // Neither the way back nor a network that is gone brings anything of him.
    await page.goBack();
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(await shown(page)).not.toMatch(ofBram);
    await page.context().setOffline(true);
    await page.goto(now);
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(await shown(page)).not.toMatch(ofBram);
    expectNothingBut(null, await held(page));
  });

  test('shows the next person nothing of the one before', async () => {
    const page = await usedByBram();
    await page.goto('/account');
    await page.getByRole('button', { name: 'Sign out', exact: true }).click();
    await signInThere(page, 'anke');
    await page.getByRole('link', { name: 'anke' }).waitFor();
    await page.goto(now);
    const anke = await accountOf('anke');
    await expect.poll(async () => (await held(page)).readings.length, soon).toBeGreaterThan(2);
    expectNothingBut(anke, await held(page));
    expect(await page.getByRole('banner').innerText()).not.toMatch(ofBram);
    await page.context().setOffline(true);
    await page.reload();
    await page.getByRole('link', { name: 'anke' }).waitFor();
    expect(await page.getByRole('banner').innerText()).not.toMatch(ofBram);
  });

  test('that was not signed out is the next person’s as soon as they sign in', async () => {
    const page = await usedByBram();
    await screens.signIn(page.context(), emailOf('anke'));
    await page.reload();
    await page.getByRole('link', { name: 'anke' }).waitFor();
    const anke = await accountOf('anke');
    await expect.poll(async () => (await held(page)).readings.length, soon).toBeGreaterThan(2);
    expectNothingBut(anke, await held(page));
  });

  test('is the next person’s in every page of its browser, once they sign in in one of them', async () => {
    const page = await usedByBram();
    const beside = await screens.beside(page);
    await beside.goto('/account');
    await beside.getByRole('button', { name: 'Sign out', exact: true }).click();
    await signInButton(page).waitFor();
    expect(await shown(page)).not.toMatch(ofBram);
    await signInButton(beside).waitFor();
    await signInThere(beside, 'anke');
    // Nobody touches the first page.
    await page.getByRole('link', { name: 'anke' }).waitFor();
    expect(await page.getByRole('banner').innerText()).not.toMatch(ofBram);
    await expect.poll(async () => (await held(page)).readings.length, soon).toBeGreaterThan(2);
    expectNothingBut(await accountOf('anke'), await held(page));
  });

  test('does nothing for whoever signed in behind the back of a page, and shows them theirs', async () => {
    const claims = () => database.owner.claim.count({ where: { yardId: 'small' } });
    const before = await claims();
    const page = await usedByBram();
    await screens.signIn(page.context(), emailOf('anke'));
    await page
      .getByRole('button', { name: /^Claim/ })
      .first()
      .click();
    await page.getByRole('link', { name: 'anke' }).waitFor();
    await expect.poll(async () => (await held(page)).readings.length, soon).toBeGreaterThan(2);
    const { queue } = await held(page);
    const bram = await accountOf('bram');
    expect(queue.every((one) => one.startsWith(bram))).toBe(true);
    expect(await claims()).toBe(before);
    expect(await shown(page)).not.toMatch(/not sent/i);
  });

  test('covers the page of whoever’s session has ended, and forgets what it held', async () => {
    const page = await usedByBram();
    await database.owner.session.deleteMany({ where: { accountId: await accountOf('bram') } });
    await page.reload();
    await signInButton(page).waitFor();
    expect(await shown(page)).not.toMatch(ofBram);
    expectNothingBut(null, await held(page));
    await signInThere(page, 'anke');
    await page.getByRole('link', { name: 'anke' }).waitFor();
    expect(await page.getByRole('banner').innerText()).not.toMatch(ofBram);
    await expect.poll(async () => (await held(page)).readings.length, soon).toBeGreaterThan(0);
    expectNothingBut(await accountOf('anke'), await held(page));
  });

  test('does not sign anybody out that the service still lets in, and says so', async () => {
    const page = await usedByBram();
    await page.goto('/account');
    const out = page.getByRole('button', { name: 'Sign out', exact: true });
    await out.waitFor();
    await page.context().setOffline(true);
    await out.click();
    await page.getByText('The yard cannot be reached').first().waitFor();
    expect((await held(page)).openedFor).toBe(await accountOf('bram'));
  });

  test('keeps what is not sent yet for the one who did it, and sends it for nobody else', async () => {
    const bram = await accountOf('bram');
    const claims = () => database.owner.claim.count({ where: { yardId: 'small' } });
    const before = await claims();
    const page = await usedByBram();
    await page.context().setOffline(true);
    await page
      .getByRole('button', { name: /^Claim/ })
      .first()
      .click();
    await expect.poll(async () => (await held(page)).queue.length, soon).toBeGreaterThan(0);
    const { queue } = await held(page);
    expect(queue.every((one) => one.startsWith(bram))).toBe(true);

    // His session ends before the network is back.
    await database.owner.session.deleteMany({ where: { accountId: bram } });
    const sent: string[] = [];
    page.on('request', (request) => {
      if (request.method() === 'POST') sent.push(new URL(request.url()).pathname);
    });
    await screens.signIn(page.context(), emailOf('anke'));
    await page.context().setOffline(false);
    await page.reload();
    await page.getByRole('link', { name: 'anke' }).waitFor();
    await expect.poll(async () => (await held(page)).readings.length, soon).toBeGreaterThan(2);
    expect((await held(page)).queue).toEqual(queue);
    expect(sent.filter((path) => /reports|claims|snags/.test(path))).toEqual([]);
    expect(await claims()).toBe(before);
    expect(await shown(page)).not.toMatch(/not sent/i);

    await screens.signIn(page.context(), emailOf('bram'));
    await page.reload();
    await expect.poll(async () => (await held(page)).queue, soon).toEqual([]);
    expect(await claims()).toBe(before + 1);
  });
});

describe('a notification', () => {
  test('is shown to whoever it is for, and to nobody else who has the telephone then', async () => {
    const page = await usedByBram();
    const titles = await listening(page);
    const deliver = await pushing(page, screens.url);
    const push = (accountId: string, title: string): Promise<void> =>
      deliver({ accountId, yardId: 'small', title, body: 'It opens.' });
    await push(await accountOf('anke'), 'for Anke');
    await push(await accountOf('bram'), 'for Bram');
    await expect.poll(titles, soon).toEqual(['for Bram']);

    await page.goto('/account');
    await page.getByRole('button', { name: 'Sign out', exact: true }).click();
    await signInButton(page).waitFor();
    await push(await accountOf('bram'), 'for Bram, who has left');
    await signInThere(page, 'anke');
    await page.getByRole('link', { name: 'anke' }).waitFor();
    await push(await accountOf('anke'), 'for Anke, who has it now');
    await expect.poll(titles, soon).toEqual(['for Bram', 'for Anke, who has it now']);
  });

  test('is taken away once it is over, or somebody else has the telephone', async () => {
    const bram = await accountOf('bram');
    const rungAt = new Date();
    const alarm = { yardId: 'small', kind: 'opens', state: 'rung', rungAt, dueAt: rungAt };
    const { id: open } = await database.owner.alarm.create({
      data: { ...alarm, key: 'opens:test', audience: ['bram'], words: 'It opens.' },
    });
    const page = await screens.signedIn(emailOf('bram'), phone);
    const closed = await standing(page, 'small', [
      [open, bram],
      ['noted on the other telephone', bram],
      ['for Anke', await accountOf('anke')],
    ]);
    await page.goto(now);
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    await page.reload();
    await expect.poll(closed, soon).toEqual(['for Anke', 'noted on the other telephone']);
    await page.goto('/account');
    await page.getByRole('button', { name: 'Sign out', exact: true }).click();
    await signInButton(page).waitFor();
    await expect.poll(closed, soon).toContain(open);
  });

  test.for([
    ['when the browser has given up the one before', false],
    ['as soon as a page is opened, where the worker could not see to it', true],
  ] as const)('goes to a fresh address %s', async ([, isUnheard]) => {
    const pair = createECDH('prime256v1');
    const p256dh = pair.generateKeys().toString('base64url');
    const keys = { p256dh, auth: randomBytes(16).toString('base64url') };
    const addressOf = (name: string) => ({ endpoint: `https://push.example.com/${name}`, keys });
    await database.owner.pushSubscription.deleteMany();
    const token = await api.signIn(emailOf('bram'));
    const old = await api.rest('POST', '/push-subscriptions', { token, body: addressOf('old') });
    expect(old).toMatchObject({ status: 201 });
    const page = await usedByBram();
    const kept = `${await accountOf('bram')} ${String(old.body.id)}`;
    if (isUnheard) {
      await givenUpUnheard(page, kept, addressOf('new'));
      await page.reload();
    } else await givenUp(page, kept, addressOf('new'));
    const addresses = async (): Promise<readonly string[]> => {
      const where = { accountId: await accountOf('bram') };
      const rows = await database.owner.pushSubscription.findMany({ where });
      return rows.map(({ endpoint }) => endpoint);
    };
    await expect.poll(addresses, soon).toEqual([addressOf('new').endpoint]);
  });
});
