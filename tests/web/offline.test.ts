import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { shot } from '../support/browser.ts';
import { buildersYard, heron, mailOf, petrel, press, rail, soon } from './builders-yard.ts';

const yard = buildersYard();
const { database, screens, call, stands } = yard;
const phone = { width: 360 } as const;

const dialog = (page: Page) => page.getByRole('dialog');
/** What phones have told this test's yard, in the order in which it was. */
const reports = async (): Promise<readonly (readonly [string, string, unknown])[]> => {
  const rows = await database.owner.report.findMany({
    where: { yardId: yard.id },
    orderBy: { at: 'asc' },
  });
  return rows.map(({ outcome, kind, input }) => [outcome, kind, input]);
};

/** The page can be opened without the service from now on. */
const isInstalled = (page: Page): Promise<boolean> =>
  page.evaluate<boolean>(`navigator.serviceWorker.ready.then(({ active }) => active !== null)`);
const offline = (page: Page, isOffline: boolean): Promise<void> =>
  page.context().setOffline(isOffline);
const unsent = (page: Page, count: number) =>
  page.getByText(
    count === 1 ? '1 thing is not sent yet' : `${String(count)} things are not sent yet`,
  );
const isSent = (page: Page): Promise<void> =>
  soon(() => page.getByText('not sent yet').count()).toBe(0);

test('claim to finish with the line away in the middle, the page killed too: all is sent in order', async () => {
  const page = await screens.signedIn(mailOf('bram'), phone);
  await page.goto(yard.now);
  await page.getByRole('button', { name: 'Claim and start' }).waitFor({ timeout: 40_000 });
  expect(await isInstalled(page)).toBe(true);
  await press(page, 'Claim and start');
  await soon(() => stands(petrel)).toBe('working');

  await offline(page, true);
  // What was read is there: what to weigh, and what can hurt.
  await press(page, 'Mix sheet');
  await dialog(page).getByText('1,056 g').first().waitFor();
  expect(await dialog(page).innerText()).toContain('Keep the lid on.');
  await dialog(page).getByRole('button', { name: 'Close' }).click();
  await press(page, 'More about lay-up');
  await press(page, 'Say how much is left');
  await dialog(page).getByRole('button', { name: 'Less' }).click();
  await dialog(page).getByRole('button', { name: 'Report' }).click();
  await unsent(page, 1).waitFor();
  await shot(page, 'now-offline');
  // The system takes the page away and brings it back.
  const later = await screens.beside(page);
  await page.close();
  await later.goto(yard.now);
  await unsent(later, 1).waitFor();
  await later.getByText(/^As of /).waitFor();
  await press(later, 'Finish');
  await unsent(later, 2).waitFor();
  await press(later, 'Tack test');
  await dialog(later)
    .getByRole('button', { name: /^Still wet/ })
    .click();
  await unsent(later, 3).waitFor();
  expect(await stands(petrel)).toBe('working');
  expect(await reports()).toEqual([]);

  await offline(later, false);
  await isSent(later);
  expect(await stands(petrel)).toBe('done');
  expect(await reports()).toMatchObject([
    ['done', 'progress', { taskId: petrel }],
    ['done', 'finish', { taskId: petrel }],
    ['done', 'tack-test', { taskId: petrel, found: 'still-wet' }],
  ]);
});

test('all of a task is done out of reach: claimed, begun, put aside, gone on with, finished', async () => {
  await yard.finish('cato', petrel);
  await yard.finish('cato', heron);
  const page = await screens.signedIn(mailOf('bram'), phone);
  await page.goto(yard.now);
  await page.getByRole('heading', { name: 'rub down' }).waitFor();
  await offline(page, true);
  const deeds = ['Claim', 'Start', 'Pause', 'Go on', 'Finish'];
  for (const [k, deed] of deeds.entries()) {
    await press(page, deed);
    await unsent(page, k + 1).waitFor();
  }
  await offline(page, false);
  await isSent(page);
  expect(await stands(rail)).toBe('done');
  const told = ['claim', 'start', 'pause', 'resume', 'finish'];
  expect(await reports()).toMatchObject(told.map((kind) => ['done', kind, { taskId: rail }]));
});

