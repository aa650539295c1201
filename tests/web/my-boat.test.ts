import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { toLocal } from '#calendar/local-time.ts';
import { type Answer, testApi } from '../support/api.ts';
import { axeFaults, shot, sidewaysScroll, testScreens } from '../support/browser.ts';
import { testDatabase } from '../support/database.ts';
import { type Process, startWorkerProcess } from '../support/processes.ts';
import { publishPlan } from '../support/published-plan.ts';
import { twoBoats } from '../support/two-boats.ts';
import { until } from '../support/until.ts';

/** Two owners look at their boats; the yard prices what they ask for, and shows what it found. */
const database = testDatabase();
const photoFolder = join(tmpdir(), `curewright-my-boat-${crypto.randomUUID()}`);
const api = testApi(database, { photoFolder });
const screens = testScreens(api);
const block = {
  more: { serviceWorkers: 'block' },
  allow: /registration blocked by Playwright/,
} as const;

const people = ['ines', 'bram', 'odile', 'otto'] as const;
type Name = (typeof people)[number];
const mailOf = (name: Name): string => `${name}@yard.test`;
const tokens = new Map<Name, string>();
const call = (who: Name, method: string, path: string, body?: unknown): Promise<Answer> =>
  api.rest(method, `/yards/small${path}`, {
    token: tokens.get(who) ?? '',
    ...(body === undefined ? {} : { body }),
  });
const idOf = ({ body }: Answer): string => z.string().parse(body.id);
const description = 'A hand’s breadth from the forward edge, <b>hollow</b> when tapped.';

let worker: Process | undefined;
let shownSnag = '';

beforeAll(async () => {
  for (const name of people) {
    await api.addAccount(mailOf(name));
    tokens.set(name, await api.signIn(mailOf(name)));
  }
  const yard = twoBoats(toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date);
  // What is expected is still to come.
  const release = new Date(Math.ceil(Date.now() / 3_600_000) * 3_600_000).toISOString();
  for (const { refits = [] } of yard.boats ?? [])
    for (const refit of refits) refit.release = release;
  const made = await api.rest('POST', '/yards', { token: tokens.get('ines') ?? '', body: yard });
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
  await api.join('small');
  await publishPlan(database, 'small');
  worker = await startWorkerProcess(database.serviceUrl);
  const raised = await call('bram', 'POST', '/parts/petrel-hatch/snags', {
    kind: 'damage',
    words: description,
  });
  shownSnag = idOf(raised);
  const picture = sharp({
    create: { width: 900, height: 600, channels: 3, background: '#b9a48a' },
  });
  const photo = await fetch(`${api.url}/api/v1/yards/small/snags/${shownSnag}/photos`, {
    method: 'POST',
    headers: { authorization: `Bearer ${tokens.get('bram') ?? ''}`, 'content-type': 'image/png' },
    body: new Uint8Array(await picture.png().toBuffer()),
  });
  if (photo.status !== 201) throw new Error(await photo.text());
}, 120_000);
afterAll(async () => {
  await worker?.end('SIGKILL');
  await rm(photoFolder, { recursive: true, force: true });
});

const pricedSchema = z.object({
  items: z.array(
    z.object({ id: z.string(), proposal: z.object({ id: z.string(), state: z.string() }) }),
  ),
});

