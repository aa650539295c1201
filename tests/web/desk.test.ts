import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { toLocal } from '#calendar/local-time.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { type Answer, testApi } from '../support/api.ts';
import { axeFaults, shot, sidewaysScroll, testScreens } from '../support/browser.ts';
import { testDatabase } from '../support/database.ts';
import { planted } from '../support/planted.ts';
import { type Process, startWorkerProcess } from '../support/processes.ts';
import { publishPlan } from '../support/published-plan.ts';
import { twoBoats } from '../support/two-boats.ts';

/** Everything that waits for the foreman's word, and the word itself. */
const database = testDatabase();
const photoFolder = join(tmpdir(), `curewright-desk-${crypto.randomUUID()}`);
const api = testApi(database, { photoFolder });
const screens = testScreens(api);
const block = {
  more: { serviceWorkers: 'block' },
  allow: /registration blocked by Playwright/,
} as const;

const people = ['ines', 'bram', 'anke', 'odile'] as const;
type Name = (typeof people)[number];
const mailOf = (name: Name): string => `${name}@yard.test`;
const tokens = new Map<Name, string>();
const call = (who: Name, method: string, path: string, body?: unknown): Promise<Answer> =>
  api.rest(method, `/yards/small${path}`, {
    token: tokens.get(who) ?? '',
    ...(body === undefined ? {} : { body }),
  });
const idOf = ({ body }: Answer): string => z.string().parse(body.id);
const hoursAgo = (hours: number): Date =>
  new Date(Math.floor((Date.now() - hours * 3_600_000) / 60_000) * 60_000);

/** The Heron's panel is looked at by a surveyor before it is faired; a lift of it is to be booked. */
function surveyed(): YardInput {
  const yard = twoBoats(toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date);
  const [panel] = yard.procedures ?? [];
  const look = {
    id: 'look',
    name: 'Surveyor looks',
    effort: { source: 'nobody works' },
    skill: null,
    crewMin: 0,
    crewMax: 0,
    air: 'clean' as const,
    splittable: false,
  };
  const words = [{ step: 'look', expected: hoursAgo(24).toISOString() }];
  const then = { opens: { kind: 'after' as const, minutes: 0 } };
  return {
    ...yard,
    procedures: [
      panel,
      {
        ...panel,
        id: 'surveyed',
        steps: [...panel.steps, look],
        links: [
          ...panel.links,
          { id: 'seen', from: 'lay-up', to: 'look', ...then },
          { id: 'then', from: 'look', to: 'fair', ...then },
        ],
      },
    ],
    boats: yard.boats?.map((boat) =>
      boat.id === 'petrel'
        ? boat
        : {
            ...boat,
            refits: boat.refits?.map((refit) => ({
              ...refit,
              parts: refit.parts?.map((part) => ({
                ...part,
                jobs: [{ id: 'heron-panel', procedure: 'surveyed', words }],
              })),
            })),
          },
    ),
  };
}

let worker: Process | undefined;

/** As if it had been done in time, past the service. */
async function isDone(taskId: string): Promise<void> {
  await database.owner.task.update({
    where: { yardId_id: { yardId: 'small', id: taskId } },
    data: { state: 'done', startedAt: hoursAgo(60), finishedAt: hoursAgo(58) },
  });
}

beforeAll(async () => {
  for (const name of people) {
    await api.addAccount(mailOf(name));
    tokens.set(name, await api.signIn(mailOf(name)));
  }
  const made = await api.rest('POST', '/yards', {
    token: tokens.get('ines') ?? '',
    body: surveyed(),
  });
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
  await api.join('small');
  await publishPlan(database, 'small');
  await isDone('heron-panel.lay-up');
  await isDone('petrel-panel.lay-up');
  await planted(database, 'small');
  worker = await startWorkerProcess(database.serviceUrl);
}, 120_000);
afterAll(async () => {
  await worker?.end('SIGKILL');
  await rm(photoFolder, { recursive: true, force: true });
});

