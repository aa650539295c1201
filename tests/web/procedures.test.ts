import type { Locator, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { axeFaults, shot, sidewaysScroll, testScreens } from '../support/browser.ts';
import { people, smallYardApi } from '../support/small-yard-api.ts';

/** A procedure as a foreman reads and rewrites it, and the tasks it makes before it makes them. */
const { api, tokens } = smallYardApi();
const screens = testScreens(api);

const room = '/yards/small/set-up/procedures';
const open = async (id: string, look: { width?: number; theme?: 'dark' } = {}): Promise<Page> => {
  const page = await screens.signedIn(people.foreman, look);
  await page.goto(`${room}${id}`);
  await page.getByRole('heading', { level: 1 }).waitFor();
  return page;
};
const has = async (path: string): Promise<Record<string, unknown>> =>
  (await api.rest('GET', `/yards/small/${path}`, { token: tokens.foreman })).body;
const press = (where: Page | Locator, name: string | RegExp): Promise<void> =>
  where.getByRole('button', { name, exact: typeof name === 'string' }).click();
const field = (where: Page | Locator, name: string): Locator =>
  where.getByLabel(name, { exact: true });
const preview = (page: Page): Locator => page.getByRole('region', { name: 'The tasks it makes' });
const task = (page: Page, name: string): Locator =>
  preview(page)
    .getByRole('list', { name: 'Tasks, in the order of the procedure' })
    .locator('> li')
    .filter({ has: page.locator('strong').getByText(name, { exact: true }) });
/** Opens the step, of which one is in the way of no other. */
const openStep = async (page: Page, name: RegExp): Promise<Locator> => {
  const opener = page.locator('button[aria-expanded]').filter({ hasText: name });
  await opener.click();
  return page.getByRole('listitem').filter({ has: opener });
};

async function isFit(page: Page, name: string): Promise<void> {
  expect(await axeFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  await shot(page, name);
}

describe('the tasks that a procedure makes', () => {
  test('are shown for a part as it is, with what they wait for', async () => {
    const page = await open('/panel');
    // Lay-up 30 + 40 a square metre, fairing 15 + 30, of a hatch of 2 m²; nothing is made by looking.
    await preview(page).getByText('3 h 5 min of work').waitFor();
    await task(page, 'lay-up')
      .getByText(/1 h 50 min of work/)
      .waitFor();
    await task(page, 'fair')
      .getByText(/1 h 15 min of work/)
      .waitFor();
    await task(page, 'fair').getByText('when the film of “lay-up” is sandable').waitFor();
    await task(page, 'lay-up').getByText('Can begin at once').waitFor();
    const before = await has('tasks');
    await field(page, 'Sized by').selectOption('sizes of my own');
    await field(page, 'Area').fill('5');
    await preview(page).getByText('6 h 35 min of work').waitFor();
    expect(await has('tasks')).toEqual(before);
    await isFit(page, 'procedure');
  });

  test('fit a telephone, in the dark', async () => {
    const page = await open('/panel', { width: 360, theme: 'dark' });
    await preview(page).getByText('3 h 5 min of work').waitFor();
    await isFit(page, 'procedure');
  });
});

describe('a new version', () => {
  test('is seen before it is saved; jobs keep the one that made their tasks', async () => {
    const page = await open('/panel');
    await press(page, 'Write a new version');
    await field(page, 'Name of the new step').fill('Wipe it down');
    await field(page, 'It is').selectOption('clean work');
    await press(page, 'Add a step');
    const step = page.getByRole('listitem').filter({ hasText: '3. Wipe it down' });
    await field(step, 'Minutes for each job').fill('10');
    await field(step, 'and for each square metre').fill('5');
    await field(step, 'Source').fill('timed on a hatch');
    await press(step, 'Add what it waits for');
    const wait = step.getByRole('group', { name: 'Wait 1' });
    await field(wait, 'Step').selectOption('fair');
    await field(wait, 'May begin').selectOption('so long after it');
    await field(wait, 'So long').fill('15');
    await field(wait, 'At the latest').selectOption('so long after it');
    await wait.getByLabel('So long', { exact: true }).last().fill('240');
    await press(step, 'Move Wipe it down up');
    await page.getByText('2. Wipe it down').waitFor();
    await press(page, 'See the tasks it would make');
    await task(page, 'Wipe it down')
      .getByText(/20 min of work/)
      .waitFor();
    await task(page, 'Wipe it down')
      .getByText('15 min after “fair”, or later, no more than 4 h after it')
      .waitFor();
    expect(await has('procedures/panel')).toMatchObject({ version: 1 });
    await isFit(page, 'procedure-editor');
    await press(page, 'Save as version 2');
    await page.getByText('2, the current one').waitFor({ state: 'attached' });
    const saved = (await has('procedures/panel')) as { steps: { id: string }[] };
    expect(saved).toMatchObject({ version: 2 });
    expect(saved.steps.map(({ id }) => id)).toEqual(['lay-up', 'wipe-it-down', 'fair']);
    expect(await has('jobs/hatch-panel')).toMatchObject({ procedureVersion: 1 });
    await field(page, 'Version').selectOption('1');
    await page.getByText(/This is an older version/).waitFor();
    await task(page, 'Wipe it down').waitFor({ state: 'detached' });
  });

  test('that is refused names the step and the field, and keeps what was written', async () => {
    const before = await has('procedures/panel');
    const page = await open('/panel');
    await press(page, 'Write a new version');
    const step = await openStep(page, /lay-up/);
    await field(step, 'Material').selectOption('none');
    await press(page, /^Save as version/);
    await page.getByRole('alert').waitFor();
    await step.getByText('one thing is not right').waitFor();
    await isFit(page, 'procedure-refused');
    expect(await has('procedures/panel')).toEqual(before);
    // A look elsewhere loses nothing.
    await page.getByRole('link', { name: 'Procedures', exact: true }).click();
    await page.getByRole('link', { name: /Laminate and fair a panel/ }).click();
    await page.getByText(/What you wrote here before is still here/).waitFor();
    const again = await openStep(page, /lay-up/);
    expect(await field(again, 'Material').inputValue()).toBe('');
    await press(page, 'Drop this version');
    await preview(page).getByText('of work').first().waitFor();
  });
});

describe('two who write at once', () => {
  /** Somebody else saves the next version; gives its number. */
  const theirs = async (): Promise<number> => {
    const now = (await has('procedures/panel')) as { version: number; [key: string]: unknown };
    const { name, steps, links, choices, version } = now;
    const body = { name: `${String(name)}, theirs`, steps, links, choices };
    const token = tokens.foreman;
    const saved = await api.rest('POST', '/yards/small/procedures/panel/versions', { token, body });
    expect(saved.status).toBe(201);
    return version + 1;
  };

  test('do not replace each other unseen where both save in one moment', async () => {
    const page = await open('/panel');
    await press(page, 'Write a new version');
    await field(page, 'Name').first().fill('Panel, in haste');
    let written = 0;
    await page.route('**/procedures/panel/versions', async (route) => {
      if (written === 0) written = await theirs();
      return route.continue();
    });
    await press(page, /^Save as version/);
    await page.getByText(/Somebody else has changed this meanwhile/).waitFor();
    await page.getByText(`Somebody else has saved version ${String(written)}`).waitFor();
    expect(await has('procedures/panel')).toMatchObject({ version: written });
    await isFit(page, 'procedure-stale');
    await press(page, 'Go on with mine');
    expect(await field(page, 'Name').first().inputValue()).toBe('Panel, in haste');
    await press(page, `Save as version ${String(written + 1)}`);
    await page.getByRole('heading', { level: 1, name: 'Panel, in haste' }).waitFor();
    expect(await has('procedures/panel')).toMatchObject({ version: written + 1 });
  });

  test('hear of each other before the second saves', async () => {
    const page = await open('/panel');
    await press(page, 'Write a new version');
    await field(page, 'Name').first().fill('Panel, mine');
    const written = await theirs();
    await page.getByText(`Somebody else has saved version ${String(written)}`).waitFor();
    const save = page.getByRole('button', { name: `Save as version ${String(written + 1)}` });
    expect(await save.isDisabled()).toBe(true);
    await isFit(page, 'procedure-behind');
    await press(page, 'Go on with mine');
    expect(await field(page, 'Name').first().inputValue()).toBe('Panel, mine');
    await save.click();
    await page.getByRole('heading', { level: 1, name: 'Panel, mine' }).waitFor();
    expect(await has('procedures/panel')).toMatchObject({ version: written + 1 });
  });
});

describe('a new procedure', () => {
  test('begins as a copy, and is found under a readable address', async () => {
    const page = await open('/+');
    await field(page, 'Begin with a copy of').selectOption('Panel, mine');
    await field(page, 'Name').first().fill('Thick <i>panel</i>');
    await press(page, 'Save this procedure');
    await page.waitForURL(`**${room}/thick-i-panel-i`);
    await page
      .getByRole('heading', { level: 1, name: 'Thick <i>panel</i>', exact: true })
      .waitFor();
    await preview(page).getByText('of work').first().waitFor();
    expect(await has('procedures/thick-i-panel-i')).toMatchObject({
      version: 1,
      name: 'Thick <i>panel</i>',
    });
  });
});
