import type { Locator, Page, Route } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { addDays, weekStart } from '#calendar/local-date.ts';
import { toLocal } from '#calendar/local-time.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { testApi } from '../support/api.ts';
import { axeFaults, shot, sidewaysScroll, testScreens } from '../support/browser.ts';
import { testDatabase } from '../support/database.ts';
import { publishPlan } from '../support/published-plan.ts';
import { twoBoats } from '../support/two-boats.ts';
import { settled, watchRequests } from './looks/settled.ts';

/** The foreman's week in a browser: lanes, films, sentences, the keyboard, the hand, and what is live. */
const database = testDatabase();
const api = testApi(database);
const screens = testScreens(api);
const today = toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date;
const monday = addDays(weekStart(today), -7);
const address = (more = '', yardId = 'small'): string =>
  `/yards/${yardId}/week?from=${yardId === 'small' ? monday : addDays(monday, 14)}${more}`;
const [layUp, fair, rub] = ['petrel-panel.lay-up', 'petrel-panel.fair', 'heron-rub.fair'];
const tokens = new Map<string, string>();

/** With work besides that waits for no film and can be put aside. */
function withRubbing(yard: YardInput): YardInput {
  const [panel] = yard.procedures ?? [];
  const steps = panel.steps.filter(({ id }) => id === 'fair');
  const refit = yard.boats?.find(({ id }) => id === 'heron')?.refits?.[0];
  refit?.parts?.push({
    id: 'heron-locker',
    name: 'Locker of Heron',
    space: 'hull',
    areaM2: 1,
    jobs: [{ id: 'heron-rub', procedure: 'rub' }],
  });
  return {
    ...yard,
    procedures: [panel, { id: 'rub', version: 1, name: 'Rub down', steps, links: [] }],
  };
}

beforeAll(async () => {
  for (const who of ['ines', 'bram']) {
    await api.addAccount(`${who}@yard.test`);
    tokens.set(who, await api.signIn(`${who}@yard.test`));
  }
  const sending = { token: tokens.get('ines') ?? '', body: withRubbing(twoBoats(today)) };
  const made = await api.rest('POST', '/yards', sending);
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
  await api.join('small');
  // One whose plan lies ahead (what is past cannot be moved), and in which Heron cannot keep its promise.
  const later = { ...twoBoats(addDays(monday, 21)), id: 'later' };
  const heron = (later.boats ?? []).find(({ id }) => id === 'heron')?.refits?.[0];
  if (heron) heron.promised = `${addDays(monday, 14)}T16:00:00Z`;
  const second = await api.rest('POST', '/yards', { ...sending, body: later });
  if (second.status !== 201) throw new Error(JSON.stringify(second.body));
});

const picture = (page: Page): Locator =>
  page.getByRole('region', { name: 'The week as a picture' });
/** The plank that stands for a task. */
const plank = (page: Page, taskId: string): Locator =>
  picture(page).locator(`button[data-task="${taskId}"]`).first();
const lanes = (page: Page): Promise<string[]> =>
  picture(page).locator('[data-lane] strong').allInnerTexts();
const focused = (page: Page): Promise<string> =>
  page.evaluate<string>(`document.activeElement?.dataset.task ?? ''`);

const open = async (more = '', width = 1440, yardId = 'small'): Promise<Page> => {
  const page = await screens.signedIn('ines@yard.test', { width });
  page.setDefaultTimeout(40_000);
  await page.goto(address(more, yardId));
  await picture(page).locator('button[data-task]').first().waitFor();
  return page;
};

test('without a published plan the page says how to come by one', async () => {
  const page = await screens.signedIn('ines@yard.test');
  await page.goto('/yards/small/week');
  await page.getByText('No plan is published yet').waitFor();
  const way = page.getByRole('link', { name: 'To the plans' });
  expect(await way.getAttribute('href')).toBe('/yards/small/plans');
});