test('what is not sent yet can be left out, and the page goes back to how it was', async () => {
  const page = await screens.signedIn(mailOf('anke'), phone);
  await page.goto(yard.now);
  await page.getByRole('button', { name: 'Claim', exact: true }).waitFor();
  await offline(page, true);
  await press(page, 'Claim');
  await page.getByText('claimed by you').waitFor();
  await press(page, 'Do not send: Claimed “lay-up”');
  await page.getByRole('button', { name: 'Claim', exact: true }).waitFor();
  expect(await page.getByRole('button', { name: 'Take it back' }).count()).toBe(0);
  await press(page, 'Claim');
  await unsent(page, 1).waitFor();
  await press(page, 'Take it back');
  await isSent(page);
  await offline(page, false);
  expect(await stands(petrel)).toBe('ready');
  expect(await database.owner.claim.count({ where: { yardId: yard.id } })).toBe(0);
});

test('an answer that got lost does not make a command be done twice, or held', async () => {
  const look = { ...phone, allow: /ERR_CONNECTION_RESET/ };
  const page = await screens.signedIn(mailOf('anke'), look);
  await page.goto(yard.now);
  let lost = 0;
  await page.route('**/claims', async (route) => {
    if (route.request().method() !== 'POST' || lost > 0) return route.fallback();
    lost += 1;
    await route.fetch();
    return route.abort('connectionreset');
  });
  await press(page, 'Claim');
  await soon(() => stands(petrel)).toBe('claimed');
  await isSent(page);
  expect(lost).toBe(1);
  expect(await database.owner.claim.count({ where: { yardId: yard.id } })).toBe(1);
  expect(await database.owner.report.count({ where: { yardId: yard.id, outcome: 'held' } })).toBe(
    0,
  );

  // The same of what is sent later, with others: it may have been done, so nobody is told that it was not.
  await offline(page, true);
  await press(page, 'Give it back');
  await unsent(page, 1).waitFor();
  let isDeaf = true;
  await page.route('**/reports', async (route) => {
    if (route.request().method() !== 'POST' || !isDeaf) return route.fallback();
    await route.fetch();
    return route.abort('connectionreset');
  });
  await offline(page, false);
  await soon(() => stands(petrel)).toBe('ready');
  await press(page, 'Do not send: Gave back “lay-up”');
  await page.getByText('It was sent, and may have arrived').waitFor();
  isDeaf = false;
  // The way back is told; by itself it would be tried again later and later.
  await offline(page, true);
  await offline(page, false);
  await isSent(page);
  expect(await reports()).toMatchObject([['done', 'release', { taskId: petrel }]]);
});

test('what contradicts the yard is held, and says so until the foreman has settled it', async () => {
  const page = await screens.signedIn(mailOf('bram'), phone);
  await page.goto(yard.now);
  await page.getByRole('button', { name: 'Claim', exact: true }).waitFor();
  await offline(page, true);
  await press(page, 'Claim');
  await unsent(page, 1).waitFor();
  await yard.claim('anke', petrel);
  await page.getByRole('button', { name: 'Take it back' }).waitFor();
  await offline(page, false);
  const held = page.getByRole('main').getByText('Waits for the foreman');
  await held.waitFor();
  await page.getByText(/^\d\d:\d\d Claimed “lay-up”$/).waitFor();
  // There is nothing to be taken back of what has not come about.
  expect(await page.getByRole('button', { name: 'Take it back' }).count()).toBe(0);
  await page
    .getByText(/anke holds "lay-up"/)
    .first()
    .waitFor();
  await shot(page, 'now-held');
  const { body } = await call('ines', 'GET', '/reports?outcome=held');
  const [{ id }] = body.items as readonly [{ readonly id: string }];
  const settled = { as: 'dismissed', note: 'Anke was first.' };
  expect((await call('ines', 'POST', `/reports/${id}/settle`, settled)).status).toBe(200);
  await page.getByText('Set aside by the foreman').waitFor();
  await page.getByText('Anke was first.').waitFor();
});

