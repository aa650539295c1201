import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { testApi } from '../support/api.ts';
import { axeFaults, shot, sidewaysScroll, testScreens } from '../support/browser.ts';
import { testDatabase } from '../support/database.ts';
import { loseAnswer } from '../support/lost-answer.ts';
import { type Process, startWorkerProcess } from '../support/processes.ts';
import { smallYard } from '../support/small-yard.ts';

const database = testDatabase();
const api = testApi(database);
const screens = testScreens(api);
const email = 'perrin@yard.test';
let worker: Process | undefined;

beforeAll(async () => {
  await api.addAccount(email);
  await api.addAccount('importer@yard.test');
  worker = await startWorkerProcess(database.serviceUrl);
}, 120_000);
afterAll(async () => {
  await worker?.end('SIGTERM');
});

/** Somebody who goes by the screens alone, and how much of it they had to do. */
function hand(page: Page) {
  const done = { presses: 0, fields: 0 };
  return {
    done,
    press: async (button: Locator): Promise<void> => {
      done.presses += 1;
      await button.click();
    },
    type: async (field: Locator, text: string): Promise<void> => {
      done.fields += 1;
      await field.fill(text);
    },
    choose: async (field: Locator, label: string): Promise<void> => {
      done.fields += 1;
      await field.selectOption({ label });
    },
    button: (name: string | RegExp): Locator => page.getByRole('button', { name, exact: true }),
    link: (name: string): Locator => page.getByRole('link', { name, exact: true }),
  };
}

