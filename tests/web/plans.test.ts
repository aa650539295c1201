import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axeFaults, shot, sidewaysScroll, testScreens } from '../support/browser.ts';
import { comingDay, comingYardApi } from '../support/coming-yard.ts';
import { type Process, startWorkerProcess } from '../support/processes.ts';
import { largeYard } from '../support/large-yard.ts';
import { makeYard } from '../support/plan-runs.ts';
import { people } from '../support/small-yard-api.ts';

const { api, database, tokens } = comingYardApi();
const screens = testScreens(api);
let worker: Process | undefined;

beforeAll(async () => {
  worker = await startWorkerProcess(database.serviceUrl);
});
afterAll(() => worker?.end('SIGTERM'));

const heading = (page: Page, name: string, level = 1) =>
  page.getByRole('heading', { level, name, exact: true });
const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click();

async function isFit(page: Page, name: string): Promise<void> {
  expect(await axeFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  await shot(page, name);
}

/** Asks on the page, and waits until the run has ended in the way that is told. */
async function plan(page: Page, ending: string): Promise<void> {
  await page.goto('/yards/small/plans');
  await page.getByLabel('Time to search').fill('5');
  await press(page, 'Make a plan');
  await heading(page, 'A plan in the making').waitFor();
  await page.getByText(ending).first().waitFor({ timeout: 40_000 });
}

const read = async (path: string): Promise<Readonly<Record<string, unknown>>> =>
  (await api.rest('GET', `/yards/small${path}`, { token: tokens.foreman })).body;

/** What the foreman sets of a task, by the service. */
async function set(taskId: string, body: object): Promise<void> {
  const { revision } = await read(`/tasks/${taskId}`);
  const { status } = await api.rest('PATCH', `/yards/small/tasks/${taskId}`, {
    token: tokens.foreman,
    headers: { 'if-match': `"${String(revision)}"` },
    body,
  });
  expect(status).toBe(200);
}

describe('plans', () => {
  test('the first: asked for, seen in the making, published', async () => {
    const page = await screens.signedIn(people.foreman);
    await page.goto('/yards/small/plans');
    await page.getByText('No plan is published yet').waitFor();
    await isFit(page, 'plans-none');
    await plan(page, 'The plan is ready.');
    const boats = page.getByRole('table', { name: 'When each boat is finished' });
    expect(await boats.innerText()).toMatch(/Petrel, Winter refit[\s\S]*in time/);
    await page.getByText('The same as a table').first().click();
    expect(
      await page.getByRole('columnheader', { name: 'cannot be beaten' }).count(),
    ).toBeGreaterThan(0);
    await isFit(page, 'run');
    await page.getByRole('link', { name: 'What it changes' }).click();
    await heading(page, 'What a plan changes').waitFor();
    await page.getByText('this would be the first plan').waitFor();
    await press(page, 'Publish this plan');
    const dialog = page.getByRole('dialog');
    await dialog.getByText('Everybody who works in the yard').waitFor();
    await dialog.getByRole('button', { name: 'Publish this plan' }).click();
    await page.getByText('It is published.').waitFor();
    const { publishedAt, id } = await read('/published-plan');
    expect(publishedAt).not.toBeNull();
    expect(page.url()).toContain(String(id));
  });

  test('another is held against it: boats, people, days, money; then published in its place', async () => {
    await set('hatch-panel.fair', { fixedStart: comingDay(4) });
    const page = await screens.signedIn(people.foreman, { width: 768 });
    const { id: before } = await read('/published-plan');
    await plan(page, 'The plan is ready.');
    await page.getByRole('link', { name: 'What it changes' }).click();
    await page.getByRole('heading', { level: 2, name: 'In words' }).waitFor();
    const boats = page.getByRole('table', { name: 'When each boat is finished' });
    expect(await boats.innerText()).toMatch(/later/);
    await page.getByText('Bram').first().waitFor();
    await page.getByRole('button', { name: 'fair' }).waitFor();
    await page.getByRole('table', { name: 'What it costs' }).waitFor();
    await press(page, 'Find out what would make it shorter');
    await expect.poll(() => page.getByText('One moment').count(), { timeout: 30_000 }).toBe(0);
    await isFit(page, 'comparison');
    await press(page, 'Publish this plan');
    await page.getByRole('dialog').getByText('Something changes for Bram.').waitFor();
    await page.getByRole('dialog').getByRole('button', { name: 'Publish this plan' }).click();
    await page.getByText('It is published.').waitFor();
    const { id: now } = await read('/published-plan');
    expect(now).not.toBe(before);
    expect(page.url()).toContain(String(now));
    await page.goto('/yards/small/plans');
    await heading(page, 'What the yard works to', 2).waitFor();
    await isFit(page, 'plans');
  });

  test('a search that goes on is stopped, and the best so far is kept', async () => {
    await makeYard(api, largeYard('large'), tokens.foreman);
    const page = await screens.signedIn(people.foreman);
    await page.goto('/yards/large/plans');
    await page.getByLabel('Time to search').fill('600');
    await press(page, 'Make a plan');
    const stop = page.getByRole('button', { name: 'Stop, and keep the best so far' });
    await stop.waitFor({ timeout: 40_000 });
    await shot(page, 'run-under-way');
    await stop.click();
    await page.getByText('It was stopped; this is the best that was found.').waitFor();
    await isFit(page, 'run');
    const way = page.getByRole('link', { name: 'What it changes' });
    const planId = /plans\/([^/]+)\/against/.exec(String(await way.getAttribute('href')))?.[1];
    const { status } = await api.rest('GET', `/yards/large/plans/${String(planId)}`, {
      token: tokens.foreman,
    });
    expect(status).toBe(200);
  });

  test('asked for again where the answer was lost, it is made once', async () => {
    const runs = async (): Promise<number> => {
      const { items } = await read('/plan-runs');
      return Array.isArray(items) ? items.length : 0;
    };
    const before = await runs();
    const page = await screens.signedIn(people.foreman, { allow: /ERR_CONNECTION_RESET/ });
    let isLost = true;
    await page.route('**/plan-runs', async (route) => {
      if (route.request().method() !== 'POST' || !isLost) return route.continue();
      await route.fetch();
      return route.abort('connectionreset');
    });
    await page.goto('/yards/small/plans');
    await page.getByLabel('Time to search').fill('1');
    await press(page, 'Make a plan');
    await page.getByText('The yard cannot be reached').waitFor();
    expect(await runs()).toBe(before + 1);
    isLost = false;
    await press(page, 'Make a plan');
    await heading(page, 'A plan in the making').waitFor();
    expect(await runs()).toBe(before + 1);
  });

  test('one that cannot be: why, and the way to where it can be put right', async () => {
    await set('hatch-panel.lay-up', { fixedStart: comingDay(4, '09:00') });
    const page = await screens.signedIn(people.foreman, { width: 360, theme: 'dark' });
    await plan(page, 'There is no such plan');
    await heading(page, 'Why there is none', 2).waitFor();
    const way = page.getByRole('link', { name: 'Put it right' }).first();
    expect(await way.getAttribute('href')).toMatch(/^\/yards\/small\/set-up\/[a-z-]+/);
    await isFit(page, 'run-none');
    await set('hatch-panel.lay-up', { fixedStart: null });
  });

  test('a candidate of what happened waits for a word, and is discarded', async () => {
    const { id: before } = await read('/published-plan');
    const page = await screens.signedIn(people.foreman);
    await page.goto('/yards/small/plans');
    await heading(page, 'What the yard works to', 2).waitFor();
    await set('hatch-panel.fair', { fixedStart: comingDay(7) });
    await heading(page, 'Waiting for your word', 2).waitFor({ timeout: 40_000 });
    await page.getByRole('link', { name: 'What it changes' }).first().click();
    const because = page.getByRole('list', { name: 'Because' });
    await because
      .getByText(/was set to begin/)
      .last()
      .waitFor();
    const planId = /plans\/([^/]+)\/against/.exec(page.url())?.[1];
    await press(page, 'Discard it');
    await page.getByText('discarded', { exact: true }).waitFor();
    expect(await page.getByRole('button', { name: 'Publish this plan' }).count()).toBe(0);
    expect(await read('/published-plan')).toMatchObject({ id: before });
    expect(await read(`/candidates/${String(planId)}`)).toMatchObject({ state: 'discarded' });
  });

  test('a candidate of before something happened is not published: what it does not know is said', async () => {
    const { id: before } = await read('/published-plan');
    const page = await screens.signedIn(people.foreman, { width: 360, theme: 'dark' });
    await page.goto('/yards/small/plans');
    await press(page, 'Plan what is left, moving as little as can be');
    await heading(page, 'A plan in the making').waitFor();
    await page.getByText('The plan is ready.').waitFor({ timeout: 40_000 });
    await page.getByRole('link', { name: 'What it changes' }).click();
    await press(page, 'Publish this plan');
    // Nobody plans anew what happens now: the candidate stays open.
    await worker?.end('SIGTERM');
    await set('hatch-panel.fair', { fixedStart: comingDay(8) });
    const dialog = page.getByRole('dialog');
    await dialog.getByRole('button', { name: 'Publish this plan' }).click();
    await dialog.getByText(/does not know what has happened since/).waitFor();
    await dialog.getByRole('button', { name: 'Cancel' }).click();
    await page.getByText('It does not know what has happened since', { exact: true }).waitFor();
    expect(await page.getByRole('button', { name: 'Publish this plan' }).isDisabled()).toBe(true);
    await isFit(page, 'comparison-old');
    expect(await read('/published-plan')).toMatchObject({ id: before });
  });

  test('are no builder’s: the page is refused by its address', async () => {
    const page = await screens.signedIn(people.builder, { width: 360 });
    for (const path of ['plans', 'plans/runs/none', 'plans/none/against', 'plans/none/sheet']) {
      await page.goto(`/yards/small/${path}`);
      await heading(page, 'This page is not for you').waitFor();
    }
  });

  test('one that is not there is said to be missing', async () => {
    const page = await screens.signedIn(people.foreman);
    await page.goto('/yards/small/plans/none/against');
    await page.getByText('There is no plan "none".').waitFor();
    await page.goto('/yards/small/plans/runs/none');
    await page.getByRole('alert').waitFor();
  });
});
