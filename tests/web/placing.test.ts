import type { Locator, Page } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { axeFaults, shot, sidewaysScroll, testScreens } from '../support/browser.ts';
import { comingDay, comingYardApi } from '../support/coming-yard.ts';
import { publishPlan } from '../support/published-plan.ts';
import { people } from '../support/small-yard-api.ts';

const { api, database, tokens } = comingYardApi();
const screens = testScreens(api);
const fair = 'hatch-panel.fair';

const task = async (): Promise<Readonly<Record<string, unknown>>> =>
  (await api.rest('GET', `/yards/small/tasks/${fair}`, { token: tokens.foreman })).body;

async function set(body: object): Promise<void> {
  const { revision } = await task();
  const { status } = await api.rest('PATCH', `/yards/small/tasks/${fair}`, {
    token: tokens.foreman,
    headers: { 'if-match': `"${String(revision)}"` },
    body,
  });
  expect(status).toBe(200);
}

let firstId = '';
let planId = '';

/** Two plans, so that there is a task that differs: the way to its panel. */
beforeAll(async () => {
  const published = async (): Promise<string> => {
    await publishPlan(database, 'small');
    const where = { yardId: 'small' };
    return (await database.owner.publishedPlan.findUniqueOrThrow({ where })).planId;
  };
  firstId = await published();
  await set({ fixedStart: comingDay(4) });
  planId = await published();
});

async function opened(page: Page): Promise<Locator> {
  await page.goto(`/yards/small/plans/${planId}/against/${firstId}`);
  await page.getByRole('button', { name: 'fair', exact: true }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('heading', { name: 'Set it by hand' }).waitFor();
  return dialog;
}

const press = (where: Locator, name: string): Promise<void> =>
  where.getByRole('button', { name, exact: true }).click();

describe('a task that is not there any more', () => {
  /** Asks the service for another instead: one that it does not have. */
  const lost = async (page: Page, below: string): Promise<void> => {
    const path = new RegExp(`/${below}/${fair}$`);
    await page.route(path, (route) =>
      route.continue({ url: route.request().url().replace(fair, 'no-such-task') }),
    );
  };

  test('is said to be in the plan and not in the yard, or not in the plan', async () => {
    const page = await screens.signedIn(people.foreman);
    await lost(page, 'yards/small/tasks');
    await page.goto(`/yards/small/plans/${planId}/against/${firstId}`);
    await page.getByRole('button', { name: 'fair', exact: true }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByText(/^The yard does not have this task any more/).waitFor();
    // What the plan says of it can be read all the same.
    await dialog.getByText('Cautions').waitFor();
    expect(await dialog.getByText('One moment …').count()).toBe(0);
    await page.keyboard.press('Escape');
    await lost(page, `plans/${planId}/tasks`);
    await page.getByRole('button', { name: 'fair', exact: true }).click();
    await dialog.getByText('This plan does not have that task').waitFor();
    expect(await axeFaults(page)).toEqual([]);
  });
});

describe('a task of a plan', () => {
  test('is shown with its cautions, why it is not earlier, and what was told of it', async () => {
    const page = await screens.signedIn(people.foreman);
    const dialog = await opened(page);
    await dialog.getByText('Cautions').waitFor();
    await dialog.getByText(/begins Fri .*, 10:00/).waitFor();
    await press(dialog, 'Ask why it is not earlier');
    await dialog.getByText(/is fixed for Fri .* 10:00/).waitFor();
    await press(dialog, 'Show what was told and what was done');
    await dialog.getByText('Told anew').waitFor();
    await dialog.getByText('Not begun.').waitFor();
    expect(await axeFaults(page)).toEqual([]);
    await shot(page, 'task-panel');
    await page.keyboard.press('Escape');
    await expect.poll(() => dialog.count()).toBe(0);
  });

  test('is tried while it is set: too early says why and what fits, a free place can be taken', async () => {
    const page = await screens.signedIn(people.foreman, { width: 360, theme: 'dark' });
    const dialog = await opened(page);
    await dialog.getByLabel('Begins', { exact: true }).fill(comingDay(0).slice(0, 16));
    await dialog.getByText(/to be sandable/).waitFor();
    expect(await axeFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    await shot(page, 'task-panel');
    await press(dialog, 'Take that start');
    await dialog.getByText('It fits', { exact: true }).waitFor();
    await press(dialog, 'Set it so');
    await dialog.getByText(/^It is set\./).waitFor();
    const { fixedStart } = await task();
    expect(Date.parse(String(fixedStart))).toBeLessThan(Date.parse(comingDay(4)));
    await press(dialog, 'Release all that is set');
    await dialog.getByText(/^It is released\./).waitFor();
    expect(await task()).toMatchObject({ fixedStart: null, crew: [], after: [] });
    await dialog.getByText('Nothing is set').waitFor();
  });

  test('keeps to a crew and an order; what the service refuses stays typed', async () => {
    const page = await screens.signedIn(people.foreman);
    const dialog = await opened(page);
    await dialog.getByLabel('Bram').check();
    await dialog.getByText('It fits', { exact: true }).waitFor();
    await press(dialog, 'Another task before it');
    await dialog.getByLabel('Another task before it').selectOption({ index: 1 });
    await press(dialog, 'Set it so');
    await dialog.getByText(/^It is set\./).waitFor();
    expect(await task()).toMatchObject({
      crew: [{ id: 'bram' }],
      after: ['hatch-panel.lay-up'],
    });
    await dialog.getByLabel('Begins', { exact: true }).fill(comingDay(200).slice(0, 16));
    await press(dialog, 'Set it so');
    await dialog
      .getByText(/nothing can be begun then/)
      .first()
      .waitFor();
    expect(await dialog.getByLabel('Begins', { exact: true }).inputValue()).toBe(
      comingDay(200).slice(0, 16),
    );
  });

  test('is read again where somebody else has changed it meanwhile', async () => {
    const page = await screens.signedIn(people.foreman);
    const dialog = await opened(page);
    await dialog.getByText('crew: Bram').waitFor();
    await set({ crew: [], after: [], fixedStart: comingDay(3) });
    await dialog.getByLabel('Begins', { exact: true }).fill(comingDay(8).slice(0, 16));
    await press(dialog, 'Set it so');
    await dialog.getByText('Somebody else has changed this meanwhile').waitFor();
    await dialog.getByText(/begins Thu .*, 10:00/).waitFor();
    expect(await task()).toMatchObject({
      fixedStart: expect.stringContaining(comingDay(3).slice(0, 16)) as string,
    });
  });
});