describe('somebody alone with an empty account', () => {
  test('comes from nothing to a published plan by the screens alone, asked for little', async () => {
    const page = await screens.signedIn(email);
    page.setDefaultTimeout(40_000);
    const { done, press, type, choose, button, link } = hand(page);
    await page.goto('/');
    await press(link('Begin a yard'));
    await page.getByRole('heading', { level: 1, name: 'Begin a yard' }).waitFor();
    expect(await axeFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    await shot(page, 'begin');
    await type(page.getByLabel('Name of the yard'), 'Own shed');
    await press(page.getByLabel('Alone: I do the work myself'));
    await press(page.getByLabel('Boats here are my own'));
    // Whatever the day on which the test runs, somebody works on it.
    await press(page.getByLabel('Saturday'));
    await press(page.getByLabel('Sunday'));
    // The first answer is lost: pressed again, it is not made twice.
    await loseAnswer(page, '/api/v1/yards');
    await press(button('Make the yard'));
    await page.getByText('The yard cannot be reached').waitFor();
    await button('Make the yard').click();
    await page.waitForURL('**/yards/own-shed/set-up');
    await page.getByRole('heading', { name: 'Before the first plan' }).waitFor();
    await shot(page, 'begin-set-up');
    await press(link('Go there'));
    await press(link('New boat'));
    await type(page.getByLabel('Name', { exact: true }), 'Wren');
    await press(button('Save'));
    await page.getByRole('heading', { level: 1, name: 'Wren' }).waitFor();
    await press(button('Add a refit'));
    const dialog = page.getByRole('dialog');
    const save = async (): Promise<void> => {
      await press(dialog.getByRole('button', { name: 'Save', exact: true }));
      await dialog.waitFor({ state: 'detached' });
    };
    await type(dialog.getByLabel('Name of the refit'), 'Winter list');
    await save();
    await press(button('Add a part'));
    await type(dialog.getByLabel('Name of the part'), 'Rudder');
    await choose(dialog.getByLabel('It is in'), 'Shed');
    await type(dialog.getByLabel('Area', { exact: true }), '0.8');
    await press(dialog.getByRole('button', { name: 'Add a layer' }));
    await save();
    await press(button('Add a job to Rudder'));
    await choose(dialog.getByLabel('Procedure'), 'Fair and sand');
    await save();

    await press(link('Plans'));
    await type(page.getByLabel('Time to search'), '2');
    await press(button('Make a plan'));
    await page.getByRole('heading', { name: 'The plan is ready.' }).waitFor({ timeout: 100_000 });
    await press(link('What it changes'));
    await press(button('Publish this plan'));
    await press(dialog.getByRole('button', { name: 'Publish this plan' }));
    await page.getByText('It is published.').waitFor();

    const token = await api.signIn(email);
    expect((await api.rest('GET', '/yards', { token })).body).toMatchObject({
      items: [{ id: 'own-shed' }],
    });
    // The service says so too, and all work of the rudder is in it.
    const plan = await api.rest('GET', '/yards/own-shed/published-plan', { token });
    expect(plan.status).toBe(200);
    expect(plan.body['boats']).toMatchObject([{ boat: 'Wren' }]);
    const work = await api.rest('GET', '/yards/own-shed/tasks', { token });
    const { items } = z.object({ items: z.array(z.unknown()).min(1) }).parse(work.body);
    expect(plan.body['tasks']).toHaveLength(items.length);
    // As few as it takes at present, the weekend's two among them: one more is to be argued for.
    expect(done.presses).toBeLessThanOrEqual(21);
    expect(done.fields).toBeLessThanOrEqual(8);
    await page.goto('/');
    await page.waitForURL('**/yards/own-shed/now');
  }, 300_000);
});

describe('a yard file', () => {
  const beginFromFile = async (): Promise<Page> => {
    const page = await screens.signedIn('importer@yard.test', { width: 360 });
    await page.goto('/begin');
    await page.getByLabel('A yard file').check();
    return page;
  };
  const takeIn = (page: Page): Promise<void> =>
    page.getByRole('button', { name: 'Take this yard in' }).click();
  const paste = (page: Page): Locator => page.getByLabel('Or paste what is in it');

  test('is refused with where it is wrong and what to do, keeps what was pasted, and makes nothing', async () => {
    const page = await beginFromFile();
    await takeIn(page);
    await page.getByRole('alert').getByText('There is nothing to take in yet').waitFor();
    await paste(page).fill('{ "format": ');
    await takeIn(page);
    await page
      .getByRole('alert')
      .getByText(/This is no yard file/)
      .waitFor();
    const wrong = smallYard('torn', 'Torn yard');
    const text = JSON.stringify({ ...wrong, spaces: [], timeZone: 'Europe/Nowhere' });
    await paste(page).fill(text);
    await page.getByText('Torn yard: 3 people, 1 boat.').waitFor();
    await takeIn(page);
    const alert = page.getByRole('alert');
    await alert.getByText('timeZone').first().waitFor();
    expect(await alert.innerText()).toContain('Europe/Nowhere');
    expect(await paste(page).inputValue()).toBe(text);
    expect(await axeFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    await shot(page, 'begin-file-refused');
    const token = await api.signIn('importer@yard.test');
    expect((await api.rest('GET', '/yards', { token })).body).toEqual({ items: [] });
  });

  test('is taken in as a whole, from a file too, and under another id where its own is taken', async () => {
    const token = await api.signIn(email);
    const taken = await api.rest('POST', '/yards', { token, body: smallYard('quay') });
    expect(taken.status).toBe(201);
    const page = await beginFromFile();
    await page.getByLabel('Choose the file').setInputFiles({
      name: 'quay.json',
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify(smallYard('quay', 'Old quay'))),
    });
    await page.getByText('Old quay: 3 people, 1 boat.').waitFor();
    await takeIn(page);
    await page.getByLabel('Id in this service').fill('old-quay');
    await takeIn(page);
    await page.waitForURL('**/yards/old-quay/set-up');
    const mine = await api.signIn('importer@yard.test');
    const made = await api.rest('GET', '/yards/old-quay/export', { token: mine });
    expect(made.body).toMatchObject({ name: 'Old quay', boats: [{}] });
  });
});

test('a yard whose name another has is made once too, though its answer is lost', async () => {
  const body = smallYard('pier');
  const taken = await api.rest('POST', '/yards', { token: await api.signIn(email), body });
  expect(taken.status).toBe(201);
  const page = await screens.signedIn('importer@yard.test');
  await page.goto('/begin');
  await page.getByLabel('Nothing').check();
  await page.getByLabel('Name of the yard').fill('Pier');
  let isLost = false;
  await page.route('**/api/v1/yards', async (route) => {
    if (isLost || route.request().method() !== 'POST') return route.fallback();
    const response = await route.fetch();
    isLost = response.ok();
    return isLost ? route.abort('connectionrefused') : route.fulfill({ response });
  });
  const make = page.getByRole('button', { name: 'Make the yard' });
  await make.click();
  await page.getByText('The yard cannot be reached').waitFor();
  expect(isLost).toBe(true);
  await make.click();
  await page.waitForURL(/\/yards\/pier-\w+\/set-up$/);
  const mine = await api.rest('GET', '/yards', { token: await api.signIn('importer@yard.test') });
  const { items } = z.object({ items: z.array(z.object({ name: z.string() })) }).parse(mine.body);
  expect(items.filter(({ name }) => name === 'Pier')).toHaveLength(1);
});