describe('the picture', () => {
  beforeAll(() => publishPlan(database, 'small'));

  test('has lanes by people, spaces and boats, and the same as tables', async () => {
    const page = await open();
    expect(await lanes(page)).toEqual(
      expect.arrayContaining(['Bram', 'anke', 'cato', 'dirk', 'elin', 'fay']),
    );
    expect(await axeFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    await shot(page, 'week-people');

    await page.getByRole('button', { name: 'Spaces', exact: true }).click();
    await expect.poll(() => lanes(page)).toEqual(['Bench bay', 'Open hull']);
    // A film is drawn under the work that laid it, and only there.
    const films = picture(page).locator('[data-lane="bay"] [data-film]');
    await expect.poll(() => films.count()).toBe(1);
    expect(await films.getAttribute('data-task')).toBe(layUp);
    await shot(page, 'week-spaces');

    await page.getByRole('button', { name: 'Boats', exact: true }).click();
    await expect.poll(() => lanes(page)).toEqual(['Petrel', 'Heron']);
    await shot(page, 'week-boats');

    await page.getByRole('button', { name: 'As a table', exact: true }).click();
    const table = page.getByRole('region', { name: 'Petrel', exact: true }).first();
    await table.getByRole('button', { name: 'lay-up' }).first().waitFor();
    expect(await table.innerText()).toContain('hard from');
    expect(await axeFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    expect(new URL(page.url()).search).toContain('as=table');
  });

  test('opens at the present, which passes under the names', async () => {
    const page = await screens.signedIn('ines@yard.test', { width: 768 });
    await page.goto(`/yards/small/week?from=${addDays(monday, 7)}`);
    const now = picture(page).getByText(/^now \d/);
    await now.waitFor();
    const [frame, there] = [await picture(page).boundingBox(), await now.boundingBox()];
    if (frame === null || there === null) throw new Error('nothing is drawn');
    expect(there.x).toBeGreaterThan(frame.x);
    expect(there.x + there.width).toBeLessThanOrEqual(frame.x + frame.width);
    await shot(page, 'week-now');
    const name = await picture(page).locator('[data-lane] strong').first().boundingBox();
    const past = there.x - (name?.x ?? 0);
    await picture(page).evaluate((box, by) => {
      box.scrollLeft += by;
    }, past);
    await shot(page, 'week-now-scrolled');
  });

  test('is gone through by keyboard, opened by Enter, and turned by pages', async () => {
    const page = await open('&by=spaces');
    await picture(page).focus();
    await page.keyboard.press('Tab');
    expect(await focused(page)).toBe(layUp);
    await page.keyboard.press('ArrowRight');
    expect(await focused(page)).toBe(fair);
    await page.keyboard.press('ArrowDown');
    expect(await focused(page)).toMatch(/^heron-/);
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Home');
    expect(await focused(page)).toBe(layUp);
    // Of all planks one is on the way of the Tab key.
    expect(await picture(page).locator('button[tabindex="0"]').count()).toBe(1);

    await page.keyboard.press('Enter');
    const panel = page.getByRole('dialog');
    await panel.getByRole('heading', { name: 'lay-up' }).waitFor();
    await page.keyboard.press('Escape');
    await panel.waitFor({ state: 'detached' });
    expect(await focused(page)).toBe(layUp);

    await page.keyboard.press('PageDown');
    await expect.poll(() => new URL(page.url()).searchParams.get('from')).toBe(addDays(monday, 7));
    // Other days come, and whoever turns goes on turning.
    const region = (): Promise<string | null> =>
      page.evaluate<string | null>(`document.activeElement?.getAttribute('aria-label')`);
    await expect.poll(() => plank(page, layUp).count()).toBe(0);
    expect(await region()).toBe('The week as a picture');
    await page.keyboard.press('PageUp');
    await plank(page, layUp).waitFor();
    await page.keyboard.press('Tab');
    expect(await focused(page)).toBe(layUp);
  });

  test('stays where it is when other days cannot be read, until they can', async () => {
    const page = await open('&by=spaces');
    const stop = (route: Route): Promise<void> => route.abort('connectionrefused');
    const from = (): string | null => new URL(page.url()).searchParams.get('from');
    const after = page.getByRole('button', { name: 'Week after', exact: true });
    const again = page.getByRole('button', { name: 'Try again', exact: true });
    await page.route(/\/picture/, stop);
    await after.click();
    await again.waitFor();
    await plank(page, layUp).waitFor();
    expect(await page.locator('[aria-busy="true"]').count()).toBe(0);
    await after.click();
    await again.waitFor();
    expect(from()).toBe(addDays(monday, 7));
    await page.unroute(/\/picture/, stop);
    await after.click();
    await again.waitFor({ state: 'detached' });
    await expect.poll(() => plank(page, layUp).count()).toBe(0);
    expect(from()).toBe(addDays(monday, 7));
  });

  test('says what is late, also what is left from before its days', async () => {
    const page = await open('&by=spaces');
    await expect.poll(() => plank(page, layUp).getAttribute('data-late')).toBe('');
    expect(await plank(page, layUp).getAttribute('aria-label')).toContain(
      'should have begun by now',
    );
    await page.getByRole('button', { name: 'This week', exact: true }).click();
    await expect.poll(() => plank(page, layUp).count()).toBe(0);
    await page.getByText(/tasks should have begun by now:/).waitFor();
    const late = page.getByRole('button', { name: 'lay-up on Hatch of Petrel', exact: true });
    expect(await axeFaults(page)).toEqual([]);
    await page.getByText('The week does not hold', { exact: true }).waitFor();
    await shot(page, 'week-left');
    await late.click();
    await page.getByRole('dialog').getByRole('heading', { name: 'lay-up' }).waitFor();
    await page.keyboard.press('Escape');
    // Of the week after, which does not have what is left, it is not said that it holds.
    await page.getByRole('button', { name: 'Week after', exact: true }).click();
    await page.getByText('This plan', { exact: true }).waitFor();
    expect(await page.getByText('The week holds', { exact: true }).count()).toBe(0);
  });

  test('is read again when its days are over while it is open', async () => {
    const page = await screens.signedIn('ines@yard.test');
    await page.clock.install();
    await page.goto('/yards/small/week');
    await page.getByText('The week does not hold', { exact: true }).waitFor();
    await page.waitForLoadState('networkidle');
    const read: string[] = [];
    page.on('request', (request) => read.push(request.url()));
    const pictures = (): number => read.filter((url) => url.includes('/picture')).length;
    await page.clock.fastForward(61_000);
    expect(pictures()).toBe(0);
    await page.clock.setSystemTime(new Date(`${addDays(monday, 14)}T12:00:00Z`));
    await page.clock.fastForward(61_000);
    await expect.poll(pictures).toBe(1);
  });

  test('on a phone is a day at a time, lanes one below the other', async () => {
    const page = await open('', 360);
    expect(await sidewaysScroll(page)).toBe(0);
    expect(await axeFaults(page)).toEqual([]);
    const first = await page.getByRole('heading', { level: 1 }).innerText();
    await shot(page, 'week-day');
    await page.getByRole('button', { name: 'After', exact: true }).click();
    await expect.poll(() => page.getByRole('heading', { level: 1 }).innerText()).not.toBe(first);
    expect(await sidewaysScroll(page)).toBe(0);
  });
});

describe('the binding chain', () => {
  test('lights planks, and planks light its sentences', async () => {
    const page = await open('&by=boats');
    const chain = page.getByRole('region', { name: 'Why the boats take so long' });
    await chain.getByLabel('Boat').selectOption({ label: 'Petrel, Petrel, hatch' });
    const sentences = chain.locator('ol > li');
    expect(await sentences.count()).toBeGreaterThan(1);
    const last = sentences.last();
    await last.getByRole('button').hover();
    await expect.poll(() => plank(page, fair).getAttribute('data-lit')).toBe('');
    await page.mouse.move(0, 0);
    await expect.poll(() => plank(page, fair).getAttribute('data-lit')).toBeNull();
    await plank(page, fair).focus();
    await expect.poll(() => last.getAttribute('data-lit')).toBe('true');
    await expect.poll(() => sentences.first().getAttribute('data-lit')).toBe('false');
  });
});

test('a sentence of the chain leads to its plank, in whichever week that is', async () => {
  const page = await screens.signedIn('ines@yard.test');
  await page.goto(`/yards/small/week?from=${addDays(monday, 28)}&by=boats`);
  const chain = page.getByRole('region', { name: 'Why the boats take so long' });
  await chain.getByLabel('Boat').selectOption({ label: 'Petrel, Petrel, hatch' });
  await chain.locator('ol > li').last().getByRole('button').click();
  await expect.poll(() => focused(page)).toBe(fair);
  // One of a task that the plan does not have says so.
  await page.route(/\/picture/, async (route) => {
    const response = await route.fetch();
    const body = (await response.text()).replaceAll(`"toTask":"${fair}"`, '"toTask":"gone"');
    await route.fulfill({ response, body });
  });
  await page.reload();
  await chain.getByLabel('Boat').selectOption({ label: 'Petrel, Petrel, hatch' });
  await chain.locator('ol > li').last().getByRole('button').click();
  await chain.getByText('the plan has it no more').waitFor();
});

describe('a plank in the hand', () => {
  const fits = 'It fits. Let go to set it.';
  beforeAll(() => publishPlan(database, 'later'));

  const drag = async (page: Page, taskId: string, byX: number): Promise<void> => {
    await plank(page, taskId).scrollIntoViewIfNeeded();
    const box = await plank(page, taskId).boundingBox();
    if (box === null) throw new Error(`${taskId} is not in sight`);
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + byX / 2, y, { steps: 4 });
    await page.mouse.move(x + byX, y, { steps: 4 });
  };

  test('lies in the lane of a boat that says in full how late it is', async () => {
    const page = await open('&by=boats', 768, 'later');
    const heron = picture(page).locator('[data-lane="heron-refit"]');
    await heron.getByText(/ late$/).waitFor();
    for (const name of await picture(page).locator('[data-lane] > div:first-child').all()) {
      const isWhole = await name.evaluate((one) => one.scrollHeight <= one.clientHeight);
      expect(isWhole).toBe(true);
    }
    expect(await sidewaysScroll(page)).toBe(0);
    await shot(page, 'week-late');
  });

  test('is told at the spot why it cannot lie there, and stays where it was', async () => {
    const page = await open('&by=spaces');
    await plank(page, fair).scrollIntoViewIfNeeded();
    const before = await plank(page, fair).boundingBox();
    await drag(page, fair, -240);
    const said = picture(page).getByText('Not here:');
    await said.waitFor();
    await page.mouse.up();
    const alert = picture(page).getByRole('alert');
    await alert.waitFor();
    expect(await alert.locator('li').count()).toBeGreaterThan(0);
    expect(await alert.innerText()).toMatch(/sand/i);
    await shot(page, 'week-not-here');
    expect(await page.getByRole('dialog').count()).toBe(0);
    expect(await plank(page, fair).boundingBox()).toEqual(before);
    await alert.getByRole('button', { name: 'Close' }).click();
    await alert.waitFor({ state: 'detached' });
  });

  test('takes the days beyond the edge along', async () => {
    const page = await open('&by=spaces&closer=4', 1440, 'later');
    await drag(page, fair, 24);
    const [frame, at] = [await picture(page).boundingBox(), await plank(page, fair).boundingBox()];
    if (frame === null || at === null) throw new Error('nothing is drawn');
    const scrolled = (): Promise<number> => picture(page).evaluate((box) => box.scrollLeft);
    const before = await scrolled();
    await page.mouse.move(frame.x + frame.width - 8, at.y + 20, { steps: 4 });
    await expect.poll(scrolled).toBeGreaterThan(before + 200);
    await page.keyboard.press('Escape');
    // What was to be drawn next may still have been on its way.
    await page.evaluate(
      'new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)))',
    );
    const after = await scrolled();
    await page.waitForTimeout(100);
    expect(await scrolled()).toBe(after);
    await page.mouse.up();
  });

  test('is opened with its new place filled in where it fits; Escape lets it go', async () => {
    const page = await open('&by=spaces', 1440, 'later');
    await drag(page, fair, 240);
    await picture(page).getByText(fits, { exact: true }).waitFor();
    await page.keyboard.press('Escape');
    await page.mouse.up();
    const dialog = page.getByRole('dialog');
    expect(await dialog.count()).toBe(0);
    await plank(page, fair).focus();
    await page.keyboard.press('Enter');
    await dialog.getByRole('heading', { name: 'fair' }).waitFor();
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
    await drag(page, fair, 240);
    await picture(page).getByText(fits, { exact: true }).waitFor();
    await page.mouse.up();
    await dialog.getByRole('heading', { name: 'fair' }).waitFor();
    const start = await dialog.locator('input[type="datetime-local"]').first().inputValue();
    expect(start).not.toBe('');
  });
});

describe('two people', () => {
  test('see the same as soon as it is reported', async () => {
    const [one, other] = [await open('&by=spaces'), await open('&by=boats')];
    for (const page of [one, other]) watchRequests(page);
    const send = async (path: string, body: object = {}) => {
      const sending = { token: tokens.get('bram') ?? '', body };
      const answer = await api.rest('POST', `/yards/small/${path}`, sending);
      expect(answer.status, JSON.stringify(answer.body)).toBeLessThan(300);
      return answer;
    };
    const both = async (state: string, taskId: string): Promise<void> => {
      for (const page of [one, other]) {
        await expect.poll(() => plank(page, taskId).getAttribute('data-state')).toBe(state);
      }
    };
    const claim = async (taskId: string): Promise<string> =>
      z.string().parse((await send(`tasks/${taskId}/claims`)).body.id);
    await both('waiting', rub);
    const rubbing = await claim(rub);
    await both('claimed', rub);
    // The socket stands, so the first reading and the one of that moment are over.
    const read: string[] = [];
    for (const page of [one, other]) {
      await settled(page);
      page.on('request', (request) => read.push(request.url()));
    }
    await send(`claims/${rubbing}/start`);
    await both('working', rub);
    await send(`claims/${rubbing}/pause`, { leftMinutes: 30 });
    await both('paused', rub);
    await send(`claims/${rubbing}/resume`);
    await both('working', rub);
    await send(`claims/${rubbing}/finish`);
    await both('done', rub);

    const laying = await claim(layUp);
    await both('claimed', layUp);
    await send(`claims/${laying}/start`);
    await both('working', layUp);
    expect(await plank(one, layUp).getAttribute('aria-label')).toContain('being worked on by Bram');
    await send(`claims/${laying}/finish`);
    await both('done', layUp);
    // Reports of work change their plank; the week is not read again for them.
    expect(read.filter((url) => url.includes('/picture'))).toEqual([]);
  });
});
