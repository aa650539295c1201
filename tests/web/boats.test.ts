import type { Locator, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { axeFaults, shot, sidewaysScroll, testScreens } from '../support/browser.ts';
import { people, smallYardApi } from '../support/small-yard-api.ts';

/** From a boat's name to the tasks that wait to be planned, and back again. */
const { api, tokens } = smallYardApi();
const screens = testScreens(api);

const room = '/yards/small/set-up/boats';
const open = async (id: string, look: { width?: number; theme?: 'dark' } = {}): Promise<Page> => {
  const page = await screens.signedIn(people.foreman, look);
  await page.goto(`${room}${id}`);
  await page.getByRole('heading', { level: 1 }).waitFor();
  return page;
};
const ask = (method: string, path: string, body?: unknown) =>
  api.rest(method, path, {
    token: tokens.foreman,
    ...(body === undefined ? {} : { body }),
  });
const has = async (path: string): Promise<Record<string, unknown>> =>
  (await ask('GET', `/yards/small/${path}`)).body;
const press = (where: Page | Locator, name: string): Promise<void> =>
  where.getByRole('button', { name, exact: true }).click();
const field = (where: Page | Locator, name: string): Locator =>
  where.getByLabel(name, { exact: true });
/** In which units the foreman wants quantities shown. */
const shownIn = async (units: 'metric' | 'imperial'): Promise<void> => {
  const token = tokens.foreman;
  const { headers } = await api.rest('GET', '/me', { token });
  const etag = { 'if-match': headers.get('etag') ?? '' };
  const { status } = await api.rest('PATCH', '/me', { token, headers: etag, body: { units } });
  expect(status).toBe(200);
};
/** The window that is open is filled and saved. */
const saves = async (page: Page, fill: (dialog: Locator) => Promise<void>): Promise<void> => {
  const dialog = page.getByRole('dialog');
  await fill(dialog);
  await press(dialog, 'Save');
  await dialog.waitFor({ state: 'detached' });
};

async function isFit(page: Page, name: string): Promise<void> {
  expect(await axeFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  await shot(page, name);
}

describe('a boat', () => {
  test('gets a refit, a part and a job, and the job its tasks', async () => {
    const page = await open('');
    await page.getByRole('link', { name: 'New boat' }).click();
    await field(page, 'Name').fill('Guillemot');
    await field(page, 'Owner').selectOption('Odile');
    await press(page, 'Save');
    await page.waitForURL(`**${room}/guillemot`);
    await page.getByText('Owned by Odile').waitFor();
    await press(page, 'Add a refit');
    await saves(page, async (dialog) => {
      await field(dialog, 'Name of the refit').fill('Spring');
      await field(dialog, 'Work may begin').fill('2026-12-01T08:00');
      await dialog.getByLabel(/^Promised for/).fill('2026-12-20T16:00');
    });
    const refit = page.getByRole('region', { name: 'Spring', exact: true });
    await refit.getByText('Promised for Sun 20 Dec, 16:00').waitFor();
    await press(refit, 'Add a part');
    await saves(page, async (dialog) => {
      await field(dialog, 'Name of the part').fill('Locker lid');
      await field(dialog, 'It is in').selectOption('Bench bay');
      await field(dialog, 'Area').fill('1.5');
    });
    await press(page, 'Add a job to Locker lid');
    await saves(page, async (dialog) => {
      await field(dialog, 'Procedure').selectOption('Laminate and fair a panel');
    });
    const part = page.getByRole('region', { name: 'Locker lid', exact: true });
    await part.getByText('2 tasks: 2 waiting').waitFor();
    expect(await has('boats/guillemot')).toMatchObject({
      owner: 'odile',
      refits: [
        {
          id: 'guillemot-spring',
          // London is on UTC in December.
          promised: '2026-12-20T16:00:00Z',
          parts: [
            {
              id: 'guillemot-locker-lid',
              areaM2: 1.5,
              jobs: [{ id: 'guillemot-locker-lid-panel', procedure: 'panel' }],
            },
          ],
        },
      ],
    });
    await isFit(page, 'boat');
  });

  test('goes from the inside out, and says what has to go first', async () => {
    const token = tokens.foreman;
    await ask('POST', '/yards/small/boats', {
      id: 'tern',
      name: 'Tern',
      refits: [
        {
          id: 'tern-refit',
          name: 'Rudder',
          release: '2026-12-01T08:00:00Z',
          parts: [
            {
              id: 'tern-rudder',
              name: 'Rudder blade',
              space: 'bay',
              areaM2: 1,
              jobs: [{ id: 'tern-rudder', procedure: 'panel' }],
            },
          ],
        },
      ],
    });
    const page = await open('/tern');
    await press(page, 'Remove Tern');
    const dialog = page.getByRole('dialog');
    await dialog.getByText('It has a refit: Rudder. Remove them first.').waitFor();
    expect(await dialog.getByRole('button', { name: 'Remove', exact: true }).count()).toBe(0);
    await press(dialog, 'Close');
    await press(page, 'Remove Laminate and fair a panel (Rudder blade)');
    await dialog.getByText(/It takes its 2 tasks with it/).waitFor();
    await press(dialog, 'Remove');
    await page.getByText('No job yet: a procedure that is carried out on it.').waitFor();
    for (const name of ['Rudder blade', 'Rudder']) {
      await press(page, `Remove ${name}`);
      await press(dialog, 'Remove');
      await dialog.waitFor({ state: 'detached' });
    }
    await page.getByText(/No refit yet/).waitFor();
    await press(page, 'Remove Tern');
    await press(dialog, 'Remove');
    await page.waitForURL(`**${room}`);
    expect((await api.rest('GET', '/yards/small/boats/tern', { token })).status).toBe(404);
  });
});

describe('a part', () => {
  test('is measured in the units of whoever looks', async () => {
    await shownIn('imperial');
    try {
      const page = await open('/petrel');
      const part = page.getByRole('region', { name: 'Fore hatch', exact: true });
      await part.getByText(/21\.5 sq ft/).waitFor();
      await press(page, 'Change Fore hatch');
      await saves(page, (dialog) => field(dialog, 'Area').fill('25'));
      await part.getByText(/25 sq ft/).waitFor();
      const { areaM2 } = (await has('parts/hatch')) as { areaM2: number };
      expect(areaM2).toBeCloseTo(25 * 0.09290304, 6);
    } finally {
      await shownIn('metric');
    }
  });

  test('that is refused keeps what was typed, and another’s change comes live', async () => {
    const page = await open('/petrel', { width: 360, theme: 'dark' });
    const part = page.getByRole('region', { name: 'Fore hatch', exact: true });
    await press(page, 'Change Fore hatch');
    const dialog = page.getByRole('dialog');
    await press(dialog, 'Add a layer');
    await dialog
      .getByRole('group', { name: 'Layer 1' })
      .getByLabel(/^Thickness/)
      .fill('900');
    await press(dialog, 'Save');
    await dialog.getByRole('alert').waitFor();
    await isFit(page, 'part-refused');
    expect(await dialog.getByLabel(/^Thickness/).inputValue()).toBe('900');
    expect(await has('parts/hatch')).toMatchObject({ layers: [] });
    await dialog.getByLabel(/^Thickness/).fill('9');
    await press(dialog, 'Save');
    await part.getByText(/outermost polyester/).waitFor();
    await ask('POST', '/yards/small/refits/petrel-winter/parts', {
      id: 'sole',
      name: 'Cockpit sole',
      space: 'hull',
      areaM2: 3,
    });
    await page.getByRole('region', { name: 'Cockpit sole', exact: true }).waitFor();
    await isFit(page, 'boat');
  });
});