test('a snag waits with its photo', async () => {
  const page = await screens.signedIn(mailOf('bram'), phone);
  await page.goto(yard.now);
  await press(page, 'Snag');
  await offline(page, true);
  await dialog(page).getByLabel('Where it is and how it shows').fill('Bubble by the hinge');
  const background = { r: 20, g: 90, b: 60 };
  const buffer = await sharp({ create: { width: 640, height: 480, channels: 3, background } })
    .png()
    .toBuffer();
  await dialog(page)
    .locator('input[type=file]')
    .setInputFiles([{ name: 'a.png', mimeType: 'image/png', buffer }]);
  await dialog(page).getByRole('img', { name: 'Photo 1' }).waitFor();
  await dialog(page).getByRole('button', { name: 'Raise this snag' }).click();
  await unsent(page, 1).waitFor();
  await page.getByText('1 photo').waitFor();
  const where = { yardId: yard.id };
  expect(await database.owner.snag.count({ where })).toBe(0);
  await offline(page, false);
  await isSent(page);
  const [snag] = await database.owner.snag.findMany({ where, include: { photos: true } });
  expect(snag).toMatchObject({ words: 'Bubble by the hinge', photos: [{ width: 640 }] });
});

test('is sent under nobody else’s name, and is there when its own person is back', async () => {
  const page = await screens.signedIn(mailOf('bram'), phone);
  await page.goto(yard.now);
  await page.getByRole('button', { name: 'Temperature' }).and(page.locator(':enabled')).waitFor();
  await offline(page, true);
  await press(page, 'Temperature');
  await dialog(page)
    .getByRole('button', { name: /^Report/ })
    .click();
  await unsent(page, 1).waitFor();
  await page.goto('about:blank');
  await offline(page, false);
  await screens.signIn(page.context(), mailOf('anke'));
  await page.goto(yard.now);
  await page.getByRole('button', { name: 'Claim', exact: true }).waitFor();
  expect(await page.getByText('not sent yet').count()).toBe(0);
  const readings = () => database.owner.reading.count({ where: { yardId: yard.id } });
  expect(await readings()).toBe(0);
  await screens.signIn(page.context(), mailOf('bram'));
  await page.goto(yard.now);
  await soon(readings).toBe(1);
  expect(await database.owner.report.count({ where: { yardId: yard.id, memberId: 'anke' } })).toBe(
    0,
  );
});

