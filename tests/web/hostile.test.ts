import type { Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import { addDays, weekStart } from '#calendar/local-date.ts';
import { toLocal } from '#calendar/local-time.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { testApi } from '../support/api.ts';
import { sidewaysScroll, testScreens } from '../support/browser.ts';
import { testDatabase } from '../support/database.ts';
import { publishPlan } from '../support/published-plan.ts';
import { twoBoats } from '../support/two-boats.ts';
import { goTo, watchRequests } from './looks/settled.ts';

/**
 * Whoever names a boat can name it `<img onerror=…>`. Every text of the yard is something that
 * would run, hide, turn the line round or push the page aside if it were not shown as text.
 */
const database = testDatabase();
const api = testApi(database);
const screens = testScreens(api);
const today = toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date;
const monday = addDays(weekStart(today), -7);

const struck = 'globalThis.struck = 1';
const image = `<img src=x onerror="${struck}">`;
const script = `</title></script><script>${struck}</script>`;
const link = `javascript:${struck}//`;
const turned = '\u202Egnp.taob\u202C \u2066hull\u2069 \u200Fkeel';
const long = 'Wrongstaysailhalyardwinchhandlepocketscrewcoverplatebeddingcompoundtubecapthreadx';

function hostileYard(): YardInput {
  const yard = twoBoats(today);
  const [bay, hull] = yard.spaces ?? [];
  return {
    ...yard,
    name: `Yard ${script}`,
    skills: (yard.skills ?? []).map((skill) => ({ ...skill, name: `${image} ${skill.id}` })),
    people: (yard.people ?? []).map((person) => ({
      ...person,
      name: person.id === 'bram' ? `Bram ${image}` : `${person.id} ${turned}`,
      exceptions: [{ date: addDays(today, 30), shifts: [], reason: script }],
    })),
    spaces: [
      { ...bay, name: long },
      { ...hull, name: `Hull ${image}` },
    ],
    tools: (yard.tools ?? []).map((tool) => ({ ...tool, name: link })),
    stocks: [{ id: 'gel', name: image, unit: '<mark>kg</mark>', total: 3 }],
    deliveries: [{ id: 'foam', name: long, expected: `${addDays(today, 3)}T08:00:00Z` }],
    slotLists: [{ id: 'crane', name: script, kind: 'crane', slots: [] }],
    materials: (yard.materials ?? []).map((material) => ({
      ...material,
      name: `Epoxy ${image}`,
      cautions: [`${script} gloves`],
    })),
    procedures: (yard.procedures ?? []).map((procedure) => ({
      ...procedure,
      name: long,
      steps: procedure.steps.map((step) => ({ ...step, name: `${step.id} ${image}` })),
    })),
    boats: (yard.boats ?? []).map((boat) => ({
      ...boat,
      name: boat.id === 'petrel' ? `Petrel ${image}` : long,
      refits: boat.refits?.map((refit) => ({
        ...refit,
        name: script,
        parts: refit.parts?.map((part) => ({ ...part, name: `Hatch ${turned}` })),
      })),
    })),
  };
}

const ago = (minutes: number): string =>
  new Date(Math.floor(Date.now() / 60_000 - minutes) * 60_000).toISOString();
let planId = '';
beforeAll(async () => {
  const tokens = new Map<string, string>();
  for (const who of ['ines', 'bram', 'odile']) {
    await api.addAccount(`${who}@yard.test`);
    tokens.set(who, await api.signIn(`${who}@yard.test`));
  }
  const token = tokens.get('ines') ?? '';
  const made = await api.rest('POST', '/yards', { token, body: hostileYard() });
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
  await api.join('small');
  await publishPlan(database, 'small');
  const plan = await api.rest('GET', '/yards/small/published-plan', { token });
  planId = String(plan.body.id);
  const change = { kind: 'size', partId: 'petrel-hatch', areaM2: 3 };
  const asked = await api.rest('POST', '/yards/small/changes', {
    token: tokens.get('odile') ?? '',
    body: { change, words: `Larger ${image}` },
  });
  expect(asked.status).toBe(201);
  const byBram = async (path: string, body: unknown): Promise<Record<string, unknown>> => {
    const answer = await api.rest('POST', `/yards/small${path}`, {
      token: tokens.get('bram') ?? '',
      body,
    });
    if (answer.status >= 300) throw new Error(`${path}: ${JSON.stringify(answer.body)}`);
    return answer.body;
  };
  const claim = String((await byBram('/tasks/petrel-panel.lay-up/claims', {})).id);
  await byBram(`/claims/${claim}/start`, { at: ago(4000) });
  await byBram(`/claims/${claim}/finish`, { at: ago(3900) });
  await byBram('/parts/petrel-hatch/snags', { kind: 'void', words: `Void ${script} ${long}` });
});

const rooms = [
  'people',
  'people/bram',
  'skills',
  'skills/laminating',
  'spaces',
  'spaces/bay',
  'spaces/+',
  'materials',
  'materials/epoxy',
  'procedures',
  'procedures/panel',
  'boats',
  'boats/petrel',
  'tools',
  'tools/sander',
  'stocks/gel',
  'deliveries',
  'slot-lists/crane',
  'barriers/+',
  'readings',
  'calendars',
  'productivity',
  'warnings',
  'yard',
];

/** What of the texts became part of the page, and by how much they push it aside. */
async function harmOf(page: Page, path: string): Promise<string[]> {
  await goTo(page, path);
  const harm = await page.evaluate<string[]>(`[
    ...('struck' in globalThis ? ['it ran'] : []),
    ...[...document.querySelectorAll('img[src="x"], main mark, a[href^="javascript:"], main script')]
      .map((one) => 'made of text: ' + one.outerHTML),
  ]`);
  const sideways = await sidewaysScroll(page);
  if (sideways > 0) harm.push(`pushed aside by ${String(sideways)} px`);
  return harm.map((one) => `${path}: ${one}`);
}

/** The texts that a page has to show, as they were typed. */
const shown = (page: Page): Promise<string> =>
  page.evaluate<string>(`document.body.innerText + [...document.querySelectorAll('input, textarea, option')]
    .map((one) => one.value + one.label).join(' ')`);

const seat = async (who: string): Promise<Page> => {
  const page = await screens.signedIn(`${who}@yard.test`, {
    width: 360,
    // Playwright says that it keeps the worker away.
    allow: /registration blocked by Playwright/,
    more: { serviceWorkers: 'block' },
  });
  watchRequests(page);
  return page;
};

test('the foreman’s pages show it as text, title and print included', async () => {
  const page = await seat('ines');
  const harm: string[] = [];
  const paths = [
    `week?from=${monday}`,
    'plans',
    `plans/${planId}/sheet?from=${monday}`,
    'desk',
    'set-up',
    ...rooms.map((room) => `set-up/${room}`),
  ];
  for (const path of paths) harm.push(...(await harmOf(page, `/yards/small/${path}`)));
  expect(harm).toEqual([]);

  await goTo(page, '/yards/small/set-up/people/bram');
  expect(await shown(page)).toContain(`Bram ${image}`);
  await expect.poll(() => page.title()).toContain(`Bram ${image}`);
  await goTo(page, '/yards/small/set-up');
  expect(await page.title()).toContain(`Yard ${script}`);
  await goTo(page, '/yards/small/set-up/spaces');
  expect(await shown(page)).toContain(long);
  await goTo(page, '/yards/small/set-up/people');
  expect(await shown(page)).toContain(turned);

  await goTo(page, `/yards/small/plans/${planId}/sheet?from=${monday}`);
  await page.emulateMedia({ media: 'print' });
  expect(await shown(page)).toContain(`Bram ${image}`);
  expect(await sidewaysScroll(page)).toBe(0);
}, 240_000);

test('so do the builder’s and the owner’s', async () => {
  const builder = await seat('bram');
  expect(await harmOf(builder, '/yards/small/now')).toEqual([]);
  expect(await shown(builder)).toContain(image);
  const owner = await seat('odile');
  expect(await harmOf(owner, '/yards/small/my-boat')).toEqual([]);
  expect(await shown(owner)).toContain(`Petrel ${image}`);
  expect(await shown(owner)).toContain(`Larger ${image}`);
});

test('what is typed on a page is refused or kept as it was typed', async () => {
  const page = await seat('ines');
  await goTo(page, '/yards/small/set-up/skills/+');
  await page.getByLabel('Name', { exact: true }).fill(image);
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByRole('heading', { level: 1, name: image }).waitFor();
  expect(await harmOf(page, '/yards/small/set-up/skills')).toEqual([]);
  await page.getByRole('link', { name: image }).first().waitFor();

  // The service names the value that it does not take, and the page shows that as text too.
  await goTo(page, '/yards/small/set-up/yard');
  await page.getByLabel('Currency', { exact: true }).fill('<b>');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('use three capital letters').first().waitFor();
  expect(await page.locator('main b').count()).toBe(0);
});