async function isFit(page: Page, name: string): Promise<void> {
  expect(await axeFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  await shot(page, name);
}

const entry = (page: Page, name: string | RegExp) =>
  page.getByRole('listitem').filter({ has: page.getByRole('link', { name }) });

/** A finish of what nobody has begun. */
async function heldReport(who: Name, key: string): Promise<string> {
  const at = new Date().toISOString();
  const { body } = await call(who, 'POST', '/reports', {
    sentAt: at,
    reports: [{ key, at, command: { kind: 'finish', taskId: 'petrel-panel.fair' } }],
  });
  const { items } = z
    .object({
      items: z.array(z.object({ outcome: z.string(), report: z.looseObject({ id: z.string() }) })),
    })
    .parse(body);
  expect(items[0].outcome).toBe('held');
  return items[0].report.id;
}

describe('the desk', () => {
  test('lists what waits, and what comes while one looks at it', async () => {
    const page = await screens.signedIn(mailOf('ines'), { width: 360, ...block });
    await page.goto('/yards/small/desk');
    await page.getByRole('heading', { level: 1, name: 'Desk' }).waitFor();
    await entry(page, /Waits for a word: Surveyor looks/).waitFor();
    const report = await heldReport('bram', 'first');
    const held = entry(page, /Bram: has finished/);
    await held.waitFor();
    expect(await held.innerText()).toContain('Held report');
    await page.getByRole('heading', { level: 2, name: 'Now' }).waitFor();
    await isFit(page, 'desk-list');

    await held.getByRole('link').click();
    await page.getByText('Why it is held').waitFor();
    expect(new URL(page.url()).pathname).toBe(`/yards/small/desk/report/${report}`);
    await isFit(page, 'desk-report');
    await page.getByRole('button', { name: 'Dismiss it' }).click();
    const dialog = page.getByRole('dialog', { name: 'Dismiss this report?' });
    await dialog.getByLabel(/^Why it is not carried out/).fill('Wrong panel: nothing was faired.');
    await dialog.getByRole('button', { name: 'Dismiss it' }).click();
    await page.getByText('It is dismissed.').waitFor();
    const { body } = await call('bram', 'GET', `/reports/${report}`);
    expect(body).toMatchObject({ outcome: 'dismissed', note: 'Wrong panel: nothing was faired.' });
    await page.getByRole('link', { name: 'All that waits' }).click();
    await page.getByRole('heading', { level: 1, name: 'Desk' }).waitFor();
    await expect.poll(() => held.count(), { timeout: 15_000 }).toBe(0);
  });

  test('carries a held report out only where that can be, and keeps what was typed', async () => {
    const report = await heldReport('bram', 'second');
    const page = await screens.signedIn(mailOf('ines'), block);
    await page.goto(`/yards/small/desk/report/${report}`);
    await page.getByLabel(/^A note/).fill('He says so.');
    await page.getByRole('button', { name: 'Carry it out' }).click();
    await page.getByRole('alert').waitFor();
    expect(await page.getByLabel(/^A note/).inputValue()).toBe('He says so.');
    await call('ines', 'POST', `/reports/${report}/settle`, { as: 'dismissed', note: 'x' });
    // Settled by somebody else: this page says so by itself.
    await page.getByText('It is dismissed.').waitFor();
  });

  test('a word that has come lets the work go on that waited for it', async () => {
    const page = await screens.signedIn(mailOf('ines'), { theme: 'dark', ...block });
    await page.goto('/yards/small/desk');
    await page.getByRole('link', { name: /Waits for a word: Surveyor looks/ }).click();
    await page.getByRole('button', { name: 'The word has come' }).waitFor();
    await isFit(page, 'desk-word');
    await page.getByRole('button', { name: 'The word has come' }).click();
    await page.getByText('It is noted. What waited for it may begin.').waitFor();
    const task = await database.owner.task.findUniqueOrThrow({
      where: { yardId_id: { yardId: 'small', id: 'heron-panel.look' } },
    });
    expect(task.state).toBe('done');
  });

  test('a snag: its photo, the rework worked out and priced, ordered; shown to the owner', async () => {
    const raised = await call('anke', 'POST', '/parts/petrel-hatch/snags', {
      kind: 'delamination',
      words: 'Sounds dull near the <script>alert(1)</script> forward edge.',
      taskId: 'petrel-panel.lay-up',
    });
    expect(raised.status, JSON.stringify(raised.body)).toBe(201);
    const id = idOf(raised);
    const picture = sharp({
      create: { width: 600, height: 400, channels: 3, background: '#b9a48a' },
    });
    await fetch(`${api.url}/api/v1/yards/small/snags/${id}/photos`, {
      method: 'POST',
      headers: { authorization: `Bearer ${tokens.get('anke') ?? ''}`, 'content-type': 'image/png' },
      body: new Uint8Array(await picture.png().toBuffer()),
    });
    const page = await screens.signedIn(mailOf('ines'), { width: 360, ...block });
    await page.goto('/yards/small/desk');
    await page.getByRole('link', { name: /on Hatch of Petrel$/ }).click();
    await page.getByText('Sounds dull near the <script>').waitFor();
    await page.getByText(/^Found by anke, /).waitFor();
    await page.getByRole('img', { name: /^Photo 1 of 1/ }).waitFor();
    await page.getByLabel('The owner sees it, with its photos').check();
    await page.getByText('The owner sees it now.').waitFor();
    expect((await call('odile', 'GET', `/snags/${id}`)).status).toBe(200);

    await page.getByRole('button', { name: 'Correct it' }).click();
    const dialog = page.getByRole('dialog', { name: 'Correct it' });
    await dialog.getByLabel('What was found, and where').fill('Sounds dull, a hand wide.');
    await dialog.getByRole('button', { name: 'Save' }).click();
    await page.getByText('Sounds dull, a hand wide.').waitFor();

    await page.getByRole('button', { name: 'Work out the rework' }).click();
    // The price comes by itself.
    await page.getByRole('button', { name: 'Order this rework' }).waitFor({ timeout: 60_000 });
    await isFit(page, 'desk-snag');
    await page.getByRole('button', { name: 'Order this rework' }).click();
    await page.getByText(/^Rework ordered /).waitFor();
    await page.getByRole('button', { name: 'It is put right' }).click();
    const settling = page.getByRole('dialog', { name: 'Is it put right?' });
    await settling.getByRole('button', { name: 'It is put right' }).click();
    // Its rework is not done yet: refused, with what to do.
    await settling
      .getByRole('alert')
      .getByText(/Its rework is not done/)
      .waitFor();
  });

  test('a change that the yard asks for waits for its owner, and is told when it is declined', async () => {
    const page = await screens.signedIn(mailOf('ines'), block);
    await page.goto('/yards/small/desk');
    await page.getByRole('button', { name: 'Ask for a change' }).click();
    const dialog = page.getByRole('dialog', { name: 'Ask for a change' });
    await dialog.getByLabel('Which part').selectOption({ label: 'Hatch of Petrel (Petrel)' });
    await dialog.getByLabel('Area', { exact: true }).fill('2.5');
    await dialog.getByLabel(/^In your words/).fill('The frame is wider.');
    await dialog.getByRole('button', { name: 'Ask for it' }).click();
    await page.getByText('It is asked for, and is being priced.').waitFor();
    await page.getByRole('link', { name: /The frame is wider/ }).click();
    await page.getByText('Its owner says yes or no.').waitFor();
    await page.getByText('waits for a word').waitFor({ timeout: 60_000 });
    await isFit(page, 'desk-change');
    expect(await page.getByRole('button', { name: /^Accept/ }).count()).toBe(0);
    const shelf = { id: 'shelf', name: 'Shelf', space: 'bay', areaM2: 1, jobs: [] };
    const added = await call('ines', 'POST', '/refits/heron-refit/parts', shelf);
    expect(added.status, JSON.stringify(added.body)).toBe(201);
    // The page says so by itself: at the old price nobody could say yes.
    const outdated = page.getByText('The work of the yard has changed since this was priced');
    await outdated.waitFor();
    await isFit(page, 'desk-change-outdated');
    await page.getByRole('button', { name: /^Price it again/ }).click();
    await outdated.waitFor({ state: 'detached' });
    await page.getByText('waits for a word').waitFor({ timeout: 60_000 });
    const id = page.url().split('/').at(-1) ?? '';
    await call('odile', 'POST', `/changes/${id}/decline`, { note: 'Leave it.' });
    await page.getByText('“Leave it.”').waitFor();
    await page.getByText('declined', { exact: true }).waitFor();
  });

  test('says so where a thing does not wait any more, or never was', async () => {
    const page = await screens.signedIn(mailOf('ines'), block);
    await page.goto('/yards/small/desk/booking/none-such');
    await page.getByText('This does not wait any more.').waitFor();
    await page.goto('/yards/small/desk/of-nothing/1');
    await page.getByRole('heading', { level: 1, name: 'There is no such page' }).waitFor();
  });
});