test('of several pages of a browser one sends', async () => {
  const page = await screens.signedIn(mailOf('bram'), phone);
  const beside = await screens.beside(page);
  const sent: string[] = [];
  page.context().on('request', (request) => {
    if (request.method() === 'POST' && request.url().endsWith('/reports')) {
      sent.push(request.postData() ?? '');
    }
  });
  for (const one of [page, beside]) {
    await one.goto(yard.now);
    await one.getByRole('button', { name: 'Temperature' }).and(one.locator(':enabled')).waitFor();
  }
  await offline(page, true);
  for (const one of [page, beside]) {
    await press(one, 'Temperature');
    await dialog(one).getByRole('button', { name: 'Warmer' }).click();
    await dialog(one)
      .getByRole('button', { name: /^Report/ })
      .click();
  }
  for (const one of [page, beside]) await unsent(one, 2).waitFor();
  await offline(page, false);
  for (const one of [page, beside]) await isSent(one);
  const keys = sent.flatMap((body) => [...body.matchAll(/"key":"([^"]+)"/g)].map(([, key]) => key));
  expect(new Set(keys).size).toBe(2);
  expect(keys).toHaveLength(2);
});

test('what this browser does not keep is not done, and says so', async () => {
  const page = await screens.signedIn(mailOf('anke'), phone);
  await page.goto(yard.now);
  await page.getByRole('button', { name: 'Claim', exact: true }).waitFor();
  await page.evaluate(`globalThis.keeps = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('The disk is full.', 'QuotaExceededError');
    };`);
  await press(page, 'Claim');
  await dialog(page).getByText('This browser keeps nothing at the moment').first().waitFor();
  await shot(page, 'now-not-kept');
  await dialog(page).getByRole('button', { name: 'Close' }).click();
  expect(await page.getByRole('button', { name: 'Take it back' }).count()).toBe(0);
  expect(await stands(petrel)).toBe('ready');
  await page.evaluate('IDBObjectStore.prototype.put = globalThis.keeps');
  await press(page, 'Claim');
  await soon(() => stands(petrel)).toBe('claimed');
});

/** Holds what a page sends to an address until it is let go. */
async function holding(page: Page, address: string): Promise<() => void> {
  let go: () => void = () => undefined;
  const gone = new Promise<void>((resolve) => {
    go = resolve;
  });
  await page.route(address, async (route) => {
    if (route.request().method() === 'POST') await gone;
    await route.fallback();
  });
  return go;
}

const report = async (page: Page, of: 'Air' | 'Surface' = 'Air'): Promise<void> => {
  await press(page, 'Temperature');
  await dialog(page).getByRole('button', { name: of, exact: true }).click();
  await dialog(page)
    .getByRole('button', { name: /^Report/ })
    .click();
};

test('a page that another one sends for tells what became of it, as if it had sent it', async () => {
  const page = await screens.signedIn(mailOf('bram'), phone);
  const beside = await screens.beside(page);
  const letGo = await holding(beside, '**/readings');
  for (const one of [page, beside]) {
    await one.goto(yard.now);
    await one.getByRole('button', { name: 'Temperature' }).and(one.locator(':enabled')).waitFor();
  }
  const isSending = beside.waitForRequest(
    (request) => request.method() === 'POST' && request.url().endsWith('/readings'),
  );
  await report(beside);
  await isSending;
  await press(page, 'Claim');
  await page.getByText('Sending').waitFor();
  await yard.claim('anke', petrel);
  letGo();
  await dialog(page).getByText('The foreman has to look at this').waitFor();
  expect(await page.getByRole('button', { name: 'Take it back' }).count()).toBe(0);
});

test('pages that know nothing of each other take nothing out of the queue but what they sent', async () => {
  const look = { ...phone, allow: /ERR_CONNECTION_RESET/ };
  const page = await screens.signedIn(mailOf('bram'), look);
  const beside = await screens.beside(page);
  // As over plain http.
  const alone = `Object.defineProperty(navigator, 'locks', { value: undefined })`;
  for (const one of [page, beside]) {
    await one.addInitScript(alone);
    await one.goto(yard.now);
    await one.getByRole('button', { name: 'Temperature' }).and(one.locator(':enabled')).waitFor();
  }
  const letGo = await holding(page, '**/readings');
  const sending = page.waitForRequest(
    (request) => request.method() === 'POST' && request.url().endsWith('/readings'),
  );
  await report(page);
  await sending;
  const readings = () => database.owner.reading.count({ where: { yardId: yard.id } });
  await beside.evaluate(`dispatchEvent(new Event('online'))`);
  await soon(readings).toBe(1);
  await isSent(beside);
  // What it does now stands where the other one stood.
  let isCut = true;
  await beside.route('**/readings', async (route) => {
    if (route.request().method() === 'POST' && isCut) return route.abort('connectionreset');
    return route.fallback();
  });
  await report(beside, 'Surface');
  await unsent(beside, 1).waitFor();
  const answered = page.waitForResponse(
    (one) => one.request().method() === 'POST' && one.url().endsWith('/readings'),
  );
  letGo();
  await (await answered).finished();
  // Either page sends it now.
  isCut = false;
  await soon(readings).toBe(2);
  await isSent(beside);
});