async function isFit(page: Page, name: string): Promise<void> {
  expect(await axeFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  await shot(page, name);
}

const region = (page: Page, name: string) => page.getByRole('region', { name, exact: true });

describe('an owner', () => {
  test('reads when the boat is ready and whether that is kept, on a phone', async () => {
    const page = await screens.signedIn(mailOf('odile'), { width: 360, ...block });
    await page.goto('/yards/small/my-boat');
    await page.getByRole('heading', { level: 1, name: 'Petrel' }).waitFor();
    const answer = region(page, 'Petrel, hatch');
    await answer.getByText('Promised', { exact: true }).waitFor();
    await answer.getByText('In time.', { exact: true }).waitFor();
    await answer.getByText(/^None of the \d+ pieces of work is done yet\.$/).waitFor();
    // The answer is there without scrolling.
    const box = await answer.getByText('In time.', { exact: true }).boundingBox();
    expect(box?.y).toBeLessThan(780);
    await region(page, 'What changed')
      .getByText(/planned to be finished/)
      .first()
      .waitFor();
    expect(await page.content()).not.toMatch(/heron|otto/i);
    await isFit(page, 'my-boat-owner');
  });

  test('sees what was found once the yard shows it, with the photo, as text', async () => {
    const page = await screens.signedIn(mailOf('odile'), { theme: 'dark', ...block });
    await page.goto('/yards/small/my-boat');
    const found = region(page, 'What was found');
    await found.getByText('The yard has shown you nothing that was found.').waitFor();
    const { headers } = await call('ines', 'GET', `/snags/${shownSnag}`);
    const shown = await api.rest('PATCH', `/yards/small/snags/${shownSnag}`, {
      token: tokens.get('ines') ?? '',
      body: { shownToOwner: true },
      headers: { 'if-match': headers.get('etag') ?? '' },
    });
    expect(shown.status).toBe(200);
    await found.getByText(description).waitFor();
    const photo = found.getByRole('img', { name: /^Photo 1 of 1: .* on Hatch of Petrel, found / });
    await photo.waitFor();
    await expect
      .poll(() => photo.evaluate((one) => (one instanceof HTMLImageElement ? one.naturalWidth : 0)))
      .toBeGreaterThan(0);
    await isFit(page, 'my-boat-owner');
  });

  test('asks for a change, sees its price in days, and takes it or not', async () => {
    const page = await screens.signedIn(mailOf('odile'), block);
    await page.goto('/yards/small/my-boat');
    const orders = region(page, 'Changes to the work');
    await orders.getByRole('button', { name: 'Ask for a change' }).click();
    const dialog = page.getByRole('dialog', { name: 'Ask for a change' });
    await dialog.getByLabel('Area', { exact: true }).fill('-3');
    await dialog.getByLabel(/^In your words/).fill('With a lip all round.');
    await dialog.getByRole('button', { name: 'Ask for it' }).click();
    // Refused, with what was typed still there.
    await dialog.getByRole('alert').waitFor();
    expect(await dialog.getByLabel(/^In your words/).inputValue()).toBe('With a lip all round.');
    await dialog.getByLabel('Area', { exact: true }).fill('3');
    await isFit(page, 'my-boat-ask');
    await dialog.getByRole('button', { name: 'Ask for it' }).click();
    await orders.getByText('It is asked for, and is being priced.').waitFor();
    // The price comes by itself.
    await orders.getByText('waits for your word').waitFor({ timeout: 60_000 });
    await orders
      .getByText(/crew hours more\.$/)
      .first()
      .waitFor();
    expect(await orders.innerText()).not.toMatch(/heron|£|€/i);
    await isFit(page, 'my-boat-priced');
    await orders.getByRole('button', { name: /^Accept: / }).click();
    const yes = page.getByRole('dialog', { name: 'Accept this change?' });
    // Another price comes while she thinks: her yes is not to that one.
    const priced = async (): Promise<z.output<typeof pricedSchema>['items']> =>
      pricedSchema.parse((await call('odile', 'GET', '/changes?state=priced')).body).items;
    const [waiting] = await priced();
    const readAnew = page.waitForResponse((answer) => /\/changes\b/.test(answer.url()));
    expect((await call('ines', 'POST', `/changes/${waiting.id}/reprice`)).status).toBe(200);
    await readAnew;
    await until(async () => {
      const again = (await priced()).at(0);
      return again?.proposal.state === 'priced' && again.proposal.id !== waiting.proposal.id;
    }, 60_000);
    await yes.getByRole('button', { name: 'Accept', exact: true }).click();
    await yes
      .getByRole('alert')
      .getByText(/There is a later price/)
      .waitFor();
    await yes.getByRole('button', { name: 'Cancel' }).click();
    await orders.getByRole('button', { name: /^Accept: / }).click();
    await yes.getByRole('button', { name: 'Accept', exact: true }).click();
    await orders.getByText('One decided earlier').click();
    await orders.getByText('accepted', { exact: true }).waitFor();
  });

  test('declines what the yard asks for, and says why; the yard reads it', async () => {
    const page = await screens.signedIn(mailOf('odile'), { width: 360, ...block });
    await page.goto('/yards/small/my-boat');
    const asked = await call('ines', 'POST', '/changes', {
      change: { kind: 'size', partId: 'petrel-hatch', areaM2: 5 },
      words: 'The old frame is wider than thought.',
    });
    expect(asked.status).toBe(201);
    const orders = region(page, 'Changes to the work');
    await orders.getByText('waits for your word').waitFor({ timeout: 60_000 });
    await orders.getByRole('button', { name: /^Decline: .*The old frame is wider/ }).click();
    const dialog = page.getByRole('dialog', { name: 'Decline this change?' });
    await dialog.getByLabel(/^Why not/).fill('I would rather keep the frame.');
    await dialog.getByRole('button', { name: 'Decline', exact: true }).click();
    await dialog.waitFor({ state: 'detached' });
    const { body } = await call('ines', 'GET', `/changes/${idOf(asked)}`);
    expect(body).toMatchObject({ state: 'declined', note: 'I would rather keep the frame.' });
    await region(page, 'What changed')
      .getByText(/^You declined the change: /)
      .waitFor();
  });

  test('prints the page without what can only be pressed', async () => {
    const page = await screens.signedIn(mailOf('odile'), block);
    await page.goto('/yards/small/my-boat');
    await region(page, 'Petrel, hatch').waitFor();
    await page.emulateMedia({ media: 'print' });
    expect(await page.getByRole('button').filter({ visible: true }).count()).toBe(0);
    await shot(page, 'my-boat-print');
  });

  test('of several boats finds each, and nothing of those of others', async () => {
    await database.owner.boat.update({
      where: { yardId_id: { yardId: 'small', id: 'petrel' } },
      data: { ownerId: 'otto' },
    });
    const page = await screens.signedIn(mailOf('otto'), { width: 768, ...block });
    await page.goto('/yards/small/my-boat');
    await page.getByRole('heading', { level: 1, name: 'Your boats' }).waitFor();
    await page.getByRole('link', { name: 'Heron' }).waitFor();
    await page.getByRole('heading', { level: 2, name: 'Petrel' }).waitFor();
    await isFit(page, 'my-boat-several');
    const none = await screens.signedIn(mailOf('odile'), block);
    await none.goto('/yards/small/my-boat');
    await none.getByText('No boat of yours is in this yard').waitFor();
    expect(await none.content()).not.toMatch(/heron|petrel/i);
  });
});
