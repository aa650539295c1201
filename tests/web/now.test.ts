import sharp from 'sharp';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { toLocal } from '#calendar/local-time.ts';
import { axeFaults, shot, sidewaysScroll } from '../support/browser.ts';
import { buildersYard, mailOf, petrel, press, rail, soon } from './builders-yard.ts';

const yard = buildersYard();
const { api, database, screens, call, stands } = yard;
// Being out of reach has tests of its own.
const phone = { width: 360, more: { serviceWorkers: 'block' } } as const;

const dialog = (page: Page) => page.getByRole('dialog');

/** Nothing that axe or a thumb would find fault with, at the width and in the theme that it has. */
async function isFit(page: Page, name: string): Promise<void> {
  expect(await axeFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  await shot(page, name);
}

/** Of what can be pressed in the page itself, that which is lower than a gloved thumb needs. */
const lowPresses = (page: Page): Promise<string[]> =>
  page.evaluate<string[]>(`[...document.querySelectorAll('main button, main select, main summary')]
    .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < 56)
    .map((one) => one.textContent)`);

/** Presses something, and what comes in its place in the very moment that it is there. */
const twice = (page: Page, first: string, then: string): Promise<void> =>
  page.evaluate<undefined, readonly [string, string]>(
    async (names) => {
      const find = (name: string): HTMLElement | undefined =>
        [...document.querySelectorAll('button')].find((one) => one.textContent === name);
      const [one, other] = names;
      find(one)?.click();
      find(one)?.click();
      while (find(other) === undefined) await new Promise(requestAnimationFrame);
      find(other)?.click();
    },
    [first, then],
  );

/** What can hurt is there without a press, and pushes away nothing that is to be pressed. */
const isCautioned = (page: Page): Promise<void> =>
  page.getByText('Keep the lid on.').waitFor({ state: 'visible' });

/** It is seen without moving the page, above the bar of pages. */
async function isInReach(page: Page, name: string): Promise<void> {
  const button = page.getByRole('button', { name, exact: true }).first();
  await page.evaluate('scrollTo(0, 0)');
  const box = await button.boundingBox();
  const bar = await page.getByRole('navigation').getByRole('link').first().boundingBox();
  expect((box?.y ?? Infinity) + (box?.height ?? 0), name).toBeLessThanOrEqual(bar?.y ?? 0);
}

describe('a builder on the phone', () => {
  test('sees what is ready with its cautions, claims, starts, mixes and finishes it', async () => {
    const page = await screens.signedIn(mailOf('bram'), phone);
    await page.goto(yard.now);
    await page.getByRole('heading', { level: 3, name: 'lay-up' }).waitFor({ timeout: 40_000 });
    const first = page.getByRole('article').first();
    await isCautioned(page);
    await isFit(page, 'now-ready');
    expect(await lowPresses(page)).toEqual([]);
    for (const name of ['Claim and start', 'Claim', 'Snag']) await isInReach(page, name);

    // A glove that bounces: the second half of it hits Finish as soon as that stands there.
    await twice(page, 'Claim and start', 'Finish');
    await page.getByRole('button', { name: 'Finish', exact: true }).waitFor();
    await soon(() => stands(petrel)).toBe('working');
    expect(await page.getByText('Finished “lay-up”').count()).toBe(0);
    await first.getByText('at work').waitFor();
    await isCautioned(page);
    for (const name of ['Finish', 'Mix sheet', 'Snag']) await isInReach(page, name);
    // Its film would cure meanwhile: it is not put aside.
    expect(await page.getByRole('button', { name: 'Pause' }).count()).toBe(0);

    await press(page, 'Mix sheet');
    const sheet = dialog(page);
    expect(await sheet.innerText()).toContain('Keep the lid on.');
    // Two layers of 300 g on 2 m² and 10 % of waste: 1320 g of mix, of 100 parts and 25.
    expect(await sheet.innerText()).toContain('1,056 g');
    expect(await sheet.innerText()).toContain('264 g');
    await isFit(page, 'now-mix-sheet');
    await sheet.getByRole('button', { name: 'Weighed' }).first().click();
    // Begun, it is on no list any more: what is known of it is of when it was.
    expect(await sheet.innerText()).toMatch(/As of \d\d:\d\d; the temperature may be another/);
    // Presses count again.
    await sheet.getByRole('button', { name: 'Mixed now', disabled: false }).first().waitFor();
    await twice(page, 'Mixed now', 'All spread');
    await sheet.getByRole('timer').first().waitFor();
    expect(await sheet.getByRole('button', { name: 'Not spread yet after all' }).count()).toBe(0);
    // What was mixed is mixed, whatever becomes of the page.
    await page.reload();
    await page.getByText('Spread within').first().waitFor();
    await isFit(page, 'now-at-work');

    await press(page, 'Finish');
    await page.getByText('Finished “lay-up”').waitFor();
    await soon(() => stands(petrel)).toBe('done');
    await press(page, 'Take it back');
    await soon(() => stands(petrel)).toBe('working');
    await press(page, 'Finish');
    await soon(() => stands(petrel)).toBe('done');
  });

  test('puts dry work aside and goes on with it; what runs is the time at it', async () => {
    const past = (minutes: number): string => new Date(Date.now() - minutes * 60_000).toISOString();
    const id = await yard.claim('bram', rail, past(46));
    for (const [step, ago] of [
      ['start', 45],
      ['pause', 40],
      ['resume', 10],
    ] as const) {
      expect(await call('bram', 'POST', `/claims/${id}/${step}`, { at: past(ago) })).toMatchObject({
        status: 200,
      });
    }
    const page = await screens.signedIn(mailOf('bram'), phone);
    await page.goto(yard.now);
    const clock = page.getByRole('timer');
    // Begun minutes count: five and ten, of forty-five.
    await soon(() => clock.innerText()).toMatch(/^1[5-7]:\d\d$/);
    await press(page, 'Pause');
    await page.getByRole('article').getByText('paused').waitFor();
    await soon(() => stands(rail)).toBe('paused');
    await press(page, 'Go on');
    await soon(() => clock.innerText()).toMatch(/^1[5-7]:\d\d$/);
    await soon(() => stands(rail)).toBe('working');
  });

  test('tells a tack test in two presses and a temperature in two', async () => {
    await yard.finish('bram', petrel);
    const page = await screens.signedIn(mailOf('bram'), phone);
    await page.goto(yard.now);
    await press(page, 'Tack test');
    await dialog(page).getByText('What it comes to, and how to find out').waitFor();
    await isFit(page, 'now-tack-test');
    await dialog(page)
      .getByRole('button', { name: /^Tacky/ })
      .click();
    const observed = async (): Promise<number> =>
      database.owner.observation.count({ where: { yardId: yard.id, found: 'already' } });
    await soon(observed).toBe(1);

    // A cold morning, as a logger has told: what is offered lies around it, where what comes next is done.
    const tenAgo = new Date(Date.now() - 10 * 60_000).toISOString();
    const at = `${tenAgo.slice(0, 16)}:00Z`;
    const logged = [{ space: 'hull', celsius: 8, at }];
    expect(await call('bram', 'POST', '/readings', { readings: logged })).toMatchObject({
      status: 201,
    });
    let answer: () => void = () => undefined;
    const answered = new Promise<void>((resolve) => {
      answer = resolve;
    });
    await page.route('**/climate?*', async (route) => {
      await answered;
      await route.fallback();
    });
    await press(page, 'Temperature');
    // Nothing is offered that would change under the thumb.
    await dialog(page).getByText('One moment').waitFor();
    expect(await dialog(page).getByText('°C').count()).toBe(0);
    answer();
    await dialog(page).getByRole('button', { name: 'Report 8 °C' }).waitFor();
    await isFit(page, 'now-temperature');
    const anew = page.waitForResponse((one) => one.url().includes('/readings?'));
    const fiveAgo = new Date(Date.now() - 5 * 60_000).toISOString();
    const warmer = [{ space: 'hull', celsius: 15, at: `${fiveAgo.slice(0, 16)}:00Z` }];
    expect(await call('bram', 'POST', '/readings', { readings: warmer })).toMatchObject({
      status: 201,
    });
    await (await anew).finished();
    await page.evaluate('new Promise((drawn) => setTimeout(drawn, 300))');
    await dialog(page).getByRole('button', { name: 'Report 8 °C' }).waitFor();
    await dialog(page).getByRole('button', { name: '6 °C', exact: true }).click();
    const readings = (): Promise<unknown> =>
      database.owner.reading.findMany({
        where: { yardId: yard.id, celsius: { notIn: [8, 15] } },
        select: { celsius: true, spaceId: true },
      });
    await soon(readings).toEqual([{ celsius: 6, spaceId: 'hull' }]);
  });

  test('raises a snag with a photo; refused, what was typed stays', async () => {
    const page = await screens.signedIn(mailOf('bram'), phone);
    await page.goto(yard.now);
    await press(page, 'Snag');
    await dialog(page).getByRole('button', { name: 'Raise this snag' }).click();
    await dialog(page).getByRole('alert').waitFor();
    await dialog(page).getByLabel('Which part').selectOption({ label: 'Hatch of Petrel · Petrel' });
    await dialog(page).getByLabel('Where it is and how it shows').fill('Port edge, <b>soft</b>');
    const background = { r: 180, g: 140, b: 60 };
    const buffer = await sharp({ create: { width: 3200, height: 2400, channels: 3, background } })
      .jpeg()
      .toBuffer();
    const file = { name: 'edge.jpg', mimeType: 'image/jpeg', buffer };
    await dialog(page)
      .locator('input[type=file]')
      .setInputFiles([
        file,
        { name: 'notes.txt', mimeType: 'text/plain', buffer: Buffer.from('no picture') },
      ]);
    await dialog(page).getByRole('img', { name: 'Photo 1' }).waitFor();
    expect(await dialog(page).innerText()).toContain('“notes.txt” is not a picture');
    await dialog(page).getByLabel('How much of the part').fill('99');
    await dialog(page).getByRole('button', { name: 'Raise this snag' }).click();
    await dialog(page).getByText('the part has 2 m²').first().waitFor();
    await isFit(page, 'now-snag');
    await dialog(page).getByLabel('How much of the part').fill('0.5');
    await dialog(page).getByRole('button', { name: 'Raise this snag' }).click();
    const raised = (): Promise<unknown> =>
      database.owner.snag.findMany({
        where: { yardId: yard.id },
        select: { words: true, areaM2: true, photos: { select: { width: true, height: true } } },
      });
    const photos = [{ width: 2000, height: 1500 }];
    await soon(raised).toEqual([{ words: 'Port edge, <b>soft</b>', areaM2: 0.5, photos }]);
  });

  test('takes note of what has rung, and reads ounces where they want them', async () => {
    const rungAt = new Date();
    await database.owner.alarm.create({
      data: {
        ...{ yardId: yard.id, key: 'closes:test', kind: 'closes', state: 'rung', rungAt },
        ...{ dueAt: rungAt, audience: ['anke'], words: 'The window of the hatch shuts soon.' },
      },
    });
    const page = await screens.signedIn(mailOf('anke'), phone);
    // In a pocket: nobody has seen it, and another device may ring.
    await page.addInitScript(`let sight = 'hidden';
      Object.defineProperty(document, 'visibilityState', { get: () => sight });
      addEventListener('taken-out', () => {
        sight = 'visible';
        document.dispatchEvent(new Event('visibilitychange'));
      });`);
    let told = 0;
    page.on('request', (request) => {
      if (request.url().endsWith('/shown')) told += 1;
    });
    await page.goto(yard.now);
    await page.getByText('The window of the hatch shuts soon.').waitFor();
    // What it tells it tells as soon as it is drawn.
    await page.evaluate('new Promise((drawn) => setTimeout(drawn, 300))');
    expect(told).toBe(0);
    await page.evaluate(`dispatchEvent(new Event('taken-out'))`);
    const receipt = (): Promise<unknown> =>
      database.owner.alarmReceipt.findFirst({ where: { yardId: yard.id, memberId: 'anke' } });
    await soon(receipt).toMatchObject({ shownAt: expect.any(Date) as Date });
    await press(page, 'Understood: The window of the hatch shuts soon.');
    await soon(receipt).toMatchObject({ acknowledgedAt: expect.any(Date) as Date });
    await soon(() => page.getByText('The window of the hatch').count()).toBe(0);

    const token = await api.signIn(mailOf('anke'));
    const body = { units: 'imperial', temperature: 'fahrenheit' };
    const { headers } = await api.rest('GET', '/me', { token });
    const revision = { 'If-Match': headers.get('etag') ?? '' };
    expect((await api.rest('PATCH', '/me', { token, body, headers: revision })).status).toBe(200);
    await page.reload();
    await press(page, /^What to know about lay-up/);
    // 1056 g.
    await dialog(page).getByText('37.25 oz').first().waitFor();
    expect(await dialog(page).innerText()).toContain('°F');
  });
});

describe('two builders', () => {
  test('who claim the same task at once agree on who has it', async () => {
    const [one, other] = [
      await screens.signedIn(mailOf('bram'), phone),
      await screens.signedIn(mailOf('anke'), phone),
    ];
    const pages = [one, other];
    await Promise.all(pages.map((page) => page.goto(yard.now)));
    // Both look at the lay-up of Petrel.
    const first = (page: Page) => page.getByRole('article').first();
    const claim = (page: Page) =>
      first(page)
        .filter({ hasText: 'Hatch of Petrel' })
        .getByRole('button', { name: 'Claim', exact: true });
    await Promise.all(pages.map((page) => claim(page).waitFor()));
    await Promise.all(pages.map((page) => claim(page).click()));
    await soon(() => Promise.all(pages.map((page) => dialog(page).count()))).toContain(1);
    const [refused] = (await dialog(one).count()) === 1 ? [one] : [other];
    const [winner] = pages.filter((page) => page !== refused);
    const name = winner === one ? 'Bram' : 'anke';
    // By the yard's clocks, not the browser's.
    const since = toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date;
    const said = await dialog(refused).innerText();
    expect(said).toMatch(
      new RegExp(`${name} holds "lay-up" since \\w{3} ${String(Number(since.slice(8)))} `),
    );
    await dialog(refused).getByRole('button', { name: 'Close' }).click();
    await first(winner).getByText('claimed by you').waitFor();
    expect(await first(winner).innerText()).toContain('Hatch of Petrel');
    // The one who has not got it sees what else there is, and this in the other's hands, and may join.
    await first(refused).filter({ hasText: 'Hatch of Heron' }).waitFor();
    expect(await refused.getByText('claimed by you').count()).toBe(0);
    await press(refused, 'Work with somebody');
    await dialog(refused).getByText(`With ${name}`).waitFor();
    await isFit(refused, 'now-together');
    await dialog(refused).getByRole('button', { name: 'Join: lay-up' }).click();
    for (const page of pages) {
      await first(page)
        .getByText(/^With (Bram and anke|anke and Bram)$/)
        .waitFor();
    }
  });

  test('see each other begin and finish without reading anew', async () => {
    const id = await yard.claim('bram', petrel);
    expect((await call('anke', 'POST', `/claims/${id}/join`)).status).toBe(200);
    const page = await screens.signedIn(mailOf('anke'), phone);
    await page.goto(yard.now);
    await page.getByRole('button', { name: 'Start', exact: true }).waitFor();
    expect((await call('bram', 'POST', `/claims/${id}/start`)).status).toBe(200);
    await page.getByRole('button', { name: 'Finish', exact: true }).waitFor();
    expect((await call('bram', 'POST', `/claims/${id}/finish`)).status).toBe(200);
    await soon(() => page.getByRole('button', { name: 'Finish' }).count()).toBe(0);
  });
});
